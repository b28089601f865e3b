/**
 * The loom card: every block and everything due, in the order it is woven, with the loom length
 * reached. Pieces that are woven alike one after the other share a list, with a box each to tick.
 */
import { thrownOnly } from '../bench/byEye/record.ts';
import {
  type Course,
  type CourseBlock,
  type CoursePiece,
  openIn,
  type Shed,
} from '../bench/course.ts';
import type { Due } from '../bench/dues.ts';
import { pickAt } from '../bench/pickAt.ts';
import { lengthOfPiece } from '../bench/tape.ts';
import type { Mm } from '../measure/length.ts';
import { type BlockRole, type Pass, picksOf } from '../plan/blocks.ts';
import type { Side } from '../plan/plan.ts';

export interface CardGroup {
  /** Indices of the pieces, one after the other in the warp. */
  readonly pieces: readonly number[];
  readonly picks: number;
  readonly loomLength: Mm;
  readonly lines: readonly CardLine[];
}

export type CardLine = (BlockLine | DueLine) & {
  /** One a piece of the group: whether it has this line to tick. */
  readonly boxes: readonly boolean[];
};

/**
 * Whether a line says where it lies: `byEye` is a part still to be thrown, of which the line has what
 * is thrown; where something `beyond` it comes to lie nobody knows yet.
 */
export type LineReach = 'known' | 'byEye' | 'beyond';

export interface BlockLine {
  readonly kind: 'block';
  readonly reach: LineReach;
  /** About how long a part by eye is meant to be. */
  readonly meant: Mm | null;
  readonly role: BlockRole;
  readonly name: string | null;
  readonly passes: readonly Pass[];
  /** The turns of one round from the first: yarn index and picks; one turn for a block of one colour. */
  readonly round: readonly { readonly yarn: number; readonly picks: number }[];
  readonly turns: number;
  /** Where the last turn is cut short or stretched. */
  readonly lastTurnPicks: number | null;
  readonly picks: number;
  /** How the first pick is thrown. */
  readonly from: Side;
  readonly shed: Shed;
  readonly loomLength: Mm;
  /** From the beginning of the piece to the end of the block. */
  readonly loomEnd: Mm;
}

export interface DueLine {
  readonly kind: 'due';
  readonly reach: LineReach;
  readonly due: Due;
  /** Picks of the piece woven before it. */
  readonly after: number;
  readonly loomLength: Mm;
}

/** Every piece of the warp. `dues` are those of this course. */
export function loomCard(course: Course, dues: readonly Due[]): readonly CardGroup[] {
  const groups: CardGroup[] = [];
  for (const piece of course.pieces) {
    const lines = linesOf(course, dues, piece);
    const last = groups.at(-1);
    const group = last !== undefined && isAlike(last, lines) ? joined(last, piece, lines) : null;
    if (group === null) groups.push(groupOf(piece, lines));
    else groups[groups.length - 1] = group;
  }
  return groups;
}

/** More boxes than these leave no room for the words beside them. */
const MOST_BOXES = 6;

type Line = BlockLine | DueLine;

function groupOf(piece: CoursePiece, lines: readonly Line[]): CardGroup {
  return {
    pieces: [piece.index],
    picks: piece.picks,
    loomLength: piece.loomLength,
    lines: lines.map((line) => ({ ...line, boxes: [true] })),
  };
}

/** The blocks in order; what is due inside a block comes after it, told by the picks before it. */
function linesOf(course: Course, dues: readonly Due[], piece: CoursePiece): readonly Line[] {
  const blocks = course.blocks.slice(piece.firstBlock, piece.firstBlock + piece.blocks);
  const known = openIn(course, piece) ?? Number.POSITIVE_INFINITY;
  const due = dues
    .filter((it) => it.piece === piece.index && !isTheBlockItself(it))
    .map((it): DueLine => {
      const loomLength = lengthOfPiece(course, piece, it.at);
      const reach = it.at <= known ? 'known' : 'beyond';
      return { kind: 'due', reach, due: it, after: it.at - piece.firstPick, loomLength };
    });
  const woven = blocks.filter((block) => block.picks > 0);
  const starts = woven.map((block) => block.firstPick - piece.firstPick);
  const before = (from: number, to: number) =>
    due.filter((it) => it.after > from && it.after <= to);
  return [
    ...woven.flatMap((block, i) => [
      ...before(starts[i - 1] ?? -1, starts[i] ?? 0),
      blockLine(course, block, block.firstPick <= known ? 'known' : 'beyond'),
    ]),
    ...before(starts.at(-1) ?? -1, Number.POSITIVE_INFINITY),
  ];
}

/** A hem has a line as a block; that it begins or ends need not be said again. */
function isTheBlockItself({ kind }: Due): boolean {
  return kind === 'hemBegins' || kind === 'hemEnds';
}

function blockLine(course: Course, block: CourseBlock, reach: LineReach): BlockLine {
  const { loomLength } = block;
  const laid = thrownOnly(block.laid);
  const { period, firstTurn } = laid;
  const length = period.yarns.length;
  const first = pickAt(course, block.firstPick);
  return {
    kind: 'block',
    reach: block.laid.isOpen ? 'byEye' : reach,
    meant: laid.block?.kind === 'free' ? (laid.block.loomLength ?? null) : null,
    role: laid.role,
    name: laid.name,
    passes: laid.passes,
    round: Array.from({ length: Math.min(length, laid.turns) }, (_, k) => ({
      yarn: period.yarns[(firstTurn + k) % length] ?? 0,
      picks: period.picks[(firstTurn + k) % length] ?? 0,
    })),
    turns: laid.turns,
    lastTurnPicks: laid.lastTurnPicks,
    picks: picksOf(laid),
    from: first?.from ?? 'left',
    shed: first?.shed ?? 0,
    loomLength,
    loomEnd: block.loomStart + loomLength,
  };
}

/** What comes after a piece differs only because another piece follows, or none. */
function isAfter(line: Line): boolean {
  return line.kind === 'due' && ['cutYarns', 'gap', 'cutOff'].includes(line.due.kind);
}

function isAlike(group: CardGroup, lines: readonly Line[]): boolean {
  const keys = (all: readonly Line[]) => all.filter((it) => !isAfter(it)).map(keyOf);
  return (
    group.pieces.length < MOST_BOXES && keys(group.lines).join('\n') === keys(lines).join('\n')
  );
}

/** Two lines of one key read the same. Lengths to a thousandth: sums of the same parts may stray. */
function keyOf(line: Line): string {
  const { boxes: _, ...it } = line as CardLine;
  const what =
    it.kind === 'due' ? { ...it, due: { ...it.due, id: '', at: 0, until: 0, piece: 0 } } : it;
  return JSON.stringify(what, (__, value) =>
    typeof value === 'number' ? Math.round(value * 1000) / 1000 : value,
  );
}

function joined(group: CardGroup, piece: CoursePiece, lines: readonly Line[]): CardGroup {
  const found = new Set(lines.map(keyOf));
  const known = new Set(group.lines.map(keyOf));
  const there = group.lines.map((line) => ({
    ...line,
    boxes: [...line.boxes, found.has(keyOf(line))],
  }));
  const none = group.pieces.map(() => false);
  const added = lines
    .filter((line) => !known.has(keyOf(line)))
    .map((line) => ({ ...line, boxes: [...none, true] }));
  return { ...group, pieces: [...group.pieces, piece.index], lines: [...there, ...added] };
}
