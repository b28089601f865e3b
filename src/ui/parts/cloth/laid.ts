/** The layer that is beaten in: the newest pick, its shadow on the warp, and the picks to come above it. */
import { paintComing } from './coming.ts';
import { type ClothImage, stripOf } from './compose.ts';
import type { ClothFrame } from './frame.ts';
import type { ClothScene } from './scene.ts';

/** `frame.fellY` is where the fell lies on this canvas. */
export function paintLaid(
  canvas: HTMLCanvasElement,
  frame: ClothFrame,
  { woven, coming, ground }: ClothScene,
  image: ClothImage,
): void {
  const ctx = canvas.getContext('2d');
  if (ctx === null) return;
  ctx.clearRect(0, 0, canvas.width, canvas.height);
  const newest = woven.colours.length - 1;
  const strip = newest < 0 ? undefined : stripOf(image, woven, newest);
  if (strip !== undefined) {
    const pixels = new Uint8ClampedArray(strip.buffer);
    ctx.putImageData(
      new ImageData(pixels, image.width, frame.pickPx),
      frame.clothLeft,
      frame.fellY,
    );
  }
  if (newest >= 0) shadeFell(ctx, frame);
  paintComing(ctx, frame, coming, ground);
}

/** The cloth lies a thread higher than the bare warp and throws a narrow shadow on it. */
function shadeFell(ctx: CanvasRenderingContext2D, frame: ClothFrame): void {
  const depth = Math.round(Math.max(3 * frame.dpr, frame.pickPx * 0.7));
  const top = frame.fellY - depth;
  const shade = ctx.createLinearGradient(0, top, 0, top + depth);
  shade.addColorStop(0, 'rgb(20 14 8 / 0)');
  shade.addColorStop(1, 'rgb(20 14 8 / 0.38)');
  ctx.fillStyle = shade;
  ctx.fillRect(frame.clothLeft, top, frame.clothWidth, depth);
}

/** How long a thrown pick takes to the fell, in milliseconds, and how far above it is laid. */
const BEAT_MS = 110;
const LAID_AT = 0.85;
/** Fast at first: 1 − (1 − t)², as a curve of CSS. */
const BEAT = 'cubic-bezier(0.333, 0.667, 0.667, 1)';

/** Shows the pick a little above the fell, then closes the gap: the browser moves what is painted. */
export function beatIn(layer: HTMLElement, { pickPx, dpr }: ClothFrame): Animation {
  const above = `translateY(${(-LAID_AT * pickPx) / dpr}px)`;
  const steps = [{ transform: above }, { transform: 'none' }];
  return layer.animate(steps, { duration: BEAT_MS, easing: BEAT });
}
