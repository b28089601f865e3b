/**
 * The tape at true size: each piece as strips of paper to cut out, join and pin to the cloth. A strip
 * runs upwards, as the cloth grows: the beginning of the piece lies at the foot of its first strip.
 */
import type { Course, CoursePiece } from '../bench/course.ts';
import type { Due } from '../bench/dues.ts';
import { type TapeMark, tapeBands, tapeMarks } from '../bench/tape.ts';
import { MM_PER_INCH, type Mm, type Units } from '../measure/length.ts';
import { type Paper, printable } from './paper.ts';

export interface TapeOptions {
  readonly paper: Paper;
  readonly units: Units;
  /** What the printer makes of 100 mm is 100 ÷ this: 1 for a printer that keeps the size. */
  readonly stretch: number;
}

/** One strip of one tape. Millimetres of the page count from the corner of what can be printed on. */
export interface Strip {
  /** Pieces this tape is for: those that have the very same one. */
  readonly pieces: readonly number[];
  /** Counted from 0. */
  readonly part: number;
  readonly parts: number;
  /** Loom length of the piece from here to there; it goes on over the overlap. */
  readonly from: Mm;
  readonly to: Mm;
  /** Loom length up to which it is drawn: `to` and the overlap, or the end of the piece. */
  readonly drawnTo: Mm;
  readonly left: Mm;
  /** Where `from` lies on the page. */
  readonly foot: Mm;
  /** Paper mm of one mm of loom length. */
  readonly stretch: number;
}

export const STRIP_WIDTH: Mm = 27.5;
const STRIP_GAP: Mm = 1.8;
/** The lane of the upright check bar. */
const STRIPS_LEFT: Mm = 10;
export const TAPE_HEAD: Mm = 11;
export const TAPE_FOOT: Mm = 20;
/** Bare paper before the beginning and after the end, for a pin. */
export const TAPE_TAB: Mm = 9;
/** Drawn on beyond the join: the next strip is glued over it, mark on mark. */
export const TAPE_OVERLAP: Mm = 12;

/** Where on the page a loom length of the piece lies. */
export function yOn(strip: Strip, loomLength: Mm): Mm {
  return strip.foot - (loomLength - strip.from) * strip.stretch;
}

/** The pages of the tapes of some pieces, strip by strip. Pieces with the very same tape share it. */
export function layTape(
  course: Course,
  dues: readonly Due[],
  pieces: readonly number[],
  options: TapeOptions,
): readonly (readonly Strip[])[] {
  const { width, height } = printable(options.paper);
  const foot = height - TAPE_FOOT - TAPE_TAB;
  const strips = alike(course, dues, pieces).flatMap((same) =>
    stripsOf(course, same, foot, options),
  );
  const onPage = Math.floor((width - STRIPS_LEFT + STRIP_GAP) / (STRIP_WIDTH + STRIP_GAP));
  return Array.from({ length: Math.ceil(strips.length / onPage) }, (_, page) =>
    strips
      .slice(page * onPage, (page + 1) * onPage)
      .map((strip, i) => ({ ...strip, left: STRIPS_LEFT + i * (STRIP_WIDTH + STRIP_GAP) })),
  );
}

/** Strips are joined at a whole centimetre or half an inch: a mark of the scale that stands on both. */
const JOIN_STEPS: Readonly<Record<Units, Mm>> = { inch: MM_PER_INCH / 2, metric: 10 };

interface Cut {
  /** Loom length of every strip but the last. */
  readonly length: Mm;
  readonly parts: number;
}

/** As few strips as there can be, all much alike. The last has no overlap, and so a little more room. */
function cutFor(length: Mm, room: Mm, { units, stretch }: TapeOptions): Cut {
  const step = JOIN_STEPS[units];
  const most = Math.floor(room / stretch / step + 1e-9) * step;
  const spared = (TAPE_OVERLAP - TAPE_TAB) / stretch;
  const parts = Math.max(1, Math.ceil((length - spared) / most - 1e-9));
  return { parts, length: Math.min(most, Math.ceil(length / parts / step - 1e-9) * step) };
}

