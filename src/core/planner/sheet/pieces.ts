/** Each piece of a warp: its lengths in every state of cloth, its wish, its weft and its weight. */
import type { Course, CoursePiece } from '../../bench/course.ts';
import { tallyWeft, type WeftTally, weftOfPiece } from '../../bench/left/weftTally.ts';
import { warpFor } from '../../measure/clothState.ts';
import type { Mm } from '../../measure/length.ts';
import type { Grams } from '../../measure/mass.ts';
import { massOf, texOf } from '../../measure/yarnCount.ts';
import { fringeOnLoom, sharesOf } from '../../plan/geometry.ts';
import { type PieceLengths, pieceLengths } from '../../plan/pieceLengths.ts';
import type { Edge, Plan, Wish } from '../../plan/plan.ts';
import { type Range, rangeOf } from '../../plan/sureness.ts';
import type { ClothSheet, Fringe, PieceSheet, WishSheet } from '../sheet.ts';

/** What every piece of a warp has in common. */
export interface Across {
  /** Ends of each yarn index, floating selvedges included. */
  readonly ends: readonly number[];
  readonly washedWidth: Mm;
}

interface Work extends Across {
  readonly course: Course;
  readonly weft: WeftTally;
  /** Room for the yarn and the picks of every turn: a new list a keystroke would be rubbish to clear. */
  readonly scratch: Int32Array;
}

/** One sheet a piece, in weaving order. */
export function pieceSheets(course: Course, across: Across): readonly PieceSheet[] {
  const scratch = new Int32Array(2 * course.turns.count);
  const work: Work = { ...across, course, weft: tallyWeft(course), scratch };
  return course.pieces.map((it) => pieceSheet(work, it));
}

function pieceSheet(work: Work, it: CoursePiece): PieceSheet {
  const { course } = work;
  const { plan } = course;
  const piece = plan.pieces[it.index];
  if (piece === undefined) throw new Error(`wanted a piece of the plan, got ${it.index}`);
  const lengths = pieceLengths(plan, piece, it.loomLength);
  const weft = weftOfPiece(work.weft, it);
  const warpTaken = warpFor(it.loomLength, sharesOf(plan));
  return {
    piece: it.index,
    picks: it.picks,
    hemPicks: hemPicks(course, it),
    loomLength: lengths.loom,
    offLength: lengths.off,
    washedLength: lengths.washed,
    washedRange: rangeIn('washed', plan, lengths),
    finishedLength: lengths.finished,
    fringes: { beginning: fringe(plan, piece.beginning), ending: fringe(plan, piece.ending) },
    warpTaken,
    gapAfter: it.gapAfter,
    picksLoom: it.picks / lengths.loom,
    picksWashed: it.picks / lengths.washed,
    wish: wishSheet(plan, piece.wish, lengths),
    mirrored: weftReadsSame(work, it),
    stripes: it.stripes,
    weft,
    gramsPerSquareMetre: perSquareMetre(
      gramsInCloth(plan, work.ends, warpTaken, weft),
      work.washedWidth * lengths.washed,
    ),
  };
}

function fringe(plan: Plan, edge: Edge): Fringe {
  if (edge.kind !== 'hemstitch') return { loom: 0, finished: 0 };
  return { loom: fringeOnLoom(plan, edge), finished: edge.fringe };
}

function wishSheet(plan: Plan, wish: Wish | undefined, lengths: PieceLengths): WishSheet | null {
  if (wish === undefined) return null;
  const reached = lengths[wish.state];
  const range = rangeIn(wish.state, plan, lengths);
  return { wish, reached, miss: reached - wish.length, range };
}

/** The range of a length in one state: what is turned under takes from both its ends alike. */
function rangeIn(state: Wish['state'], { allowances }: Plan, lengths: PieceLengths): Range | null {
  const { relax, shrinkLength } = allowances;
  switch (state) {
    case 'loom':
      return null;
    case 'off':
      return rangeOf(lengths.off, [relax]);
    case 'washed':
      return rangeOf(lengths.washed, [relax, shrinkLength]);
    case 'finished': {
      const range = rangeOf(lengths.washed, [relax, shrinkLength]);
      const turned = lengths.washed - lengths.finished;
      return range === null ? null : { from: range.from - turned, to: range.to - turned };
    }
  }
}

function hemPicks(course: Course, piece: CoursePiece): PieceSheet['hemPicks'] {
  const own = piece.firstBlock;
  const [beginning, ending] = [course.blocks[own], course.blocks[own + piece.blocks - 1]];
  const allowance = (block: typeof beginning) =>
    block === undefined || block.laid.block !== null ? 0 : block.picks;
  return { beginning: allowance(beginning), ending: allowance(ending) };
}

/** Whether the weft reads the same from both ends, hems and seam allowances left out. */
function weftReadsSame({ course, scratch }: Work, piece: CoursePiece): boolean {
  const { turns, blocks } = course;
  const hems = hemPicks(course, piece);
  const firstBlock = piece.firstBlock + (hems.beginning > 0 ? 1 : 0);
  const endBlock = piece.firstBlock + piece.blocks - (hems.ending > 0 ? 1 : 0);
  const end = blocks[endBlock]?.firstTurn ?? turns.count;
  let runs = 0;
  let yarn = -1;
  for (let turn = blocks[firstBlock]?.firstTurn ?? end; turn < end; turn++) {
    const picks = (turns.firstPick[turn + 1] ?? 0) - (turns.firstPick[turn] ?? 0);
    if (turns.yarn[turn] !== yarn) {
      yarn = turns.yarn[turn] ?? 0;
      scratch[2 * runs] = yarn;
      scratch[2 * runs + 1] = 0;
      runs++;
    }
    scratch[2 * runs - 1] = (scratch[2 * runs - 1] ?? 0) + picks;
  }
  for (let i = 0, j = runs - 1; i < j; i++, j--) {
    if (scratch[2 * i] !== scratch[2 * j]) return false;
    if (scratch[2 * i + 1] !== scratch[2 * j + 1]) return false;
  }
  return true;
}

/** Warp taken and weft thrown: what lies in the cloth itself. Floats and tails are trimmed away. */
function gramsInCloth(
  plan: Plan,
  ends: readonly number[],
  warpTaken: Mm,
  weft: PieceSheet['weft'],
): Grams {
  return plan.yarns.reduce((sum, yarn, i) => {
    const length = (ends[i] ?? 0) * warpTaken + (weft[i]?.thrown ?? 0);
    return sum + massOf(length, texOf(yarn.count));
  }, 0);
}

const SQUARE_MM_PER_SQUARE_METRE = 1e6;

function perSquareMetre(grams: Grams, area: number): number {
  return (grams / area) * SQUARE_MM_PER_SQUARE_METRE;
}

/** All pieces together: area and weight washed, without fringes, floats and tails. */
export function clothSheet(pieces: readonly PieceSheet[], washedWidth: Mm): ClothSheet {
  const area = pieces.reduce((sum, piece) => sum + piece.washedLength * washedWidth, 0);
  const grams = pieces.reduce((sum, piece) => {
    const own = piece.washedLength * washedWidth;
    return sum + (piece.gramsPerSquareMetre * own) / SQUARE_MM_PER_SQUARE_METRE;
  }, 0);
  return { gramsPerSquareMetre: perSquareMetre(grams, area), area, grams };
}
