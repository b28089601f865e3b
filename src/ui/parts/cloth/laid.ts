/**
 * The layer of the newest pick and its shadow on the warp; how it and the picks to come are beaten in.
 * There are two of it: on the one that is not seen the next pick can be ready before it is thrown.
 */
import { type ClothImage, stripOf } from './compose.ts';
import type { ClothFrame } from './frame.ts';
import { layerIn } from './layer.ts';
import type { WovenPicks } from './scene.ts';

export interface Laid {
  seen: LaidLayer;
  other: LaidLayer;
}

/** Whether the newest pick of a scene is beaten in before the weaver's eyes. */
export type Showing = 'thrown' | 'still';

/** A layer that comes to the fell with a thrown pick. */
export interface BeatenLayer {
  readonly canvas: HTMLCanvasElement;
  beating: Animation | undefined;
}

interface LaidLayer extends BeatenLayer {
  /** The pick painted there; undefined where there is none. */
  strip: Uint32Array | undefined;
}

export function laidIn(fell: HTMLElement, frame: ClothFrame): Laid {
  const height = laidHeight(frame);
  const place = { left: 0, top: frame.pickPx - height, width: frame.width, height };
  const layer = (): LaidLayer => {
    const canvas = layerIn(fell, place, frame.dpr);
    // not for a reader
    canvas.style.willChange = 'transform, opacity';
    return { canvas, strip: undefined, beating: undefined };
  };
  return { seen: layer(), other: layer() };
}

/** Shows the newest pick, painted before or now, and beats it in. */
export function showLaid(
  laid: Laid,
  frame: ClothFrame,
  image: ClothImage,
  woven: WovenPicks,
  how: Showing,
): void {
  readyLaid(laid, frame, image, woven);
  const { seen, other } = laid;
  seen.beating?.cancel();
  seen.canvas.style.opacity = '0';
  other.canvas.style.opacity = '1';
  [laid.seen, laid.other] = [other, seen];
  beatIn(other, frame, how);
}

/** Has the newest of these picks ready to be shown. */
export function readyLaid(
  { other }: Laid,
  frame: ClothFrame,
  image: ClothImage,
  woven: WovenPicks,
): void {
  const newest = woven.colours.length - 1;
  const strip = newest < 0 ? undefined : stripOf(image, woven, newest);
  if (strip !== undefined && strip === other.strip) return;
  other.strip = strip;
  paintLaid(other.canvas, frame, image, strip, newest < 0 ? 'nothing' : 'fell');
}

/** Where nothing is woven yet there is no fell; in a gap there is one without a pick. */
function paintLaid(
  canvas: HTMLCanvasElement,
  frame: ClothFrame,
  image: ClothImage,
  strip: Uint32Array<ArrayBuffer> | undefined,
  what: 'nothing' | 'fell',
): void {
  const pen = canvas.getContext('2d');
  if (pen === null) return;
  pen.clearRect(0, 0, canvas.width, canvas.height);
  if (what === 'nothing') return;
  if (strip !== undefined) {
    const pixels = new Uint8ClampedArray(strip.buffer);
    const picture = new ImageData(pixels, image.width, frame.pickPx);
    pen.putImageData(picture, frame.clothLeft, shadeDepth(frame));
  }
  shadeFell(pen, frame);
}

/** Device pixels: the pick, and its shadow above it. */
function laidHeight(frame: ClothFrame): number {
  return shadeDepth(frame) + frame.pickPx;
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
export const BEAT_MS = 110;
const LAID_AT = 0.85;
/** Fast at first: 1 − (1 − t)², as a curve of CSS. */
const BEAT = 'cubic-bezier(0.333, 0.667, 0.667, 1)';

/**
 * Of a thrown pick shows the layer a little above the fell, then closes the gap: the browser moves what
 * is painted. What was on its way before is there.
 */
export function beatIn(layer: BeatenLayer, { pickPx, dpr }: ClothFrame, how: Showing): void {
  layer.beating?.cancel();
  const above = `translateY(${(-LAID_AT * pickPx) / dpr}px)`;
  const steps = [{ transform: above }, { transform: 'none' }];
  layer.beating =
    how === 'thrown' ? layer.canvas.animate(steps, { duration: BEAT_MS, easing: BEAT }) : undefined;
}
