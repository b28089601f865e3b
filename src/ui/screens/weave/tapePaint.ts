/** Paints the tape: the ribbon of the piece with its scale, its blocks and what is due along it. */
import type { TapeBand, TapeMark } from '../../../core/bench/tape.ts';
import type { Mm, Units } from '../../../core/measure/length.ts';
import { MM_PER_INCH } from '../../../core/measure/length.ts';
import type { HatchBox, HatchPainter } from '../../parts/hatching.ts';

export interface TapePicture {
  /** CSS pixels. */
  readonly width: number;
  readonly height: number;
  readonly units: Units;
  /** Loom length shown on one tape. */
  readonly window: Mm;
  readonly fell: Mm;
  readonly pieceLength: Mm;
  readonly bands: readonly TapeBand[];
  readonly marks: readonly TapeMark[];
  /** Stretches whose picks were worked out from a length. */
  readonly estimated: readonly { readonly from: Mm; readonly to: Mm }[];
  /** By yarn index. */
  readonly colours: readonly string[];
  readonly letters: readonly string[];
  readonly palette: TapePalette;
  readonly hatch: HatchPainter | null;
}

export interface TapePalette {
  readonly ground: string;
  readonly ink: string;
  readonly quiet: string;
  readonly accent: string;
}

/** Where the fell lies on the tape, as a share of its height. */
const FELL_AT = 0.6;

const MARGIN = 6;

/** Heights on the canvas for loom lengths; what is to come lies above the fell. */
function scaleOf({ height, fell, window }: TapePicture): (mm: Mm) => number {
  const perMm = height / window;
  return (mm) => height * FELL_AT - (mm - fell) * perMm;
}

export function paintTape(ctx: CanvasRenderingContext2D, tape: TapePicture): void {
  const y = scaleOf(tape);
  const ribbon = Math.round(tape.width * 0.36);
  ctx.clearRect(0, 0, tape.width, tape.height);
  paintBands(ctx, tape, ribbon, y);
  for (const stretch of tape.estimated) paintEstimated(ctx, tape, stretch, ribbon, y);
  paintOutline(ctx, tape, ribbon, y);
  paintScale(ctx, tape, ribbon, y);
  for (const mark of tape.marks) paintMark(ctx, tape, mark, ribbon, y);
  paintFell(ctx, tape, ribbon);
}

/** Woven stretches stand in full colour, coming ones pale, with the letter where there is room. */
function paintBands(
  ctx: CanvasRenderingContext2D,
  tape: TapePicture,
  ribbon: number,
  y: (mm: Mm) => number,
): void {
  const boxes = tape.bands.flatMap((band) => boxesOf(tape, band, ribbon, y));
  for (const { yarn, woven, ...box } of boxes) {
    ctx.globalAlpha = woven ? 1 : 0.5;
    ctx.fillStyle = tape.colours[yarn] ?? tape.palette.quiet;
    ctx.fillRect(box.x, box.y, box.width, box.height);
  }
  ctx.globalAlpha = 1;
  for (const yarn of new Set(boxes.map((it) => it.yarn)))
    tape.hatch?.(
      ctx,
      yarn,
      boxes.filter((it) => it.yarn === yarn),
    );
  const middle = (MARGIN + ribbon) / 2;
  for (const box of boxes) {
    const [top, bottom] = [Math.max(box.y, 0), Math.min(box.y + box.height, tape.height)];
    paintLetter(ctx, tape, box.yarn, middle, top, bottom);
  }
}

interface BandBox extends HatchBox {
  readonly yarn: number;
  readonly woven: boolean;
}

/** What of a band is to come, and what lies in the cloth. */
function boxesOf(
  { fell }: TapePicture,
  { from, to, yarn }: TapeBand,
  ribbon: number,
  y: (mm: Mm) => number,
): readonly BandBox[] {
  const box = (low: Mm, high: Mm, woven: boolean): readonly BandBox[] => {
    const top = Math.round(y(high));
    const height = Math.round(y(low)) - top;
    return high <= low ? [] : [{ x: MARGIN, y: top, width: ribbon - MARGIN, height, yarn, woven }];
  };
  return [...box(Math.max(from, fell), to, false), ...box(from, Math.min(to, fell), true)];
}

function paintLetter(
  ctx: CanvasRenderingContext2D,
  tape: TapePicture,
  yarn: number,
  x: number,
  top: number,
  bottom: number,
): void {
  if (bottom - top < 26) return;
  // A font is not for a reader.
  ctx.font = '600 20px system-ui, sans-serif';
  ctx.textAlign = 'center';
  ctx.textBaseline = 'middle';
  const text = tape.letters[yarn] ?? '';
  const middle = (top + bottom) / 2;
  ctx.fillStyle = tape.palette.ground;
  ctx.beginPath();
  ctx.arc(x, middle, 13, 0, 7);
  ctx.fill();
  ctx.fillStyle = tape.palette.ink;
  ctx.fillText(text, x, middle + 1);
}

/** What was not counted is hatched: its picks are worked out, not seen. */
function paintEstimated(
  ctx: CanvasRenderingContext2D,
  tape: TapePicture,
  stretch: { readonly from: Mm; readonly to: Mm },
  ribbon: number,
  y: (mm: Mm) => number,
): void {
  const top = Math.max(-20, y(stretch.to));
  const bottom = Math.min(tape.height + 20, y(stretch.from));
  if (bottom <= top) return;
  ctx.save();
  ctx.beginPath();
  ctx.rect(MARGIN, top, ribbon - MARGIN, bottom - top);
  ctx.clip();
  ctx.strokeStyle = tape.palette.ink;
  ctx.lineWidth = 1.5;
  for (let at = top; at < bottom + ribbon; at += 9) line(ctx, MARGIN, at, ribbon, at - ribbon);
  ctx.restore();
}

