/**
 * Everything about pick n, derived. One search finds its stripe; turn, block, piece and lengths are a
 * step or two from there, so pick 60,000 costs what pick 1 costs.
 */
import type { Mm } from '../measure/length.ts';
import type { Side } from '../plan/plan.ts';
import { fromSideOf } from './atStripe.ts';
import { catchesAt } from './catches.ts';
import type { Course, CourseBlock, CoursePiece, Shed } from './course.ts';
import { believedAt, type Gauge } from './gauge.ts';
import { stripeHolding } from './milestones.ts';
import { type Parked, parkedAt } from './parked.ts';
import { lastAtOrBefore } from './search.ts';
import {
  EDGES,
  type EdgeEnd,
  ENTRIES,
  type Entry,
  REST_KINDS,
  type RestKind,
  type Stripes,
  shedAfter,
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
  const stripe = stripeIndexAt(course, pick);
  const turn = turnOfStripe(course, stripe, pick);
  const block = course.blocks[course.turns.block[turn] ?? -1];
  const piece = course.pieces[block?.piece ?? -1];
  if (block === undefined || piece === undefined)
    throw new Error(`pickAt: no block holds pick ${pick}`);
  const at: At = { course, piece, gauge: course.belief.pieces.get(piece.index), stripe };
  const loomLength = loomLengthInTurn(at, turn, pick);
  const place = stripePlace(at, turn, pick, loomLength);
  const from = fromSideOf(course.stripes, stripe, pick);
  return {
    pick,
    piece,
    ofPiece: pick - piece.firstPick,
    yarn: course.stripes.yarn[stripe] ?? 0,
    shed: shedAt(course, piece, pick),
    from,
    block: blockPlace(block, pick, loomLength),
    turn: turnPlace(course, block, turn, pick),
    stripe: place,
    coming: place.done === 0 ? comingInto(at, loomLength) : null,
    leaving: place.done === place.picks - 1 ? leavingFrom(at, place.nextYarn) : null,
    catches: catchesAt(course, piece, { pick, stripe, from }),
    parked: parkedAt(course, piece, { pick, stripe, from }),
    loomLength,
  };
}

/** What all about a pick is asked of: its stripe and its piece, with the gauge of the piece if it has one. */
interface At {
  readonly course: Course;
  readonly piece: CoursePiece;
  readonly gauge: Gauge | undefined;
  readonly stripe: number;
}

/** The turn of a stripe that holds a pick of it. */
function turnOfStripe({ stripes, turns }: Course, stripe: number, pick: number): number {
  const first = stripes.firstTurn[stripe] ?? 0;
  const next = stripes.firstTurn[stripe + 1] ?? turns.count;
  return next === first + 1 ? first : lastAtOrBefore(turns.firstPick, next, pick, first);
}

/** Index in `course.turns` of the turn that holds a pick; the last one beyond the end, −1 before pick 0. */
export function turnIndexAt(course: Course, pick: number): number {
  return lastAtOrBefore(course.turns.firstPick, course.turns.count, pick);
}

