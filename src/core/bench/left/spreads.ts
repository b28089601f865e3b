/**
 * How far the figures of a plan may be off, as standard deviations: what the intervals of warp and
 * yarn are made of. Where no source gives one it is ours, and says what it goes by.
 */
import type { Mm } from '../../measure/length.ts';
import type { Grams } from '../../measure/mass.ts';
import type { Allowance } from '../../plan/plan.ts';
import type { TiedOn } from './left.ts';

/** Take-up runs from 7 to 12 % of the cloth (common practice, no source); taken as nine in ten of looms. */
const PRACTICE_WARP_TAKEN = 0.015;
/** A figure of the weaver's own is a whole percent, and of other warps than this one (ours). */
const TYPED_WARP_TAKEN = 0.01;

/** No loom takes up the same to a quarter of a percent, however alike the weaver's washed pieces (ours). */
const LEAST_WARP_TAKEN = 0.0025;

/** Standard deviation of the share of warp taken on the warp at hand. */
export function warpTakenSpread({ from }: Allowance): number {
  switch (from.kind) {
    case 'practice':
    case 'source':
      return PRACTICE_WARP_TAKEN;
    case 'typed':
      return TYPED_WARP_TAKEN;
    case 'washed':
      return Math.max(LEAST_WARP_TAKEN, from.spread);
  }
}

/** A warp wound on a board or to a peg is off by one part in two hundred (ours). */
const WOUND_SHARE = 0.005;

/** The warp at the length the plan asks to wind. */
export function asWound(mm: Mm): TiedOn {
  return { mm, sd: WOUND_SHARE * mm };
}

/** A tape along a tight warp: a few millimetres at its ends, and one in a thousand for its sag (ours). */
const MEASURED: Mm = 5;
const MEASURED_SHARE = 0.001;

/** The warp at a length the weaver measured. */
export function asMeasured(mm: Mm): TiedOn {
  return { mm, sd: Math.hypot(MEASURED, MEASURED_SHARE * mm) };
}

/** Knots in front and the last shed behind fall within a few fingers of where the plan has them (ours). */
const WASTE: Mm = 20;
export const WASTES_SPREAD: Mm = Math.hypot(WASTE, WASTE);

/**
 * A yarn of a count is a few percent heavier or lighter than the rule says: 16/2 linen is sold as
 * 2700 yd/lb where the rule has 2400, 22/2 cottolin as 3000 to 3360 (labels; the share is ours).
 */
export const TEX_SPREAD = 0.04;
/** Weft extra runs from 5 to 10 % (practice), and no two weavers lay the weft at one angle (ours). */
const PRACTICE_WEFT_EXTRA = 0.03;

/** Standard deviation of real over planned use of weft, the yarn's count and the weaver's hand together. */
export function weftUseSpread({ from }: Allowance): number {
  return Math.hypot(TEX_SPREAD, from.kind === 'washed' ? from.spread : PRACTICE_WEFT_EXTRA);
}

/** Use of weft drifts from bobbin to bobbin and cone to cone: one percent in a hundred metres (ours). */
const DRIFT = 0.01;
const DRIFT_OVER: Mm = 100_000;
/** Variance that the use of weft gains over a millimetre of it. */
export const DRIFT_RATE = DRIFT ** 2 / DRIFT_OVER;

/** What the weaver said lies there goes by labels: 2 %, and never better than a scale (ours). */
const SAID_SHARE = 0.02;

/** Standard deviation (g) of so much yarn as the weaver said lies there. */
export function saidSpread(grams: Grams): Grams {
  return Math.hypot(SCALE, SAID_SHARE * grams);
}

/** A kitchen scale shows whole grams, twice with the tare; yarn weighs ½ % more or less by the weather (ours). */
const SCALE: Grams = 1;
const DAMP_SHARE = 0.005;

/** Standard deviation (g) of a weighing of yarn that came to so much net. */
export function scaleSpread(net: Grams): Grams {
  return Math.hypot(SCALE, DAMP_SHARE * net);
}
