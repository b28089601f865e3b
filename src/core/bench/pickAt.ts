/**
 * Everything about pick n, derived. Each question is a binary search or two, so pick 60,000 costs
 * what pick 1 costs.
 */
import type { Mm } from '../measure/length.ts';
import type { Side } from '../plan/plan.ts';
import type { Course, CourseBlock, CoursePiece, Shed } from './course.ts';
import { gauged, gaugeOf } from './gauge.ts';
import { type Parked, parkedAt } from './parked.ts';
import { lastAtOrBefore } from './search.ts';
import {
  EDGES,
  type EdgeEnd,
  ENTRIES,
  type Entry,
  REST_KINDS,
  type RestKind,
  shedsOf,
  sideOf,
} from './stripes.ts';

/** The pick about to be thrown. Counts from 0 as everywhere in code; screens add one. */
export interface PickFacts {
  readonly pick: number;
  readonly piece: CoursePiece;
  readonly ofPiece: number;
  readonly yarn: number;
  readonly shed: Shed;
  /** The side the shuttle is thrown from. */
  readonly from: Side;
  readonly block: BlockPlace;
  readonly turn: TurnPlace;
  readonly stripe: StripePlace;
  /** Set on the first pick of a stripe only. */
  readonly coming: Coming | null;
  /** Set on the last pick of a stripe only: what becomes of the yarn after it. */
  readonly leaving: Leaving | null;
  /** Resting yarns to catch round the working yarn with this pick. */
  readonly catches: readonly number[];
  readonly parked: Parked;
  /** Loom length of the piece before this pick. */
  readonly loomLength: Mm;
}

export interface BlockPlace {
  readonly block: CourseBlock;
  /** Picks of the block before this one. */
  readonly done: number;
  readonly left: number;
  readonly lengthLeft: Mm;
}

export interface TurnPlace {
  /** Turn of the block, from 0. */
  readonly index: number;
  readonly of: number;
  /** Pick of the turn, from 0. */
  readonly done: number;
  readonly picks: number;
}

export interface StripePlace {
  readonly index: number;
  readonly done: number;
  readonly picks: number;
  readonly lengthLeft: Mm;
  /** The yarn of the stripe after this one; null at the end of the piece. */
  readonly nextYarn: number | null;
}

export interface Coming {
  readonly entry: Entry;
  readonly edge: EdgeEnd;
  /** Picks of others since the yarn last worked, and the float they make; 0 when new. */
  readonly overPicks: number;
  readonly overLength: Mm;
  /** The yarn that worked just before, if any. */
  readonly instead: number | null;
}

export interface Leaving {
  readonly rest: RestKind;
  readonly overPicks: number;
  readonly overLength: Mm;
  /** The side the shuttle will lie on. */
  readonly side: Side;
  readonly nextYarn: number | null;
}

/** Facts of the next pick after `pick` picks, or null when the course is woven. */
export function pickAt(course: Course, pick: number): PickFacts | null {
  if (pick < 0 || pick >= course.picks) return null;
  const turn = turnIndexAt(course, pick);
  const stripe = stripeIndexAt(course, pick);
  const block = course.blocks[course.turns.block[turn] ?? -1];
  const piece = course.pieces[block?.piece ?? -1];
  if (block === undefined || piece === undefined)
    throw new Error(`pickAt: no block holds pick ${pick}`);
  const place = stripePlace(course, piece, stripe, pick);
  return {
    pick,
    piece,
    ofPiece: pick - piece.firstPick,
    yarn: course.stripes.yarn[stripe] ?? 0,
    shed: shedAt(course, piece, pick),
    from: fromSideAt(course, stripe, pick),
    block: blockPlace(course, block, pick),
    turn: turnPlace(course, block, turn, pick),
    stripe: place,
    coming: place.done === 0 ? comingInto(course, piece, stripe) : null,
    leaving: place.done === place.picks - 1 ? leavingFrom(course, piece, stripe) : null,
    catches: catchesAt(course, piece, stripe, pick),
    parked: parkedAt(course, piece, stripe, pick),
    loomLength: loomLengthAt(course, pick),
  };
}

export function turnIndexAt(course: Course, pick: number): number {
  return lastAtOrBefore(course.turns.firstPick, course.turns.count, pick);
}

export function stripeIndexAt(course: Course, pick: number): number {
  return lastAtOrBefore(course.stripes.firstPick, course.stripes.count, pick);
}

/** Index of the yarn of a pick. */
export function yarnAt(course: Course, pick: number): number {
  return course.stripes.yarn[stripeIndexAt(course, pick)] ?? 0;
}

/** The piece a pick belongs to; the last piece when everything is woven. */
export function pieceAt(course: Course, pick: number): CoursePiece {
  const found = course.pieces.findLast((piece) => piece.firstPick <= pick) ?? course.pieces[0];
  if (found === undefined) throw new Error('pieceAt: the course has no piece');
  return found;
}

export function shedAt(course: Course, piece: CoursePiece, pick: number): Shed {
  return shedsOf(piece, course.adjustments)(pick);
}

export function fromSideAt(course: Course, stripe: number, pick: number): Side {
  const { stripes } = course;
  const thrown = pick - (stripes.firstPick[stripe] ?? 0);
  const flips = stripes.midFlips.filter((it) => it.stripe === stripe && it.pick <= pick).length;
  return sideOf((stripes.fromSide[stripe] ?? 0) ^ ((thrown + flips) & 1));
}

/**
 * Loom length of the piece a pick lies in, from the start of the piece to just before the pick.
 * At the very end of the course: of the last piece, whole.
 */
export function loomLengthAt(course: Course, pick: number): Mm {
  if (pick >= course.picks) return course.pieces[course.pieces.length - 1]?.loomLength ?? 0;
  return loomLengthInTurn(course, turnIndexAt(course, pick), pick);
}

