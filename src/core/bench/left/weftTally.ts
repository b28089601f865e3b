/**
 * The weft of a course, yarn by yarn, between any two picks: picks, carried floats, tails.
 *
 * A tail to begin with and a float into a stripe are taken with its first pick, the tail at its end
 * with its last. Counted once a course; every question after that is a search.
 */
import { weftPerPick } from '../../measure/clothState.ts';
import type { Mm } from '../../measure/length.ts';
import type { Grams } from '../../measure/mass.ts';
import { massOf, type Tex, texOf } from '../../measure/yarnCount.ts';
import { reedWidth, sharesOf } from '../../plan/geometry.ts';
import type { Course, CoursePiece } from '../course.ts';
import { lastOfYarn, stripeHolding } from '../milestones.ts';
import { ENTRIES, REST_KINDS, type Stripes } from '../stripes.ts';

/** What one yarn gives to a weft; the parts sum to `length`. */
export interface WeftUse {
  readonly picks: number;
  /** Laid in the sheds: picks × reed width × (1 + weft extra). */
  readonly thrown: Mm;
  /** Carried up the edge while others work, floating or caught. */
  readonly carried: Mm;
  /** Tails to tuck in where the yarn starts and where it is cut (see `TUCKED_TAIL`). */
  readonly tails: Mm;
  /** Tails left for hemstitching; they stand for the tail that would be tucked in. */
  readonly stitching: Mm;
  readonly length: Mm;
  readonly grams: Grams;
}

/**
 * What is tucked in or trimmed where a yarn starts and where it is cut: about a hand's width, 10 cm.
 * Common practice, no source.
 */
export const TUCKED_TAIL: Mm = 100;

/**
 * Sums of each yarn at its stripes: entry r holds all that the yarn of stripe r took before its first
 * pick, and the tail or float that pick takes.
 */
export interface WeftTally {
  readonly course: Course;
  /** Weft in one pick. */
  readonly perPick: Mm;
  /** Tail left for hemstitching. */
  readonly stitchTail: Mm;
  readonly texes: readonly Tex[];
  readonly picks: Float64Array;
  readonly carried: Float64Array;
  /** Tails to tuck in, and those for hemstitching, counted. */
  readonly tails: Float64Array;
  readonly stitched: Float64Array;
  /** What the last pick of stripe r takes besides: `CARRIED_ON`, `TAIL` or `STITCHED`. */
  readonly closing: Uint8Array;
}

const CARRIED_ON = 0;
const TAIL = 1;
const STITCHED = 2;

const NEW = ENTRIES.indexOf('new');
const FLOAT = REST_KINDS.indexOf('float');
const CATCH = REST_KINDS.indexOf('catch');

/** Counts the weft of a course. Plain loops over typed arrays: the planner runs it on every keystroke. */
export function tallyWeft(course: Course): WeftTally {
  const { plan, stripes } = course;
  const reed = reedWidth(plan);
  const tally = {
    course,
    perPick: weftPerPick(reed, sharesOf(plan)),
    stitchTail: plan.weaving.tailWidths * reed,
    texes: plan.yarns.map((yarn) => texOf(yarn.count)),
    picks: new Float64Array(stripes.count),
    carried: new Float64Array(stripes.count),
    tails: new Float64Array(stripes.count),
    stitched: new Float64Array(stripes.count),
    closing: new Uint8Array(stripes.count),
  };
  const sofar = plan.yarns.map(() => ({ picks: 0, carried: 0, tails: 0, stitched: 0 }));
  for (const piece of course.pieces) addPiece(tally, piece, sofar);
  return tally;
}

function addPiece(tally: WeftTally, piece: CoursePiece, sofar: readonly Sums[]): void {
  const { stripes, plan } = tally.course;
  const edges = plan.pieces[piece.index];
  const end = piece.firstStripe + piece.stripes;
  const opens = edges?.beginning.kind === 'hemstitch' ? piece.firstStripe : -1;
  const closes = edges?.ending.kind === 'hemstitch' ? end - 1 : -1;
  for (let r = piece.firstStripe; r < end; r++) {
    const sums = sofar[stripes.yarn[r] ?? 0];
    if (sums === undefined) continue;
    if (stripes.entry[r] !== NEW) sums.carried += floatInto(tally.course, r);
    else if (r === opens) sums.stitched++;
    else sums.tails++;
    tally.picks[r] = sums.picks;
    tally.carried[r] = sums.carried;
    tally.tails[r] = sums.tails;
    tally.stitched[r] = sums.stitched;
    const closing = closingOf(stripes, r, closes);
    tally.closing[r] = closing;
    sums.picks += (stripes.firstPick[r + 1] ?? 0) - (stripes.firstPick[r] ?? 0);
    if (closing === TAIL) sums.tails++;
    if (closing === STITCHED) sums.stitched++;
  }
}

