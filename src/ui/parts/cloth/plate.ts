/**
 * A layer that shows a finished picture, where the browser can: some browsers copy every canvas that
 * could still be drawn on with every frame, whether it was drawn on or not.
 */
import { layerIn, type Place } from './layer.ts';

/** What is shown, and what is drawn on: one canvas where a browser cannot show a picture. */
export interface Plate {
  readonly canvas: HTMLCanvasElement;
  readonly sheet: HTMLCanvasElement;
}

/** `place`: of the layer, which is clear at first. */
export function plateIn(parent: HTMLElement, place: Place, dpr: number): Plate {
  return plateOf(layerIn(parent, place, dpr));
}

/** On a canvas that nothing was asked of yet. */
export function plateOf(canvas: HTMLCanvasElement): Plate {
  if (!canPress()) return { canvas, sheet: canvas };
  const sheet = canvas.ownerDocument.createElement('canvas');
  sheet.width = canvas.width;
  sheet.height = canvas.height;
  return { canvas, sheet };
}

/** Shows what was drawn: to be done in the frame that is to have it. */
export function press({ canvas, sheet }: Plate): void {
  if (canvas === sheet) return;
  bed ??= new OffscreenCanvas(sheet.width, sheet.height);
  // Always of the picture's own size, and clear.
  bed.width = sheet.width;
  bed.height = sheet.height;
  bed.getContext('2d')?.drawImage(sheet, 0, 0);
  canvas.getContext('bitmaprenderer')?.transferFromImageBitmap(bed.transferToImageBitmap());
}

/** One for all: a new one for each picture stays in the browser's memory for long. */
let bed: OffscreenCanvas | undefined;

/** A layer that never changes. `pixels`: as wide and high as the place. */
export function finishedIn(
  parent: HTMLElement,
  place: Place,
  pixels: ImageData,
  dpr: number,
): HTMLCanvasElement {
  const canvas = layerIn(parent, place, dpr);
  if (canPress()) {
    const press = new OffscreenCanvas(pixels.width, pixels.height);
    press.getContext('2d', { alpha: false })?.putImageData(pixels, 0, 0);
    const picture = press.transferToImageBitmap();
    canvas.getContext('bitmaprenderer', { alpha: false })?.transferFromImageBitmap(picture);
  } else canvas.getContext('2d', { alpha: false })?.putImageData(pixels, 0, 0);
  return canvas;
}

let isAble: boolean | undefined;

function canPress(): boolean {
  isAble ??=
    typeof OffscreenCanvas === 'function' &&
    typeof ImageBitmapRenderingContext === 'function' &&
    new OffscreenCanvas(1, 1).getContext('2d') !== null;
  return isAble;
}
