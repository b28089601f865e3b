/**
 * A layer that never changes. It holds a finished picture where the browser can: some browsers copy
 * every canvas that could still be drawn on with every frame.
 */
import { layerIn, type Place } from './layer.ts';

/** `pixels`: as wide and high as the place. */
export function plateIn(
  parent: HTMLElement,
  place: Place,
  pixels: ImageData,
  dpr: number,
): HTMLCanvasElement {
  const canvas = layerIn(parent, place, dpr);
  const picture = pictureOf(pixels);
  if (picture === null) canvas.getContext('2d', { alpha: false })?.putImageData(pixels, 0, 0);
  else canvas.getContext('bitmaprenderer', { alpha: false })?.transferFromImageBitmap(picture);
  return canvas;
}

/** Null where the browser cannot make one at once. */
function pictureOf(pixels: ImageData): ImageBitmap | null {
  if (typeof OffscreenCanvas !== 'function' || typeof ImageBitmapRenderingContext !== 'function')
    return null;
  const canvas = new OffscreenCanvas(pixels.width, pixels.height);
  const pen = canvas.getContext('2d', { alpha: false });
  pen?.putImageData(pixels, 0, 0);
  return pen === null ? null : canvas.transferToImageBitmap();
}
