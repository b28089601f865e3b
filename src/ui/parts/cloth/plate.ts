/**
 * A layer that is painted whole and seldom, and shown in many frames. It holds a finished picture where
 * the browser can: some browsers copy every canvas that can still be drawn on with every frame.
 */
import { layerIn, type Place } from './layer.ts';

export type Pen = CanvasRenderingContext2D | OffscreenCanvasRenderingContext2D;

export interface Plate {
  readonly canvas: HTMLCanvasElement;
  /** Paints it anew; it is clear before. */
  readonly paint: (draw: (pen: Pen) => void) => void;
}

export function plateIn(parent: HTMLElement, place: Place, dpr: number): Plate {
  const canvas = layerIn(parent, place, dpr);
  const press = pressFor(canvas);
  const shown = press === null ? null : canvas.getContext('bitmaprenderer');
  return {
    canvas,
    paint: (draw) => {
      if (press !== null && shown !== null) {
        draw(press);
        shown.transferFromImageBitmap(press.canvas.transferToImageBitmap());
        return;
      }
      const pen = canvas.getContext('2d');
      pen?.clearRect(0, 0, canvas.width, canvas.height);
      if (pen !== null) draw(pen);
    },
  };
}

/** Where a picture is painted before it is shown; null where the browser cannot. */
function pressFor({ width, height }: HTMLCanvasElement): OffscreenCanvasRenderingContext2D | null {
  if (typeof OffscreenCanvas !== 'function' || typeof ImageBitmapRenderingContext !== 'function')
    return null;
  return new OffscreenCanvas(width, height).getContext('2d');
}