function paintOutline(
  ctx: CanvasRenderingContext2D,
  tape: TapePicture,
  ribbon: number,
  y: (mm: Mm) => number,
): void {
  ctx.strokeStyle = tape.palette.quiet;
  ctx.lineWidth = 1;
  const top = Math.max(-2, y(tape.pieceLength));
  const bottom = Math.min(tape.height + 2, y(0));
  ctx.strokeRect(MARGIN + 0.5, top, ribbon - MARGIN, bottom - top);
}

function paintScale(
  ctx: CanvasRenderingContext2D,
  tape: TapePicture,
  ribbon: number,
  y: (mm: Mm) => number,
): void {
  const { units, palette } = tape;
  const step = units === 'inch' ? MM_PER_INCH / 2 : 5;
  const perNumber = units === 'inch' ? 2 : 4;
  const first = Math.max(0, Math.ceil((tape.fell - tape.window * (1 - FELL_AT)) / step));
  const last = Math.floor(Math.min(tape.pieceLength, tape.fell + tape.window * FELL_AT) / step);
  ctx.fillStyle = palette.ink;
  ctx.strokeStyle = palette.ink;
  ctx.lineWidth = 2;
  // A font is not for a reader.
  ctx.font = '500 20px system-ui, sans-serif';
  ctx.textAlign = 'left';
  ctx.textBaseline = 'middle';
  for (let i = first; i <= last; i++) {
    const at = Math.round(y(i * step));
    const numbered = i % perNumber === 0;
    ctx.fillRect(ribbon, at - 1, numbered ? 12 : 6, 2);
    const below = at - tape.height * FELL_AT;
    const nearFell = below > -14 && below < 66;
    if (numbered && !nearFell)
      ctx.fillText(String(units === 'inch' ? i / 2 : i / 2), ribbon + 16, at);
  }
}

function paintMark(
  ctx: CanvasRenderingContext2D,
  tape: TapePicture,
  mark: TapeMark,
  ribbon: number,
  y: (mm: Mm) => number,
): void {
  const at = Math.round(y(mark.at));
  if (at < -20 || at > tape.height + 20) return;
  ctx.strokeStyle = tape.palette.ink;
  ctx.fillStyle = tape.palette.ink;
  if (mark.kind === 'pin') {
    paintPin(ctx, tape, mark.number, ribbon, at);
    return;
  }
  if (mark.kind === 'due') {
    if (mark.due.kind === 'hemstitch') paintStitches(ctx, ribbon, at);
    else paintEdgeSign(ctx, ribbon, at);
    return;
  }
  ctx.lineWidth = mark.kind === 'end' ? 4 : 2;
  line(ctx, MARGIN - 4, at, ribbon + 4, at);
  if (mark.kind === 'block') return;
  line(ctx, MARGIN - 4, at - 7, ribbon + 4, at - 7);
}

/** Hemstitching: a row of crosses over the ribbon. */
function paintStitches(ctx: CanvasRenderingContext2D, ribbon: number, at: number): void {
  ctx.lineWidth = 2;
  for (let x = MARGIN + 4; x < ribbon - 4; x += 10) {
    line(ctx, x, at - 4, x + 8, at + 4);
    line(ctx, x, at + 4, x + 8, at - 4);
  }
}

/** A pin: its head on the ribbon's far edge, with its number. */
function paintPin(
  ctx: CanvasRenderingContext2D,
  { palette }: TapePicture,
  number: number,
  ribbon: number,
  at: number,
): void {
  ctx.lineWidth = 2.5;
  line(ctx, MARGIN + 10, at, ribbon + 6, at);
  ctx.beginPath();
  ctx.arc(MARGIN + 10, at, 10, 0, 7);
  ctx.fillStyle = palette.accent;
  ctx.fill();
  ctx.fillStyle = palette.ground;
  // A font is not for a reader.
  ctx.font = '700 14px system-ui, sans-serif';
  ctx.textAlign = 'center';
  ctx.textBaseline = 'middle';
  ctx.fillText(String(number), MARGIN + 10, at + 1);
}

/** An edge end that is not caught: a small open loop at the edge. */
function paintEdgeSign(ctx: CanvasRenderingContext2D, ribbon: number, at: number): void {
  ctx.lineWidth = 2.5;
  ctx.beginPath();
  ctx.arc(ribbon + 2, at - 8, 6, Math.PI * 0.6, Math.PI * 2.4);
  ctx.stroke();
}

function paintFell(ctx: CanvasRenderingContext2D, tape: TapePicture, ribbon: number): void {
  const at = Math.round(tape.height * FELL_AT);
  ctx.fillStyle = tape.palette.accent;
  ctx.fillRect(0, at - 2, ribbon + 10, 4);
  ctx.beginPath();
  ctx.moveTo(ribbon + 4, at);
  ctx.lineTo(ribbon + 16, at - 8);
  ctx.lineTo(ribbon + 16, at + 8);
  ctx.fill();
}

function line(ctx: CanvasRenderingContext2D, x0: number, y0: number, x1: number, y1: number): void {
  ctx.beginPath();
  ctx.moveTo(x0, y0);
  ctx.lineTo(x1, y1);
  ctx.stroke();
}
