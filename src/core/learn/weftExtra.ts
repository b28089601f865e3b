/** Weft in a pick beyond the width in the reed, from the weight of a piece: what is not warp is weft. */
import type { Course } from '../bench/course.ts';
import { loomLengthFor } from '../measure/clothState.ts';
import type { Mm } from '../measure/length.ts';
import type { Grams } from '../measure/mass.ts';
import { meanOf } from '../measure/spread.ts';
import { massOf, texOf } from '../measure/yarnCount.ts';
import { sharesOf, warpRuns } from '../plan/geometry.ts';
import type { Plan } from '../plan/plan.ts';
import { type Figure, type PieceSizes, plausible, type Want } from './figure.ts';
import type { PieceReadings } from './readings.ts';
import { valuesOf } from './sizes.ts';

/** Kitchen and letter scales show whole grams. */
const SCALE_ERROR: Grams = 1;
/** Yarn is seldom nearer to its label than this (ours); all of it is laid to the weft. */
const COUNT_ERROR = 0.03;
/** Practice is 5 to 10 %: a figure outside these comes from the label or the scale, not the cloth. */
const LEAST_EXTRA = -0.02;
const MOST_EXTRA = 0.25;

export interface WovenPicks {
  readonly course: Course;
  /** Picks in the cloth of the whole warp. */
  readonly picks: number;
}

export interface Weighed {
  readonly piece: number;
  readonly readings: PieceReadings;
  readonly sizes: PieceSizes;
  readonly warpTaken: Figure;
}

/**
 * Weft thrown ÷ (picks × reed width) − 1, every yarn of the piece as thick as its count says. Read of
 * the piece off the loom where it was weighed so, else washed; the fringes belong to the warp.
 */
export function weftExtraOf(woven: WovenPicks, weighed: Weighed): Figure {
  const { plan } = woven.course;
  const { loomLength, reedWidth } = weighed.sizes;
  const { off, washed } = weighed.readings.states;
  const mass = (off.mass ?? washed.mass)?.value ?? null;
  const fringes = fringesOf(plan, weighed.piece, weighed.readings);
  if (mass === null || loomLength === null || fringes === null) {
    const wants: readonly (Want | null)[] = [
      mass === null ? 'mass' : null,
      loomLength === null ? 'loom-length' : null,
      fringes === null ? 'fringe' : null,
    ];
    return { kind: 'not-read', wants: wants.filter((it) => it !== null) };
  }
  const { warpTaken } = weighed;
  const taken = warpTaken.kind === 'read' ? warpTaken.share : plan.allowances.warpTaken.share;
  const warp = gramsOfWarp(plan, loomLength.mm * (1 + taken) + fringes);
  const straight = gramsOfPicks(woven, weighed.piece, reedWidth);
  // Of a piece without a pick there is nothing to learn, whatever the scale said.
  if (straight === 0) return { kind: 'implausible', share: 0 };
  const error = Math.hypot(SCALE_ERROR, COUNT_ERROR * mass) / straight;
  return plausible((mass - warp) / straight - 1, error, LEAST_EXTRA, MOST_EXTRA);
}

/** Warp in both fringes of a piece as it lay on the loom; null where there is one that was not read. */
function fringesOf(plan: Plan, index: number, { states }: PieceReadings): Mm | null {
  const it = plan.pieces[index];
  const stitched = [it?.beginning, it?.ending].filter((edge) => edge?.kind === 'hemstitch');
  if (stitched.length === 0) return 0;
  const off = valuesOf(states.off.fringes);
  if (off.length > 0) return stitched.length * meanOf(off);
  const washed = valuesOf(states.washed.fringes);
  if (washed.length === 0) return null;
  return stitched.length * loomLengthFor(meanOf(washed), sharesOf(plan));
}

function gramsOfWarp(plan: Plan, length: Mm): Grams {
  const floating = plan.warp.floatingSelvedges?.yarn;
  const runs = warpRuns(plan.warp.order);
  return plan.yarns.reduce((sum, { letter, count }) => {
    const own = runs.reduce((ends, run) => ends + (run.of === letter ? run.count : 0), 0);
    const ends = own + (letter === floating ? 2 : 0);
    return sum + massOf(ends * length, texOf(count));
  }, 0);
}

/** The picks of a piece laid straight across the reed, as far as they were woven. */
function gramsOfPicks({ course, picks }: WovenPicks, index: number, width: Mm): Grams {
  const { plan, stripes } = course;
  const { firstStripe, stripes: count } = course.pieces[index] ?? { firstStripe: 0, stripes: 0 };
  let grams = 0;
  for (let i = firstStripe; i < firstStripe + count; i++) {
    const from = stripes.firstPick[i] ?? 0;
    const thrown = Math.max(0, Math.min(picks, stripes.firstPick[i + 1] ?? 0) - from);
    const yarn = plan.yarns[stripes.yarn[i] ?? 0];
    if (yarn !== undefined) grams += massOf(thrown * width, texOf(yarn.count));
  }
  return grams;
}