function closingOf({ rest }: Stripes, r: number, stitched: number): number {
  if (rest[r] === FLOAT || rest[r] === CATCH) return CARRIED_ON;
  return r === stitched ? STITCHED : TAIL;
}

/** Loom length of what others wove since the yarn last worked. */
function floatInto({ stripes, turns }: Course, r: number): Mm {
  const back = turns.loomStart[stripes.firstTurn[r] ?? 0] ?? 0;
  const left = turns.loomStart[stripes.firstTurn[(stripes.previous[r] ?? 0) + 1] ?? 0] ?? 0;
  return back - left;
}

/** Weft of each yarn index in one piece; it does not depend on the other pieces of the warp. */
export function weftOfPiece(
  tally: WeftTally,
  { firstPick, picks }: CoursePiece,
): readonly WeftUse[] {
  return tally.texes.map((_, yarn) => weftBetween(tally, yarn, firstPick, firstPick + picks));
}

/** Weft of a yarn index taken by the picks from `from` to before `to`. */
export function weftBetween(tally: WeftTally, yarn: number, from: number, to: number): WeftUse {
  const [before, after] = [sumsAt(tally, yarn, from), sumsAt(tally, yarn, to)];
  const picks = after.picks - before.picks;
  return useOf(tally.texes[yarn] ?? 0, {
    picks,
    thrown: picks * tally.perPick,
    carried: after.carried - before.carried,
    tails: (after.tails - before.tails) * TUCKED_TAIL,
    stitching: (after.stitched - before.stitched) * tally.stitchTail,
  });
}

/** Length of weft of a yarn index taken by all picks before `pick`. */
export function weftBefore(tally: WeftTally, yarn: number, pick: number): Mm {
  const { picks, carried, tails, stitched } = sumsAt(tally, yarn, pick);
  return picks * tally.perPick + carried + tails * TUCKED_TAIL + stitched * tally.stitchTail;
}

/** The sum of what one yarn gives to several pieces. */
export function addUses(tex: Tex, uses: readonly WeftUse[]): WeftUse {
  const sum = (part: (use: WeftUse) => number) => uses.reduce((total, use) => total + part(use), 0);
  return useOf(tex, {
    picks: sum((use) => use.picks),
    thrown: sum((use) => use.thrown),
    carried: sum((use) => use.carried),
    tails: sum((use) => use.tails),
    stitching: sum((use) => use.stitching),
  });
}

function useOf(tex: Tex, parts: Omit<WeftUse, 'length' | 'grams'>): WeftUse {
  const length = parts.thrown + parts.carried + parts.tails + parts.stitching;
  return { ...parts, length, grams: massOf(length, tex) };
}

interface Sums {
  picks: number;
  carried: Mm;
  tails: number;
  stitched: number;
}

const NOTHING: Readonly<Sums> = { picks: 0, carried: 0, tails: 0, stitched: 0 };

function sumsAt(tally: WeftTally, yarn: number, pick: number): Readonly<Sums> {
  const { stripes } = tally.course;
  const r = lastStripeBefore(stripes, yarn, pick);
  if (r < 0) return NOTHING;
  const [first, end] = [stripes.firstPick[r] ?? 0, stripes.firstPick[r + 1] ?? 0];
  const closing = pick < end ? CARRIED_ON : tally.closing[r];
  return {
    picks: (tally.picks[r] ?? 0) + Math.min(pick, end) - first,
    carried: tally.carried[r] ?? 0,
    tails: (tally.tails[r] ?? 0) + (closing === TAIL ? 1 : 0),
    stitched: (tally.stitched[r] ?? 0) + (closing === STITCHED ? 1 : 0),
  };
}

/** The last stripe of a yarn that has begun when `pick` picks are woven; −1 before its first. */
function lastStripeBefore(stripes: Stripes, yarn: number, pick: number): number {
  const last = stripeHolding(stripes, pick - 1);
  return last < 0 ? -1 : lastOfYarn(stripes, yarn, last);
}
