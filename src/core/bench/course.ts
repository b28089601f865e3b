/**
 * The course: every pick of a warp laid out so that anything about pick n is one search away.
 *
 * A *turn* is a go of one colour inside its block. A *stripe* is what the eye sees: neighbouring
 * turns of one yarn merged, also across blocks. Sheds follow picks, sides follow stripes, blocks
 * follow turns. All of it is derived from the plan and the few adjustments the weaver made.
 */
import type { Mm } from '../measure/length.ts';
import {
  type LaidBlock,
  layWeft,
  picksForLength,
  spacingsIn,
  turnOf,
  withLongerLastTurn,
  withPicks,
  yarnIndex,
} from '../plan/blocks.ts';
import { gapAfter, hemOnLoom } from '../plan/geometry.ts';
import {
  type Edge,
  type LoomKind,
  type Piece,
  type Plan,
  SHED_WORDS,
  type Side,
} from '../plan/plan.ts';
import type { Adjustments, BlockPicks } from './adjustments.ts';
import { layStripes, type Stripes } from './stripes.ts';

/** Index of a shed: which entry of the loom's lifts is up. Two for plain weave; more may come. */
export type Shed = number;

export interface Course {
  readonly plan: Plan;
  readonly adjustments: Adjustments;
  readonly picks: number;
  readonly pieces: readonly CoursePiece[];
  readonly blocks: readonly CourseBlock[];
  readonly turns: Turns;
  readonly stripes: Stripes;
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
  /** Forecast loom length of the whole piece. */
  readonly loomLength: Mm;
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
  /** Loom length from the start of the piece to the start of the block. */
  readonly loomStart: Mm;
  readonly loomLength: Mm;
}

/** One entry a turn, in weaving order; `firstPick` has one entry more, the end. */
export interface Turns {
  readonly count: number;
  readonly firstPick: Int32Array;
  readonly yarn: Uint8Array;
  readonly block: Int32Array;
  /** Loom length from the start of its piece to the start of the turn. */
  readonly loomStart: Float64Array;
  readonly spacing: Float64Array;
}

/** Lays a checked plan out for the bench. Linear in its turns. */
export function layCourse(plan: Plan, adjustments: Adjustments): Course {
  const laid = plan.pieces.map((_, piece) =>
    adjustBlocks(layPiece(plan, piece), piece, adjustments),
  );
  const turnCount = laid.flat().reduce((sum, block) => sum + block.turns, 0);
  const turns = emptyTurns(turnCount);
  const blocks: CourseBlock[] = [];
  const pieces: CoursePiece[] = [];
  const cursor: Cursor = { turn: 0, pick: 0, loom: 0 };
  for (const [index, pieceBlocks] of laid.entries()) {
    const piece = plan.pieces[index];
    if (piece === undefined) continue;
    pieces.push(fillPiece(plan, piece, index, pieceBlocks, turns, blocks, cursor));
  }
  turns.firstPick[turnCount] = cursor.pick;
  const stripes = layStripes(plan, pieces, blocks, turns, adjustments);
  const placed = pieces.map((piece) => ({ ...piece, ...stripes.ofPieces[piece.index] }));
  return { plan, adjustments, picks: cursor.pick, pieces: placed, blocks, turns, stripes };
}

/** The blocks of one piece with its hems and seam allowances, before any adjustment. */
export function layPiece(plan: Plan, piece: number): readonly LaidBlock[] {
  const it = plan.pieces[piece];
  if (it === undefined) throw new Error(`layPiece: wanted a piece of the plan, got ${piece}`);
  const weft = layWeft(plan, piece);
  const first = weft[0];
  const last = weft[weft.length - 1];
  if (first === undefined || last === undefined) return [];
  return [
    ...layEdge(plan, it.beginning, `pieces[${piece}].beginning`, turnOf(first, 0).yarn),
    ...weft,
    ...layEdge(plan, it.ending, `pieces[${piece}].ending`, turnOf(last, last.turns - 1).yarn),
  ];
}

