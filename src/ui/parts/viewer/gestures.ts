/** Fingers, mouse, wheel and keys on the picture, as moves and zooms of its stage. */
import type { Point, Stage } from './stage.ts';

/** How far a key or a button moves the page, as a share of the place, and how much it zooms. */
const STEP = 0.2;
const ZOOM = 1.6;
/** A wheel's notch is about 100. */
const WHEEL = 0.0022;

/** Listens on the canvas until the function it gives back is called. */
export function listen(canvas: HTMLCanvasElement, stage: Stage): () => void {
  const fingers = new Map<number, Point>();
  const down = (event: PointerEvent) => {
    canvas.setPointerCapture(event.pointerId);
    fingers.set(event.pointerId, pointOf(event, canvas));
  };
  const move = (event: PointerEvent) => {
    const before = fingers.get(event.pointerId);
    if (before === undefined) return;
    const now = pointOf(event, canvas);
    const other = [...fingers].find(([id]) => id !== event.pointerId)?.[1];
    fingers.set(event.pointerId, now);
    if (other === undefined) stage.move(now.x - before.x, now.y - before.y);
    else pinch(stage, other, before, now);
  };
  const up = (event: PointerEvent) => fingers.delete(event.pointerId);
  const wheel = (event: WheelEvent) => {
    event.preventDefault();
    const lines = event.deltaMode === WheelEvent.DOM_DELTA_LINE ? 33 : 1;
    const notch = Math.max(-300, Math.min(300, event.deltaY * lines));
    stage.zoom(Math.exp(-notch * WHEEL), pointOf(event, canvas));
  };
  canvas.addEventListener('pointerdown', down);
  canvas.addEventListener('pointermove', move);
  for (const end of ['pointerup', 'pointercancel'] as const) canvas.addEventListener(end, up);
  canvas.addEventListener('wheel', wheel, { passive: false });
  return () => {
    canvas.removeEventListener('pointerdown', down);
    canvas.removeEventListener('pointermove', move);
    for (const end of ['pointerup', 'pointercancel'] as const) canvas.removeEventListener(end, up);
    canvas.removeEventListener('wheel', wheel);
  };
}

function pointOf(event: MouseEvent, canvas: HTMLCanvasElement): Point {
  const { left, top } = canvas.getBoundingClientRect();
  return { x: event.clientX - left, y: event.clientY - top };
}

/** One finger of two has moved: the middle draws the page along, their distance zooms it. */
function pinch(stage: Stage, other: Point, before: Point, now: Point): void {
  stage.move((now.x - before.x) / 2, (now.y - before.y) / 2);
  const apart = (point: Point) => Math.max(1, Math.hypot(point.x - other.x, point.y - other.y));
  const middle = { x: (now.x + other.x) / 2, y: (now.y + other.y) / 2 };
  stage.zoom(apart(now) / apart(before), middle);
}

/** What a key does, or nothing: arrows move, plus and minus zoom, 0 shows the whole. */
export function pressed(key: string, canvas: HTMLCanvasElement, stage: Stage): boolean {
  const [width, height] = [STEP * canvas.clientWidth, STEP * canvas.clientHeight];
  switch (key) {
    case 'ArrowLeft':
      stage.move(width, 0, 'gliding');
      return true;
    case 'ArrowRight':
      stage.move(-width, 0, 'gliding');
      return true;
    case 'ArrowUp':
      stage.move(0, height, 'gliding');
      return true;
    case 'ArrowDown':
      stage.move(0, -height, 'gliding');
      return true;
    case '+':
    case '=':
      stage.zoom(ZOOM, undefined, 'gliding');
      return true;
    case '-':
      stage.zoom(1 / ZOOM, undefined, 'gliding');
      return true;
    case '0':
      stage.fit();
      return true;
    default:
      return false;
  }
}
