/** Paints the part of the heddle, or of shafts and reed, that the step to do is about. */
import type { Letter } from '../../../core/plan/plan.ts';
import type { Column } from './columns.ts';

export interface HeddlePalette {
  readonly ground: string;
  readonly ink: string;
  readonly quiet: string;
  readonly line: string;
  readonly wood: string;
  readonly due: string;
}

export interface YarnLook {
  readonly colour: string;
  readonly isLight: boolean;
}

export interface HeddlePicture {
  /** CSS pixels. */
  readonly width: number;
  readonly height: number;
  readonly columns: readonly Column[];
  /** The lower row is the shaft nearest to the weaver. */
  readonly lowerShaft: 1 | 2;
  readonly looks: ReadonlyMap<Letter, YarnLook>;
  readonly palette: HeddlePalette;
}

const RAIL = 14;
const NUMBERS = 28;
const MARGIN = 24;
/** Below this nothing could be told apart. */
const LEAST_HEIGHT = 70;
/** A disc smaller than this has no room for its letter. */
const LETTER_FROM = 10;

interface Frame extends HeddlePicture {
  readonly pitch: number;
  readonly top: number;
  readonly bottom: number;
  readonly middle: number;
}

export function paintHeddle(ctx: CanvasRenderingContext2D, picture: HeddlePicture): void {
  const { width, height, columns } = picture;
  ctx.clearRect(0, 0, width, height);
  if (columns.length === 0 || height < LEAST_HEIGHT) return;
  const top = RAIL;
  const bottom = height - NUMBERS - RAIL;
  const pitch = (width - 2 * MARGIN) / Math.max(columns.length, 12);
  const frame: Frame = { ...picture, pitch, top, bottom, middle: (top + bottom) / 2 };
  paintNow(ctx, frame);
  if (columns[0]?.kind === 'slot' || columns[0]?.kind === 'hole') paintRigid(ctx, frame);
  else paintShafts(ctx, frame);
  paintNumbers(ctx, frame);
}

const centreOf = (frame: Frame, i: number) => MARGIN + (i + 0.5) * frame.pitch;

/** The step to do stands on a ground of its own. */
function paintNow(ctx: CanvasRenderingContext2D, frame: Frame): void {
  const [first, last] = nowIn(frame.columns);
  if (first < 0) return;
  const left = centreOf(frame, first) - frame.pitch / 2;
  const right = centreOf(frame, last) + frame.pitch / 2;
  ctx.fillStyle = frame.palette.due;
  ctx.fillRect(left, 0, right - left, frame.height);
}

function nowIn(columns: readonly Column[]): readonly [number, number] {
  const isNow = (column: Column) => column.now;
  return [columns.findIndex(isNow), columns.findLastIndex(isNow)];
}

/** Bars with an eye are holes, the gaps between them slots. */
function paintRigid(ctx: CanvasRenderingContext2D, frame: Frame): void {
  const { columns, pitch, top, bottom, middle, palette } = frame;
  const left = centreOf(frame, 0) - pitch / 2;
  const width = columns.length * pitch;
  ctx.fillStyle = palette.wood;
  ctx.fillRect(left, top - RAIL, width, RAIL);
  ctx.fillRect(left, bottom, width, RAIL);
  columns.forEach((column, i) => {
    if (column.kind !== 'hole') return;
    const x = centreOf(frame, i);
    const bar = pitch * 0.94;
    ctx.fillStyle = palette.wood;
    ctx.fillRect(x - bar / 2, top - 1, bar, bottom - top + 2);
    ctx.fillStyle = palette.ground;
    ctx.beginPath();
    ctx.ellipse(x, middle, bar * 0.4, Math.min(bar * 0.6, 22), 0, 0, 2 * Math.PI);
    ctx.fill();
  });
  columns.forEach((column, i) => {
    paintHeld(ctx, frame, column, centreOf(frame, i), middle);
  });
}

/** The ends in one opening, one above the other; two of a loop hang together. */
function paintHeld(
  ctx: CanvasRenderingContext2D,
  frame: Frame,
  { holds, kind }: Column,
  x: number,
  y: number,
): void {
  const room = kind === 'slot' ? frame.bottom - frame.top - 8 : 44;
  const radius = Math.min(
    frame.pitch * (kind === 'slot' ? 0.42 : 0.36),
    17,
    room / 2 / holds.length,
  );
  const step = kind === 'slot' ? 2 * radius + 3 : 2 * radius;
  holds.forEach((letter, i) => {
    paintEnd(ctx, frame, letter, x, y + (i - (holds.length - 1) / 2) * step, radius);
  });
}

function paintEnd(
  ctx: CanvasRenderingContext2D,
  { looks, palette }: Frame,
  letter: Letter,
  x: number,
  y: number,
  radius: number,
): void {
  const look = looks.get(letter) ?? { colour: palette.quiet, isLight: true };
  ctx.beginPath();
  ctx.arc(x, y, radius, 0, 2 * Math.PI);
  ctx.fillStyle = look.colour;
  ctx.fill();
  ctx.lineWidth = radius > 6 ? 1.5 : 1;
  ctx.strokeStyle = palette.ink;
  ctx.stroke();
  if (radius < LETTER_FROM) return;
  ctx.fillStyle = look.isLight ? '#000000' : '#ffffff';
  // not for a reader
  ctx.font = `700 ${Math.round(radius * 1.15)}px system-ui, sans-serif`;
  ctx.textAlign = 'center';
  ctx.textBaseline = 'middle';
  ctx.fillText(letter, x, y + 1);
}

