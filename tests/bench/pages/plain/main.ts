/**
 * The floor of a picture that is moved: a canvas in the same place, on which fingers move and stretch
 * one picture made before, as large as the canvas; and of a picture drawn first: the same pixels in one
 * colour.
 */
interface Place {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

declare global {
  interface Window {
    /** CSS pixels. */
    benchPlace: (place: Place) => void;
  }
}

const COLOURS = [0xff3d6f5b, 0xffd4e4ee];

const found = document.querySelector('canvas');
if (found === null) throw new Error('got a page without a canvas, wanted index.html');
const canvas: HTMLCanvasElement = found;
const picture = document.createElement('canvas');
const fingers = new Map<number, { readonly x: number; readonly y: number }>();
let view = { x: 0, y: 0, scale: 1 };
let frame = 0;

window.benchPlace = ({ left, top, width, height }) => {
  Object.assign(canvas.style, {
    left: `${left}px`,
    top: `${top}px`,
    width: `${width}px`,
    height: `${height}px`,
  });
  for (const it of [canvas, picture]) {
    it.width = Math.round(width * devicePixelRatio);
    it.height = Math.round(height * devicePixelRatio);
  }
  fill(picture, 0);
};

function contextOf(it: HTMLCanvasElement): CanvasRenderingContext2D {
  const ctx = it.getContext('2d', { alpha: false });
  if (ctx === null) throw new Error('got no context, wanted one');
  return ctx;
}

function fill(it: HTMLCanvasElement, colour: number): void {
  const ctx = contextOf(it);
  const image = ctx.createImageData(it.width, it.height);
  new Uint32Array(image.data.buffer).fill(COLOURS[colour] ?? 0);
  ctx.putImageData(image, 0, 0);
}

let clicks = 0;
canvas.addEventListener('click', () => {
  clicks += 1;
  fill(canvas, clicks % 2);
});
canvas.addEventListener('pointerdown', ({ pointerId, clientX: x, clientY: y }) => {
  fingers.set(pointerId, { x, y });
});
for (const end of ['pointerup', 'pointercancel'] as const) {
  canvas.addEventListener(end, ({ pointerId }) => fingers.delete(pointerId));
}
canvas.addEventListener('pointermove', ({ pointerId, clientX: x, clientY: y }) => {
  const before = fingers.get(pointerId);
  if (before === undefined) return;
  fingers.set(pointerId, { x, y });
  const other = [...fingers].find(([id]) => id !== pointerId)?.[1];
  if (other === undefined) {
    // Round and round, so that there is always something to see.
    view = {
      ...view,
      x: (view.x + x - before.x) % canvas.width,
      y: (view.y + y - before.y) % canvas.height,
    };
  } else {
    const apart = (to: typeof before) => Math.hypot(to.x - other.x, to.y - other.y);
    view = { ...view, scale: (view.scale * apart({ x, y })) / apart(before) };
  }
  if (frame === 0) frame = requestAnimationFrame(draw);
});

function draw(): void {
  frame = 0;
  const ctx = contextOf(canvas);
  ctx.fillRect(0, 0, canvas.width, canvas.height);
  const { x, y, scale } = view;
  ctx.drawImage(picture, x, y, picture.width * scale, picture.height * scale);
}