/** A hem is woven in its own yarn if it names one, else in its neighbour's. */
function layEdge(plan: Plan, edge: Edge, source: string, neighbour: number): readonly LaidBlock[] {
  const loomLength = hemOnLoom(plan, edge);
  if (edge.kind === 'hemstitch' || loomLength === 0) return [];
  const yarn = edge.yarn === undefined ? neighbour : yarnIndex(plan, edge.yarn);
  const spacings = spacingsIn(plan, undefined);
  const picks = picksForLength({ kind: 'length', loomLength }, spacings[yarn] ?? 0);
  return [
    {
      role: edge.kind,
      source,
      name: null,
      passes: [],
      mirrored: false,
      period: { yarns: [yarn], picks: [picks] },
      firstTurn: 0,
      turns: 1,
      lastTurnPicks: null,
      plannedLength: loomLength,
      spacings,
      block: null,
    },
  ];
}

function adjustBlocks(
  blocks: readonly LaidBlock[],
  piece: number,
  adjustments: Adjustments,
): readonly LaidBlock[] {
  const set = adjustments.blocks.filter((it) => it.piece === piece);
  if (set.length === 0) return blocks;
  return blocks.map((block, i) => {
    const change = set.findLast((it) => it.block === i);
    return change === undefined ? block : adjusted(block, change);
  });
}

function adjusted(block: LaidBlock, { picks, sameYarnFrom }: BlockPicks): LaidBlock {
  if (sameYarnFrom === undefined || picks <= sameYarnFrom) return withPicks(block, picks);
  return withLongerLastTurn(withPicks(block, sameYarnFrom), picks - sameYarnFrom);
}

interface Cursor {
  turn: number;
  pick: number;
  /** Loom length of the pieces and gaps so far. */
  loom: number;
}

function fillPiece(
  plan: Plan,
  piece: Piece,
  index: number,
  laid: readonly LaidBlock[],
  turns: Turns,
  blocks: CourseBlock[],
  cursor: Cursor,
): CoursePiece {
  const start = { pick: cursor.pick, block: blocks.length, loom: cursor.loom };
  let loom = 0;
  for (const [ofPiece, block] of laid.entries()) {
    const before = { pick: cursor.pick, turn: cursor.turn, loom };
    loom = fillTurns(block, blocks.length, turns, cursor, loom);
    blocks.push({
      index: blocks.length,
      piece: index,
      ofPiece,
      laid: block,
      firstPick: before.pick,
      picks: cursor.pick - before.pick,
      firstTurn: before.turn,
      turns: cursor.turn - before.turn,
      loomStart: before.loom,
      loomLength: loom - before.loom,
    });
  }
  const gap = gapAfter(plan, index);
  cursor.loom += loom + gap;
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
    loomLength: loom,
    loomStart: start.loom,
    gapAfter: gap,
  };
}

function fillTurns(
  block: LaidBlock,
  blockIndex: number,
  turns: Turns,
  cursor: Cursor,
  from: Mm,
): Mm {
  const length = block.period.yarns.length;
  const last = block.turns - 1;
  let loom = from;
  let at = block.firstTurn;
  for (let k = 0; k <= last; k++) {
    const yarn = block.period.yarns[at] ?? 0;
    const picks =
      k === last && block.lastTurnPicks !== null
        ? block.lastTurnPicks
        : (block.period.picks[at] ?? 0);
    const spacing = block.spacings[yarn] ?? 0;
    const turn = cursor.turn++;
    turns.firstPick[turn] = cursor.pick;
    turns.yarn[turn] = yarn;
    turns.block[turn] = blockIndex;
    turns.loomStart[turn] = loom;
    turns.spacing[turn] = spacing;
    cursor.pick += picks;
    loom += picks * spacing;
    at = at + 1 === length ? 0 : at + 1;
  }
  return loom;
}

function emptyTurns(count: number): Turns {
  return {
    count,
    firstPick: new Int32Array(count + 1),
    yarn: new Uint8Array(count),
    block: new Int32Array(count),
    loomStart: new Float64Array(count),
    spacing: new Float64Array(count),
  };
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