/** Two rows of heddles above the reed; every end comes down from its eye into its dent. */
function paintShafts(ctx: CanvasRenderingContext2D, frame: Frame): void {
  const { columns, pitch, top, bottom, palette, lowerShaft } = frame;
  const reed = bottom - Math.min(52, (bottom - top) * 0.26);
  const rows = [top + (reed - top) * 0.26, top + (reed - top) * 0.7] as const;
  const rowOf = (kind: Column['kind']) => (kind === `shaft-${lowerShaft}` ? rows[1] : rows[0]);
  const left = centreOf(frame, 0) - pitch / 2;
  const width = columns.length * pitch;
  rows.forEach((y, row) => {
    ctx.fillStyle = palette.wood;
    ctx.fillRect(left, y - 3, width, 6);
    paintShaftNumber(ctx, frame, row === 1 ? lowerShaft : 3 - lowerShaft, y);
  });
  columns.forEach((column, i) => {
    const x = centreOf(frame, i);
    const y = rowOf(column.kind);
    paintHeddleWire(ctx, frame, x, y, reed);
    const [letter] = column.holds;
    if (letter === undefined) return;
    ctx.strokeStyle = frame.looks.get(letter)?.colour ?? palette.quiet;
    ctx.lineWidth = Math.max(2, pitch * 0.26);
    ctx.beginPath();
    ctx.moveTo(x, y);
    ctx.lineTo(x, bottom + RAIL);
    ctx.stroke();
    paintEnd(ctx, frame, letter, x, y, Math.min(pitch * 0.42, 17));
  });
  paintReed(ctx, frame, reed);
}

function paintShaftNumber(
  ctx: CanvasRenderingContext2D,
  { palette }: Frame,
  shaft: number,
  y: number,
): void {
  ctx.fillStyle = palette.ink;
  // not for a reader
  ctx.font = '700 18px system-ui, sans-serif';
  ctx.textAlign = 'center';
  ctx.textBaseline = 'middle';
  ctx.fillText(String(shaft), MARGIN / 2 - 1, y + 1);
}

function paintHeddleWire(
  ctx: CanvasRenderingContext2D,
  { pitch, palette }: Frame,
  x: number,
  y: number,
  reed: number,
): void {
  const eye = Math.min(pitch * 0.44, 18);
  ctx.strokeStyle = palette.quiet;
  ctx.lineWidth = 1.5;
  ctx.beginPath();
  ctx.moveTo(x, Math.max(2, y - 3 * eye));
  ctx.lineTo(x, Math.min(reed - 4, y + 3 * eye));
  ctx.stroke();
  ctx.beginPath();
  ctx.ellipse(x, y, eye, eye * 1.15, 0, 0, 2 * Math.PI);
  ctx.fillStyle = palette.ground;
  ctx.fill();
  ctx.stroke();
}

/** Blades of the reed stand between the dents. */
function paintReed(ctx: CanvasRenderingContext2D, frame: Frame, reed: number): void {
  const { columns, pitch, bottom, palette } = frame;
  ctx.fillStyle = palette.quiet;
  columns.forEach((column, i) => {
    const left = centreOf(frame, i) - pitch / 2;
    if (columns[i - 1]?.number !== column.number)
      ctx.fillRect(left - 1.5, reed, 3, bottom - reed + RAIL);
    if (i === columns.length - 1) ctx.fillRect(left + pitch - 1.5, reed, 3, bottom - reed + RAIL);
  });
  const width = columns.length * pitch;
  ctx.fillRect(centreOf(frame, 0) - pitch / 2, reed - 4, width, 4);
  ctx.fillRect(centreOf(frame, 0) - pitch / 2, bottom + RAIL - 4, width, 4);
}

/** Numbers of slots or dents: where the step begins and ends, and every fifth beside it. */
function paintNumbers(ctx: CanvasRenderingContext2D, frame: Frame): void {
  const { columns, height, palette } = frame;
  const [first, last] = nowIn(columns);
  const ends = new Set([columns[first]?.number, columns[last]?.number]);
  const seen = new Set<number>();
  let free = Number.NEGATIVE_INFINITY;
  ctx.textAlign = 'center';
  ctx.textBaseline = 'alphabetic';
  columns.forEach((column, i) => {
    if (column.kind === 'hole' || seen.has(column.number)) return;
    seen.add(column.number);
    const isEnd = ends.has(column.number);
    if (!isEnd && (column.number % 5 !== 0 || nearEnd(column.number, ends))) return;
    const x = centreOf(frame, i);
    if (x < free) return;
    // not for a reader
    ctx.font = `${isEnd ? 800 : 500} ${isEnd ? 20 : 17}px system-ui, sans-serif`;
    ctx.fillStyle = isEnd ? palette.ink : palette.quiet;
    ctx.fillText(String(column.number), x, height - 7);
    free = x + 26;
  });
}

function nearEnd(number: number, ends: ReadonlySet<number | undefined>): boolean {
  return [...ends].some((end) => end !== undefined && Math.abs(end - number) < 2);
}
