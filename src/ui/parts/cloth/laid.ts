/** The layer of the newest pick and its shadow on the warp; how it and the picks to come are beaten in. */
import { type ClothImage, stripOf } from './compose.ts';
import type { ClothFrame } from './frame.ts';
import type { WovenPicks } from './scene.ts';

/** Device pixels: the pick, and its shadow above it. */
export function laidHeight(frame: ClothFrame): number {
  return shadeDepth(frame) + frame.pickPx;
}

/** On a canvas of `laidHeight`. */
export function paintLaid(
  canvas: HTMLCanvasElement,
  frame: ClothFrame,
  woven: WovenPicks,
  image: ClothImage,
): void {
  const pen = canvas.getContext('2d');
  if (pen === null) return;
  pen.clearRect(0, 0, canvas.width, canvas.height);
  const newest = woven.colours.length - 1;
  if (newest < 0) return;
  const strip = stripOf(image, woven, newest);
  if (strip !== undefined) {
    const pixels = new Uint8ClampedArray(strip.buffer);
    const picture = new ImageData(pixels, image.width, frame.pickPx);
    pen.putImageData(picture, frame.clothLeft, shadeDepth(frame));
  }
  shadeFell(pen, frame);
}

function shadeDepth({ dpr, pickPx }: ClothFrame): number {
  return Math.round(Math.max(3 * dpr, pickPx * 0.7));
}

/** The cloth lies a thread higher than the bare warp and throws a narrow shadow on it. */
function shadeFell(pen: CanvasRenderingContext2D, frame: ClothFrame): void {
  const depth = shadeDepth(frame);
  const shade = pen.createLinearGradient(0, 0, 0, depth);
  shade.addColorStop(0, 'rgb(20 14 8 / 0)');
  shade.addColorStop(1, 'rgb(20 14 8 / 0.38)');
  pen.fillStyle = shade;
  pen.fillRect(frame.clothLeft, 0, frame.clothWidth, depth);
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
