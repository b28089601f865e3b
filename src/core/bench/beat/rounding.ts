/**
 * What a weaver's readings are rounded to, learnt from the readings themselves: someone who reads in
 * whole centimetres gives nothing but whole centimetres.
 */
import { MM_PER_INCH, type Mm } from '../../measure/length.ts';

interface Mark {
  readonly step: Mm;
  /** The finest mark of the same ruler. */
  readonly finest: Mm;
  readonly rare: number;
}

const EIGHTH = MM_PER_INCH / 8;
const MARKS: readonly Mark[] = [
  { step: EIGHTH, finest: EIGHTH, rare: 0 },
  { step: 2 * EIGHTH, finest: EIGHTH, rare: -2 },
  { step: 4 * EIGHTH, finest: EIGHTH, rare: -2 },
  { step: 8 * EIGHTH, finest: EIGHTH, rare: -3 },
  { step: 1, finest: 1, rare: 0 },
  { step: 5, finest: 1, rare: -2 },
  { step: 10, finest: 1, rare: -2 },
];
/** A reading off the weaver's own marks: a slip. */
const OFF = Math.log(0.02);

/** How well each kind of ruler's marks explains the readings so far. */
export type Rounding = readonly number[];

export const NO_READINGS: Rounding = MARKS.map(({ rare }) => rare);

/** One reading more. */
export function rounded(rounding: Rounding, reading: Mm): Rounding {
  return MARKS.map(({ step, finest }, i) => {
    const off = Math.abs(reading - Math.round(reading / step) * step);
    // A finer ruler would have hit this mark only now and then: that speaks for the coarser one.
    return (rounding[i] ?? 0) + (off < 0.02 ? Math.log(step / finest) : OFF);
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