function stripsOf(
  course: Course,
  pieces: readonly number[],
  foot: Mm,
  options: TapeOptions,
): readonly Strip[] {
  const { stretch } = options;
  const whole = course.pieces[pieces[0] ?? -1]?.loomLength ?? 0;
  const { length, parts } = cutFor(whole, foot - TAPE_HEAD - TAPE_OVERLAP, options);
  return Array.from({ length: parts }, (_, part) => {
    const from = part * length;
    const isLast = part === parts - 1;
    const to = isLast ? whole : from + length;
    const drawnTo = isLast ? whole : Math.min(whole, to + TAPE_OVERLAP / stretch);
    return { pieces, part, parts, from, to, drawnTo, left: 0, foot, stretch };
  });
}

/** Groups of pieces with the same bands and marks, in the order of the first of each. */
function alike(
  course: Course,
  dues: readonly Due[],
  pieces: readonly number[],
): readonly (readonly number[])[] {
  const groups = new Map<string, number[]>();
  for (const index of pieces) {
    const piece = course.pieces[index];
    if (piece === undefined || piece.picks === 0) continue;
    const bands = tapeBands(course, piece, 0, piece.loomLength);
    const marks = paperMarks(course, dues, piece).map(({ kind, at }) => ({ kind, at }));
    const key = JSON.stringify([bands, marks], (_, value) =>
      typeof value === 'number' ? Math.round(value * 1000) : value,
    );
    groups.set(key, [...(groups.get(key) ?? []), index]);
  }
  return [...groups.values()];
}

/**
 * A line across the tape. `hem`: from here on, or up to here, the cloth is turned under or lies in
 * the seam. `hemstitch`: stitch here. `lockEdge`: from here on the edge end must be locked.
 */
export interface PaperMark {
  readonly kind: 'begin' | 'block' | 'hem' | 'hemstitch' | 'lockEdge' | 'end';
  readonly at: Mm;
}

/** The lines across the tape of one piece, upwards, in mm of loom length from its beginning. */
export function paperMarks(
  course: Course,
  dues: readonly Due[],
  piece: CoursePiece,
): readonly PaperMark[] {
  return tapeMarks(course, dues, piece).flatMap((mark) => {
    const kind = kindOf(course, piece, mark);
    return kind === null ? [] : [{ kind, at: mark.at }];
  });
}

function kindOf(course: Course, piece: CoursePiece, mark: TapeMark): PaperMark['kind'] | null {
  switch (mark.kind) {
    case 'block':
      return blockMark(course, piece, mark.block.ofPiece);
    case 'due':
      return mark.due.kind === 'hemstitch' ? 'hemstitch' : 'lockEdge';
    case 'pin':
      return null;
    case 'end':
      return 'end';
  }
}

function blockMark(course: Course, piece: CoursePiece, ofPiece: number): PaperMark['kind'] {
  if (ofPiece === 0) return 'begin';
  const isEdge = (at: number) => {
    const role = course.blocks[piece.firstBlock + at]?.laid.role;
    return role !== 'solid' && role !== 'alternation' && role !== 'free';
  };
  return isEdge(ofPiece - 1) === isEdge(ofPiece) ? 'block' : 'hem';
}

export interface Tick {
  readonly at: Mm;
  readonly rank: 'small' | 'half' | 'whole';
  /** Centimetres or inches, at whole ones. */
  readonly number: number | null;
}

/** The scale between two loom lengths, both included: millimetres, or eighths of an inch. */
export function ticksOf(units: Units, from: Mm, to: Mm): readonly Tick[] {
  const [step, half, whole] = units === 'inch' ? [MM_PER_INCH / 8, 4, 8] : [1, 5, 10];
  const first = Math.ceil(from / step - 1e-6);
  const last = Math.floor(to / step + 1e-6);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => {
    const n = first + i;
    const rank = n % whole === 0 ? 'whole' : n % half === 0 ? 'half' : 'small';
    return { at: n * step, rank, number: rank === 'whole' ? n / whole : null };
  });
}
