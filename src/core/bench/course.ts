/**
 * The course: every pick of a warp laid out so that anything about pick n is one search away.
 *
 * A *turn* is a go of one colour inside its block. A *stripe* is what the eye sees: neighbouring
 * turns of one yarn merged, also across blocks. Sheds follow picks, sides follow stripes, blocks
 * follow turns. All of it is derived from the plan and the few adjustments the weaver made.
 */
import type { Mm } from '../measure/length.ts';
import type { LaidBlock } from '../plan/blocks.ts';
import { gapAfter } from '../plan/geometry.ts';
import { type LoomKind, type Piece, type Plan, SHED_WORDS, type Side } from '../plan/plan.ts';
import type { Adjustments } from './adjustments.ts';
import { AS_PLANNED, type Belief, type Gauge, gauged, gaugeOf } from './gauge.ts';
import { layAdjusted } from './layPiece.ts';
import { layStripes, type Stripes, withSheds } from './stripes.ts';

/** Index of a shed: which entry of the loom's lifts is up. Two for plain weave; more may come. */
export type Shed = number;

export interface Course {
  readonly plan: Plan;
  readonly adjustments: Adjustments;
  readonly belief: Belief;
  readonly picks: number;
  readonly pieces: readonly CoursePiece[];
  readonly blocks: readonly CourseBlock[];
  readonly turns: Turns;
  readonly stripes: Stripes;
  /**
   * Picks that stand for what will be thrown by eye, ascending: one at the end of each free part that
   * is not ended. Nothing is woven as planned beyond the first of them.
   */
  readonly open: readonly number[];
}

export interface CoursePiece {
  readonly index: number;
  readonly firstPick: number;
  readonly picks: number;
  readonly firstBlock: number;
  readonly blocks: number;
  readonly firstStripe: number;
  readonly stripes: number;
  readonly startShed: Shed;
  readonly startSide: Side;
  /** Loom length of the whole piece, as believed now, `unseen` with it. */
  readonly loomLength: Mm;
  /** What is still meant to be woven by eye; it lies in no pick yet. */
  readonly unseen: Mm;
  /** Loom length of all pieces and gaps before this one. */
  readonly loomStart: Mm;
  /** Warp left unwoven after it. */
  readonly gapAfter: Mm;
}

export interface CourseBlock {
  readonly index: number;
  readonly piece: number;
  /** Counted from 0 inside its piece. */
  readonly ofPiece: number;
  readonly laid: LaidBlock;
  readonly firstPick: number;
  readonly picks: number;
  readonly firstTurn: number;
  readonly turns: number;
  /** Loom length from the start of the piece to the start of the block, as believed now. */
  readonly loomStart: Mm;
  readonly loomLength: Mm;
}

/**
 * One entry a turn, in weaving order; `firstPick` has one entry more, the end. Lengths are planned:
 * what follows from them (a yarn floats or is cut) must not change with a reading.
 */
export interface Turns {
  readonly count: number;
  readonly firstPick: Int32Array;
  readonly yarn: Uint8Array;
  readonly block: Int32Array;
  /** Planned loom length from the start of its piece to the start of the turn. */
  readonly loomStart: Float64Array;
  readonly spacing: Float64Array;
  /** Reckoned length there, see `gauge.ts`. */
  readonly reckoned: Float64Array;
}

/** Lays a checked plan out for the bench, its lengths as believed. Linear in its turns. */
export function layCourse(
  plan: Plan,
  adjustments: Adjustments,
  belief: Belief = AS_PLANNED,
): Course {
  const laid = plan.pieces.map((_, piece) => layAdjusted(plan, piece, adjustments));
  const turnCount = laid.flat().reduce((sum, block) => sum + block.turns, 0);
  const turns = emptyTurns(turnCount, belief);
  const blocks: CourseBlock[] = [];
  const pieces: CoursePiece[] = [];
  const cursor: Cursor = { turn: 0, pick: 0, loom: 0 };
  const laying: Laying = { plan, belief, turns, blocks, cursor };
  for (const [index, pieceBlocks] of laid.entries()) {
    const piece = plan.pieces[index];
    if (piece === undefined) continue;
    pieces.push(fillPiece(laying, piece, index, pieceBlocks));
  }
  turns.firstPick[turnCount] = cursor.pick;
  const stripes = layStripes(plan, pieces, blocks, turns, adjustments);
  const placed = pieces.map((piece) => ({ ...piece, ...stripes.ofPieces[piece.index] }));
  const open = blocks.filter((it) => it.laid.isOpen).map((it) => it.firstPick + it.picks - 1);
  const picks = cursor.pick;
  return { plan, adjustments, belief, picks, pieces: placed, blocks, turns, stripes, open };
}

/** The course with other sheds, and the pieces in which they are: all else stays as it was laid. */
export function shedAgain(
  course: Course,
  shedFlips: readonly number[],
): { readonly course: Course; readonly pieces: readonly CoursePiece[] } {
  const before = course.adjustments.shedFlips;
  const changed = [...before, ...shedFlips].filter(
    (at) => !before.includes(at) || !shedFlips.includes(at),
  );
  const pieces = course.pieces.filter(({ firstPick, picks }) =>
    changed.some((at) => at >= firstPick && at < firstPick + picks),
  );
  const adjustments = { ...course.adjustments, shedFlips };
  const stripes = withSheds(course.stripes, pieces, adjustments);
  return { course: { ...course, adjustments, stripes }, pieces };
}