/** Index in `course.stripes` of the stripe that holds a pick; the last one beyond the end, −1 before pick 0. */
export function stripeIndexAt(course: Course, pick: number): number {
  return stripeHolding(course.stripes, pick);
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

/** The shed a pick of this piece is thrown in, with every turning round by the weaver up to it. */
export function shedAt({ adjustments }: Course, piece: CoursePiece, pick: number): Shed {
  return shedAfter(piece, adjustments.shedFlips, pick);
}

/**
 * Loom length of the piece a pick lies in, from the start of the piece to just before the pick.
 * At the very end of the course: of the last piece, whole.
 */
export function loomLengthAt(course: Course, pick: number): Mm {
  if (pick >= course.picks) return course.pieces[course.pieces.length - 1]?.loomLength ?? 0;
  const turn = turnIndexAt(course, pick);
  const piece = course.blocks[course.turns.block[turn] ?? 0]?.piece ?? 0;
  return loomLengthInTurn({ course, gauge: course.belief.pieces.get(piece) }, turn, pick);
}

/** Loom length of its piece to a pick of a turn, or to its end, as believed now. */
function loomLengthInTurn(
  { course: { turns, belief }, gauge }: Pick<At, 'course' | 'gauge'>,
  turn: number,
  pick: number,
): Mm {
  const yarn = belief.yarns[turns.yarn[turn] ?? 0] ?? 1;
  const into = (pick - (turns.firstPick[turn] ?? 0)) * (turns.spacing[turn] ?? 0) * yarn;
  return believedAt(belief, gauge, (turns.reckoned[turn] ?? 0) + into);
}

/** Loom length of the piece to just before the first pick of a stripe in it. */
function loomLengthAtStripe(at: At, stripe: number): Mm {
  const turn = at.course.stripes.firstTurn[stripe] ?? 0;
  return believedAt(at.course.belief, at.gauge, at.course.turns.reckoned[turn] ?? 0);
}

/** Loom length from the start of the first piece, gaps included, to just before a pick. */
export function loomTravelAt(course: Course, pick: number): Mm {
  return pieceAt(course, pick).loomStart + loomLengthAt(course, pick);
}

function blockPlace(block: CourseBlock, pick: number, loomLength: Mm): BlockPlace {
  const done = pick - block.firstPick;
  const lengthLeft = block.loomStart + block.loomLength - loomLength;
  return { block, done, left: block.picks - done, lengthLeft };
}

function turnPlace(course: Course, block: CourseBlock, turn: number, pick: number): TurnPlace {
  const start = course.turns.firstPick[turn] ?? 0;
  const end = course.turns.firstPick[turn + 1] ?? start;
  return { index: turn - block.firstTurn, of: block.turns, done: pick - start, picks: end - start };
}

function stripePlace(at: At, turn: number, pick: number, loomLength: Mm): StripePlace {
  const { course, stripe } = at;
  const start = course.stripes.firstPick[stripe] ?? 0;
  const end = course.stripes.firstPick[stripe + 1] ?? start;
  // Of the last turn, so that the first pick of a later piece still counts as the end of this one.
  const isInLast = end <= (course.turns.firstPick[turn + 1] ?? end);
  const last = isInLast ? turn : turnOfStripe(course, stripe, end - 1);
  return {
    index: stripe,
    done: pick - start,
    picks: end - start,
    lengthLeft: loomLengthInTurn(at, last, end) - loomLength,
    nextYarn: nextYarnAfter(at),
  };
}

function comingInto(at: At, loomLength: Mm): Coming {
  const { stripes } = at.course;
  const { piece, stripe } = at;
  const entry = ENTRIES[stripes.entry[stripe] ?? 0] ?? 'new';
  const before = entry === 'new' ? -1 : (stripes.previous[stripe] ?? -1);
  return {
    entry,
    edge: EDGES[stripes.edge[stripe] ?? 0] ?? 'none',
    overPicks: before < 0 ? 0 : picksBetween(stripes, before, stripe),
    overLength: before < 0 ? 0 : loomLength - loomLengthAtStripe(at, before + 1),
    instead: stripe === piece.firstStripe ? null : (stripes.yarn[stripe - 1] ?? null),
  };
}

function leavingFrom(at: At, nextYarn: number | null): Leaving {
  const { stripes } = at.course;
  const next = stripes.next[at.stripe] ?? -1;
  return {
    rest: REST_KINDS[stripes.rest[at.stripe] ?? 0] ?? 'ends',
    overPicks: next < 0 ? 0 : picksBetween(stripes, at.stripe, next),
    overLength: next < 0 ? 0 : lengthBetween(at, at.stripe, next),
    side: sideOf(stripes.restSide[at.stripe] ?? 0),
    nextYarn,
  };
}

function nextYarnAfter({ course: { stripes }, piece, stripe }: At): number | null {
  const isLast = stripe + 1 >= piece.firstStripe + piece.stripes;
  return isLast ? null : (stripes.yarn[stripe + 1] ?? null);
}

/** Picks of others between two stripes of one yarn in one piece. */
function picksBetween({ firstPick }: Stripes, before: number, after: number): number {
  return (firstPick[after] ?? 0) - (firstPick[before + 1] ?? 0);
}

function lengthBetween(at: At, before: number, after: number): Mm {
  return loomLengthAtStripe(at, after) - loomLengthAtStripe(at, before + 1);
}
