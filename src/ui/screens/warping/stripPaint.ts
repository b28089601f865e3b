/** Paints the whole heddle or reed in little: how far the warp has come, and what comes. */
import type { Letter } from '../../../core/plan/plan.ts';
import type { WarpStart } from '../../../core/plan/warping/list.ts';
import type { Column } from './columns.ts';
import type { HeddlePalette, YarnLook } from './heddlePaint.ts';

export interface StripPicture {
  /** CSS pixels. */
  readonly width: number;
  readonly height: number;
  readonly columns: readonly Column[];
  /** Where the warp lies in the whole, as a share from the left. */
  readonly from: number;
  readonly to: number;
  readonly looks: ReadonlyMap<Letter, YarnLook>;
  readonly palette: HeddlePalette;
}

/** What is still to come is this pale. */
const PALE = 0.38;
const POINTER = 12;

/** The share of the weaving width that the warp takes, from the left as the list runs. */
export function shareOf(
  start: WarpStart,
  used: number,
): { readonly from: number; readonly to: number } {
  return { from: start.index / start.of, to: Math.min(1, (start.index + used) / start.of) };
}

export function paintStrip(ctx: CanvasRenderingContext2D, strip: StripPicture): void {
  const { width, height, columns, palette } = strip;
  const [top, bottom] = [POINTER, height - 2];
  ctx.clearRect(0, 0, width, height);
  ctx.fillStyle = palette.ground;
  ctx.fillRect(0, top, width, bottom - top);
  const left = strip.from * width;
  const step = ((strip.to - strip.from) * width) / Math.max(1, columns.length);
  ctx.fillStyle = palette.line;
  ctx.globalAlpha = 0.45;
  ctx.fillRect(left, top, columns.length * step, bottom - top);
  ctx.globalAlpha = 1;
  columns.forEach((column, i) => {
    paintColumn(ctx, strip, column, left + i * step, step, top, bottom);
  });
  ctx.strokeStyle = palette.quiet;
  ctx.lineWidth = 2;
  ctx.strokeRect(1, top, width - 2, bottom - top);
  paintMiddle(ctx, strip, bottom);
  const first = columns.findIndex((column) => column.now);
  if (first < 0) return;
  const last = columns.findLastIndex((column) => column.now);
  paintPointer(ctx, strip, left + first * step, left + (last + 1) * step, bottom);
}

/** Slots lie in the upper half, holes in the lower; ends on shafts take the whole height. */
function paintColumn(
  ctx: CanvasRenderingContext2D,
  { looks, palette }: StripPicture,
  { kind, holds, willHold }: Column,
  x: number,
  width: number,
  top: number,
  bottom: number,
): void {
  const middle = (top + bottom) / 2;
  const letter = holds[0] ?? willHold[0];
  if (letter === undefined) return;
  ctx.fillStyle = looks.get(letter)?.colour ?? palette.quiet;
  ctx.globalAlpha = holds.length > 0 ? 1 : PALE;
  const from = kind === 'hole' ? middle + 1 : top + 1;
  const to = kind === 'slot' ? middle : bottom - 1;
  // A slot or a hole is drawn as wide as both: side by side they would leave gaps.
  const spread = kind === 'slot' || kind === 'hole' ? width / 2 : 0;
  // On whole pixels, or pale neighbours would overlap in a seam.
  const left = Math.round(x - spread);
  ctx.fillRect(left, from, Math.round(x + width + spread) - left, to - from);
  ctx.globalAlpha = 1;
}

function paintMiddle(
  ctx: CanvasRenderingContext2D,
  { width, palette }: StripPicture,
  bottom: number,
) {
  ctx.fillStyle = palette.ink;
  ctx.fillRect(width / 2 - 1, bottom - 8, 2, 8);
}

/** A bracket above the step to do. */
function paintPointer(
  ctx: CanvasRenderingContext2D,
  { palette }: StripPicture,
  from: number,
  to: number,
  bottom: number,
): void {
  ctx.strokeStyle = palette.ink;
  ctx.lineWidth = 3;
  ctx.strokeRect(from - 1.5, POINTER - 1.5, Math.max(4, to - from + 3), bottom - POINTER + 3);
  const middle = (from + to) / 2;
  ctx.fillStyle = palette.ink;
  ctx.beginPath();
  ctx.moveTo(middle, POINTER - 1);
  ctx.lineTo(middle - 8, 0);
  ctx.lineTo(middle + 8, 0);
  ctx.fill();
}
