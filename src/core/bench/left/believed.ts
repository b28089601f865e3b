/** Estimates with their 90 % intervals, from a mean and a standard deviation. */
import type { Mm } from '../../measure/length.ts';
import { massOf, type Tex } from '../../measure/yarnCount.ts';
import type { BelievedGrams, BelievedLength, BelievedYarn } from './left.ts';

/** Nine in ten of a normal distribution lie within so many standard deviations of its mean. */
const NINE_IN_TEN = 1.6448536269514722;

/** A length that may be below nought, such as what a plan spares. */
export function believedLength(mm: Mm, sd: Mm): BelievedLength {
  return { mm, low: mm - NINE_IN_TEN * sd, high: mm + NINE_IN_TEN * sd, sd };
}

/** A length of yarn with its weight: both are one estimate, told twice. */
export function believedYarn(length: BelievedLength, tex: Tex): BelievedYarn {
  return { length, grams: gramsOf(length, tex) };
}

/** The weight (g) of a length of yarn, its interval with it; the count is taken as exact here. */
export function gramsOf({ mm, low, high, sd }: BelievedLength, tex: Tex): BelievedGrams {
  const grams = (length: Mm) => massOf(length, tex);
  return { grams: grams(mm), low: grams(low), high: grams(high), sd: grams(sd) };
}

/** What lies there cannot be less than nothing, whatever the sum says. */
export function noLessThanNought({ mm, low, high, sd }: BelievedLength): BelievedLength {
  const shown = (length: Mm) => Math.max(0, length);
  return { mm: shown(mm), low: shown(low), high: shown(high), sd };
}
