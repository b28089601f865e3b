/** The whole page as a PNG, painted a stretch at a time so that the screen stays alive meanwhile. */
import type { ClothPlan } from '../../../core/planner/clothPlan.ts';
import { endWidth } from '../../../core/planner/clothPlan.ts';
import { pageColours } from './colours.ts';
import { blurAt, type Distance } from './distance.ts';
import { drawMarks } from './marks.ts';
import { paintGlimpse } from './paintGlimpse.ts';

/** Less than every browser lets one canvas hold, and a file that can still be sent; its longest side. */
const MOST_PIXELS = 8_000_000;
const MOST_SIDE = 16_000;
/** Pixels to a thread: more only makes the file larger. */
const PER_THREAD = 6;
const STRETCH = 256;

/** Null where the browser refuses, or `wanted` says that nobody waits for it any more. */
export async function clothPng(
  cloth: ClothPlan,
  distance: Distance,
  wanted: () => boolean,
): Promise<Blob | null> {
  const scale = scaleOf(cloth);
  const margin = Math.ceil(Math.min(40, 0.02 * cloth.clothWidth * scale));
  const canvas = document.createElement('canvas');
  canvas.width = Math.ceil(cloth.width * scale) + 2 * margin;
  canvas.height = Math.ceil(cloth.height * scale) + 2 * margin;
  const ctx = canvas.getContext('2d', { alpha: false });
  if (ctx === null) return null;
  const look = pageColours();
  const sight = { blur: blurAt(distance), ground: look.groundPixel };
  const stretch = document.createElement('canvas');
  stretch.width = canvas.width;
  stretch.height = STRETCH;
  const part = stretch.getContext('2d', { alpha: false });
  if (part === null) return null;
  for (let top = 0; top < canvas.height; top += STRETCH) {
    const corner = { left: -margin / scale, top: (top - margin) / scale, scale };
    part.setTransform(1, 0, 0, 1, 0, 0);
    paintGlimpse(part, cloth, { ...corner, width: canvas.width, height: STRETCH }, sight);
    ctx.drawImage(stretch, 0, top);
    await nextTurn();
    if (!wanted()) return null;
  }
  const drawn = { x: margin, y: margin, scale, width: canvas.width, height: canvas.height };
  const line = Math.max(1, (endWidth(cloth) * scale) / 6);
  drawMarks(ctx, cloth, drawn, { ink: look.ink, line });
  return new Promise((resolve) => canvas.toBlob(resolve, 'image/png'));
}

function scaleOf(cloth: ClothPlan): number {
  const { width, height } = cloth;
  const fits = Math.sqrt(MOST_PIXELS / (width * height)) * 0.97;
  const side = (MOST_SIDE - 100) / Math.max(width, height);
  return Math.min(PER_THREAD / endWidth(cloth), fits, side);
}

function nextTurn(): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve));
}
