/** Each piece of a warp: its lengths in every state of cloth, its wish, its weft, weight and edges. */
import { NO_ADJUSTMENTS } from '../../bench/adjustments.ts';
import { type Course, type CoursePiece, layCourse } from '../../bench/course.ts';
import { tallyWeft, type WeftTally, weftOfPiece } from '../../bench/left/weftTally.ts';
import { warpFor } from '../../measure/clothState.ts';
import type { Mm } from '../../measure/length.ts';
import type { Grams } from '../../measure/mass.ts';
import { massOf, texOf } from '../../measure/yarnCount.ts';
import { firstAlike } from '../../plan/alike.ts';
import { fringeOnLoom, gapAfter, sharesOf } from '../../plan/geometry.ts';
import { type PieceLengths, pieceLengths } from '../../plan/pieceLengths.ts';
import {
  type Edge,
  type Piece,
  PLAN_FORMAT,
  PLAN_VERSION,
  type Plan,
  type Wish,
} from '../../plan/plan.ts';
import { remembering } from '../../plan/remembering.ts';
import { type Range, rangeOf } from '../../plan/sureness.ts';
import { woundEnds } from '../../plan/warpLength.ts';
import type { ClothSheet, EdgeWarning, Fringe, PieceSheet, WishSheet } from '../sheet.ts';
import { edgeWarnings } from './warnings.ts';
import { widthSheet } from './warp.ts';

/** What follows of one piece, and what its edges will do, in weaving order. */
export interface PiecesComeTo {
  readonly sheets: readonly PieceSheet[];
  readonly warnings: readonly EdgeWarning[];
}

/**
 * Every piece as if it were alone on the warp, for none follows from another: so a piece is laid again
 * only when it, or what all pieces have in common, has changed, and pieces woven alike are laid once.
 */
export function piecesComeTo(plan: Plan): PiecesComeTo {
  const { loom, yarns, warp, weaving, allowances } = plan;
  const likes = firstAlike(plan.pieces);
  const gaps = gapsAfter(plan, likes);
  const found = likes.map((like, index) => {
    const { sheet, lengths, warnings } = alone(like, loom, yarns, warp, weaving, allowances);
    const wish = wishSheet(plan, plan.pieces[index]?.wish, lengths);
    return {
      sheet: { ...sheet, piece: index, gapAfter: gaps[index] ?? 0, wish },
      warnings: warnings.map((it) => ({ ...it, piece: index, path: pathIn(index, it.path) })),
    };
  });
  return {
    sheets: found.map(({ sheet }) => sheet),
    warnings: found.flatMap(({ warnings }) => warnings),
  };
}

/** Warp left unwoven after each piece; between three alike it is the same twice. */
function gapsAfter(plan: Plan, likes: readonly Piece[]): readonly Mm[] {
  const gaps: Mm[] = [];
  for (const [i, like] of likes.entries()) {
    const before = like === likes[i - 1] && like === likes[i + 1] ? gaps[i - 1] : undefined;
    gaps.push(before ?? gapAfter(plan, i));
  }
  return gaps;
}

/** What is the first piece where it is alone is another one here. */
function pathIn(index: number, path: string): string {
  return path.replace('pieces[0]', `pieces[${index}]`);
}

type Common = readonly [
  Plan['loom'],
  Plan['yarns'],
  Plan['warp'],
  Plan['weaving'],
  Plan['allowances'],
];

interface Alone {
  readonly sheet: Omit<PieceSheet, 'piece' | 'gapAfter' | 'wish'>;
  readonly lengths: PieceLengths;
  readonly warnings: readonly EdgeWarning[];
}

const alone = remembering((piece: Piece, ...common: Common): Alone => {
  const [loom, yarns, warp, weaving, allowances] = common;
  const head = { format: PLAN_FORMAT, version: PLAN_VERSION, name: '', units: 'metric' } as const;
  const plan: Plan = { ...head, loom, yarns, warp, weaving, allowances, pieces: [piece] };
  const course = layCourse(plan, NO_ADJUSTMENTS);
  const [it] = course.pieces;
  if (it === undefined) throw new Error('no piece');
  const lengths = pieceLengths(plan, piece, it.loomLength);
  const sheet = pieceSheet({ course, weft: tallyWeft(course), lengths }, piece, it);
  return { sheet, lengths, warnings: edgeWarnings(course) };
});

interface Work {
  readonly course: Course;
  readonly weft: WeftTally;
  readonly lengths: PieceLengths;
}

function pieceSheet({ course, ...work }: Work, piece: Piece, it: CoursePiece): Alone['sheet'] {
  const { plan } = course;
  const { lengths } = work;
  const weft = weftOfPiece(work.weft, it);
  const warpTaken = warpFor(it.loomLength, sharesOf(plan));
  return {
    picks: it.picks,
    hemPicks: hemPicks(course, it),
    loomLength: lengths.loom,
    offLength: lengths.off,
    washedLength: lengths.washed,
    washedRange: rangeIn('washed', plan, lengths),
    finishedLength: lengths.finished,
    fringes: { beginning: fringe(plan, piece.beginning), ending: fringe(plan, piece.ending) },
    warpTaken,
    picksLoom: it.picks / lengths.loom,
    picksWashed: it.picks / lengths.washed,
    mirrored: weftReadsSame(course, it),
    stripes: it.stripes,
    weft,
    gramsPerSquareMetre: perSquareMetre(
      gramsInCloth(plan, woundEnds(plan), warpTaken, weft),
      widthSheet(plan).washed * lengths.washed,
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
function weftReadsSame(course: Course, piece: CoursePiece): boolean {
  const { turns, blocks } = course;
  /** The yarn and the picks of every run. */
  const scratch = new Int32Array(2 * turns.count);
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