/** Loom length of its piece to a pick of a turn, or to its end, as believed now. */
function loomLengthInTurn({ turns, blocks, belief }: Course, turn: number, pick: number): Mm {
  const yarn = belief.yarns[turns.yarn[turn] ?? 0] ?? 1;
  const into = (pick - (turns.firstPick[turn] ?? 0)) * (turns.spacing[turn] ?? 0) * yarn;
  const piece = blocks[turns.block[turn] ?? 0]?.piece ?? 0;
  return gauged(gaugeOf(belief, piece), (turns.reckoned[turn] ?? 0) + into);
}

/** Loom length from the start of the first piece, gaps included, to just before a pick. */
export function loomTravelAt(course: Course, pick: number): Mm {
  return pieceAt(course, pick).loomStart + loomLengthAt(course, pick);
}

function blockPlace(course: Course, block: CourseBlock, pick: number): BlockPlace {
  const done = pick - block.firstPick;
  const lengthLeft = block.loomStart + block.loomLength - loomLengthAt(course, pick);
  return { block, done, left: block.picks - done, lengthLeft };
}

function turnPlace(course: Course, block: CourseBlock, turn: number, pick: number): TurnPlace {
  const start = course.turns.firstPick[turn] ?? 0;
  const end = course.turns.firstPick[turn + 1] ?? start;
  return { index: turn - block.firstTurn, of: block.turns, done: pick - start, picks: end - start };
}

function stripePlace(
  course: Course,
  piece: CoursePiece,
  stripe: number,
  pick: number,
): StripePlace {
  const start = course.stripes.firstPick[stripe] ?? 0;
  const end = course.stripes.firstPick[stripe + 1] ?? start;
  return {
    index: stripe,
    done: pick - start,
    picks: end - start,
    lengthLeft: loomLengthBefore(course, end) - loomLengthAt(course, pick),
    nextYarn: nextYarnAfter(course, piece, stripe),
  };
}

/** Like `loomLengthAt`, but the first pick of a later piece still counts as the end of the one before. */
function loomLengthBefore(course: Course, end: number): Mm {
  return loomLengthInTurn(course, turnIndexAt(course, end - 1), end);
}

function isFirstOfPiece(course: Course, piece: CoursePiece, stripe: number): boolean {
  return stripe === (course.stripes.ofPieces[piece.index]?.firstStripe ?? -1);
}

function comingInto(course: Course, piece: CoursePiece, stripe: number): Coming {
  const { stripes } = course;
  const entry = ENTRIES[stripes.entry[stripe] ?? 0] ?? 'new';
  const over =
    entry === 'new'
      ? { overPicks: 0, overLength: 0 }
      : between(course, stripes.previous[stripe] ?? -1, stripe);
  const instead = isFirstOfPiece(course, piece, stripe) ? null : (stripes.yarn[stripe - 1] ?? null);
  return { entry, edge: EDGES[stripes.edge[stripe] ?? 0] ?? 'none', instead, ...over };
}

function leavingFrom(course: Course, piece: CoursePiece, stripe: number): Leaving {
  const { stripes } = course;
  const rest = REST_KINDS[stripes.rest[stripe] ?? 0] ?? 'ends';
  const next = stripes.next[stripe] ?? -1;
  const over = next < 0 ? { overPicks: 0, overLength: 0 } : between(course, stripe, next);
  return {
    rest,
    side: sideOf(stripes.restSide[stripe] ?? 0),
    nextYarn: nextYarnAfter(course, piece, stripe),
    ...over,
  };
}

function nextYarnAfter(course: Course, piece: CoursePiece, stripe: number): number | null {
  const range = course.stripes.ofPieces[piece.index];
  const last = range === undefined ? stripe : range.firstStripe + range.stripes - 1;
  return stripe >= last ? null : (course.stripes.yarn[stripe + 1] ?? null);
}

/** Picks and loom length of others between two stripes of one yarn in one piece. */
function between(course: Course, before: number, after: number) {
  const left = course.stripes.firstPick[before + 1] ?? 0;
  const back = course.stripes.firstPick[after] ?? 0;
  return {
    overPicks: back - left,
    overLength: loomLengthAt(course, back) - loomLengthAt(course, left),
  };
}

/**
 * Yarns resting in `catch` mode to be caught with this pick: the working shuttle leaves from the side
 * they rest on, for the first time since another k picks were up.
 */
function catchesAt(
  course: Course,
  piece: CoursePiece,
  stripe: number,
  pick: number,
): readonly number[] {
  const { stripes } = course;
  const caught: number[] = [];
  for (const [yarn, list] of stripes.ofYarn.entries()) {
    const last = list[lastAtOrBefore(list, list.length, stripe)];
    if (last === undefined || last === stripe) continue;
    const every = stripes.catchEvery[last] ?? 0;
    const left = stripes.firstPick[last + 1] ?? 0;
    if (every === 0 || left <= piece.firstPick) continue;
    const side = sideOf(stripes.restSide[last] ?? 0);
    if (side !== fromSideAt(course, stripe, pick)) continue;
    const before = lastPassOf(course, side, stripe, pick, left);
    if (Math.floor((pick - left) / every) > Math.floor((before - left) / every)) caught.push(yarn);
  }
  return caught;
}

/** The latest pick before `pick`, but not before `first`, thrown from `side`; `first` if there is none. */
function lastPassOf(
  course: Course,
  side: Side,
  stripe: number,
  pick: number,
  first: number,
): number {
  let at = stripe;
  for (let back = pick - 1; back > first; back--) {
    if (back < (course.stripes.firstPick[at] ?? 0)) at--;
    if (fromSideAt(course, at, back) === side) return back;
  }
  return first;
}
