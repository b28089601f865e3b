/**
 * What a weaver's readings are rounded to, learnt from the readings themselves: someone who reads in
 * whole centimetres gives nothing but whole centimetres.
 */
import { MM_PER_INCH, type Mm } from '../../measure/length.ts';

interface Mark {
  readonly step: Mm;
  /** How likely before any reading, as a logarithm. */
  readonly prior: number;
}

const EIGHTH = MM_PER_INCH / 8;
/** Finer than this nobody reads: such a reading was not rounded at all. */
const FINEST: Mm = 0.1;
const MARKS: readonly Mark[] = [
  { step: FINEST, prior: -1 },
  { step: 1, prior: 0 },
  { step: 5, prior: -3 },
  { step: 10, prior: -2 },
  { step: EIGHTH, prior: 0 },
  { step: 2 * EIGHTH, prior: -2.5 },
  { step: 4 * EIGHTH, prior: -2.5 },
  { step: 8 * EIGHTH, prior: -3 },
];
/** A reading off the weaver's own marks: a slip. */
const OFF = Math.log(0.02);

/** How well each kind of ruler's marks explains the readings so far. */
export type Rounding = readonly number[];

export const NO_READINGS: Rounding = MARKS.map(({ prior }) => prior);

/** One reading more. */
export function rounded(rounding: Rounding, reading: Mm): Rounding {
  return MARKS.map(({ step }, i) => {
    const off = Math.abs(reading - Math.round(reading / step) * step);
    // Finer marks would have met this reading only now and then: that speaks for the coarser ones.
    const likely = off < FINEST / 2 ? Math.log(step / FINEST) : OFF;
    return (rounding[i] ?? 0) + likely;
  });
}

/** Variance that rounding adds to a reading: step² / 12 for each kind of marks, as likely as it is. */
export function roundingNoise(rounding: Rounding): number {
  const top = Math.max(...rounding);
  let [weight, sum] = [0, 0];
  for (const [i, { step }] of MARKS.entries()) {
    const likely = Math.exp((rounding[i] ?? 0) - top);
    weight += likely;
    sum += (likely * step ** 2) / 12;
  }
  return sum / weight;
}