interface Laying {
  readonly plan: Plan;
  readonly belief: Belief;
  readonly turns: Turns;
  readonly blocks: CourseBlock[];
  readonly cursor: Cursor;
}

interface Cursor {
  turn: number;
  pick: number;
  /** Loom length of the pieces and gaps so far. */
  loom: number;
}

function fillPiece(
  laying: Laying,
  piece: Piece,
  index: number,
  laid: readonly LaidBlock[],
): CoursePiece {
  const { plan, belief, blocks, cursor } = laying;
  const start = { pick: cursor.pick, block: blocks.length, loom: cursor.loom };
  const gauge = gaugeOf(belief, index);
  const length: Lengths = { planned: 0, reckoned: 0 };
  for (const block of laid) {
    const ofPiece = blocks.length - start.block;
    blocks.push(fillBlock(laying, block, index, ofPiece, gauge, length));
  }
  const unseen = blocks.slice(start.block).reduce((sum, it) => sum + unseenOf(it), 0);
  const loomLength = gauged(gauge, length.reckoned) + unseen;
  const gap = gapAfter(plan, index);
  cursor.loom += loomLength + gap;
  return {
    index,
    firstPick: start.pick,
    picks: cursor.pick - start.pick,
    firstBlock: start.block,
    blocks: laid.length,
    firstStripe: 0,
    stripes: 0,
    startShed: shedIndex(plan.loom.kind, piece.startShed),
    startSide: startSideOf(plan, piece),
    loomLength,
    unseen,
    loomStart: start.loom,
    gapAfter: gap,
  };
}

function unseenOf({ laid, loomLength }: CourseBlock): Mm {
  const meant = laid.isOpen && laid.block?.kind === 'free' ? (laid.block.loomLength ?? 0) : 0;
  return Math.max(0, meant - loomLength);
}

/** Lengths of the piece so far. */
interface Lengths {
  planned: Mm;
  reckoned: Mm;
}

function fillBlock(
  laying: Laying,
  laid: LaidBlock,
  piece: number,
  ofPiece: number,
  gauge: Gauge,
  length: Lengths,
): CourseBlock {
  const { cursor, blocks } = laying;
  const { pick: firstPick, turn: firstTurn } = cursor;
  const loomStart = gauged(gauge, length.reckoned);
  fillTurns(laying, laid, length);
  return {
    index: blocks.length,
    piece,
    ofPiece,
    laid,
    firstPick,
    picks: cursor.pick - firstPick,
    firstTurn,
    turns: cursor.turn - firstTurn,
    loomStart,
    loomLength: gauged(gauge, length.reckoned) - loomStart,
  };
}

function fillTurns({ belief, turns, blocks, cursor }: Laying, block: LaidBlock, to: Lengths): void {
  const {
    firstPick,
    yarn: yarnOf,
    block: blockOf,
    loomStart,
    spacing: spacingOf,
    reckoned,
  } = turns;
  const { yarns, picks: picksOf } = block.period;
  const end = cursor.turn + block.turns;
  let { turn, pick } = cursor;
  let at = block.firstTurn;
  for (; turn < end; turn++) {
    const yarn = yarns[at] ?? 0;
    const isLast = turn === end - 1 && block.lastTurnPicks !== null;
    const picks = (isLast ? block.lastTurnPicks : picksOf[at]) ?? 0;
    const spacing = block.spacings[yarn] ?? 0;
    firstPick[turn] = pick;
    yarnOf[turn] = yarn;
    blockOf[turn] = blocks.length;
    loomStart[turn] = to.planned;
    spacingOf[turn] = spacing;
    reckoned[turn] = to.reckoned;
    pick += picks;
    to.planned += picks * spacing;
    to.reckoned += picks * spacing * (belief.yarns[yarn] ?? 1);
    at = at + 1 === yarns.length ? 0 : at + 1;
  }
  cursor.turn = turn;
  cursor.pick = pick;
}

function emptyTurns(count: number, belief: Belief): Turns {
  const loomStart = new Float64Array(count);
  // Where no yarn was found to be other than planned the two are the same numbers.
  const reckoned = belief.yarns.some((it) => it !== 1) ? new Float64Array(count) : loomStart;
  return {
    count,
    firstPick: new Int32Array(count + 1),
    yarn: new Uint8Array(count),
    block: new Int32Array(count),
    loomStart,
    spacing: new Float64Array(count),
    reckoned,
  };
}

/** The pick of a piece that stands for the next one by eye; of what comes after it nobody knows. */
export function openIn({ open }: Course, { firstPick, picks }: CoursePiece): number | null {
  const at = open.find((it) => it >= firstPick);
  return at === undefined || at >= firstPick + picks ? null : at;
}

/** Index of a shed word on this loom; −1 for a word of another loom. */
export function shedIndex(loom: LoomKind, word: string): Shed {
  const words: readonly string[] = SHED_WORDS[loom];
  return words.indexOf(word);
}

/** A hemstitched piece starts from the side its tail hangs on, any other from the weaver's hand. */
function startSideOf(plan: Plan, piece: Piece): Side {
  if (piece.beginning.kind === 'hemstitch') return plan.weaving.workingSide;
  return piece.startSide ?? plan.weaving.hand;
}
