/**
 * How much of a yarn lies there and how fast it goes: a Kalman filter of two states over the planned
 * length of weft, corrected by each weighing.
 *
 * States: the length left, and the factor, real use over planned. Over a planned length x the length
 * falls by factor × x while the factor wanders, as in the constant velocity model with white noise in
 * acceleration (Bar-Shalom, Li, Kirubarajan, Estimation with Applications to Tracking and Navigation,
 * 2001, section 6.2.2). Lengths are millimetres of yarn at its planned count: grams by another name.
 */
import type { Mm } from '../../measure/length.ts';
import { believedLength } from './believed.ts';
import type { BelievedLength } from './left.ts';
import { DRIFT_RATE } from './spreads.ts';

export interface UseBelief {
  /** Planned length of weft up to where this holds. */
  readonly at: Mm;
  readonly left: Mm;
  readonly factor: number;
  /** Variances of both, and their covariance; that of `left` is infinite while nobody said or weighed it. */
  readonly ofLeft: number;
  readonly ofFactor: number;
  readonly shared: number;
  /** What the last weighing was off where no use explains it, else null. */
  readonly misfit: Mm | null;
}

/** The same belief further on, or back, along the weft: nothing new is learnt on the way. */
export function usedTo(belief: UseBelief, at: Mm): UseBelief {
  const x = at - belief.at;
  const { factor, ofLeft, ofFactor, shared } = belief;
  const way = Math.abs(x);
  return {
    ...belief,
    at,
    left: belief.left - factor * x,
    ofLeft: ofLeft - 2 * x * shared + x ** 2 * ofFactor + (DRIFT_RATE * way ** 3) / 3,
    shared: shared - x * ofFactor - (DRIFT_RATE * x * way) / 2,
    ofFactor: ofFactor + DRIFT_RATE * way,
  };
}

/** A weighing farther off than so many standard deviations is no use: a cone was added or taken away. */
const MISFIT = 4;

/** The belief after a weighing of `left`, its standard deviation `spread`, where the belief stands. */
export function weighed(belief: UseBelief, left: Mm, spread: Mm): UseBelief {
  const noise = spread ** 2;
  const known = { ...belief, left, ofLeft: noise, shared: 0, misfit: null };
  if (belief.ofLeft === Number.POSITIVE_INFINITY) return known;
  const off = left - belief.left;
  const variance = belief.ofLeft + noise;
  if (Math.abs(off) > MISFIT * Math.sqrt(variance)) return { ...known, misfit: off };
  const gain = { left: belief.ofLeft / variance, factor: belief.shared / variance };
  return {
    ...belief,
    left: belief.left + gain.left * off,
    factor: belief.factor + gain.factor * off,
    ofLeft: (1 - gain.left) * belief.ofLeft,
    shared: (1 - gain.left) * belief.shared,
    ofFactor: belief.ofFactor - gain.factor * belief.shared,
    misfit: null,
  };
}

/** What lies there where the belief stands; below nought where more is used than there was. */
export function levelOf({ left, ofLeft }: UseBelief): BelievedLength {
  return believedLength(left, Math.sqrt(ofLeft));
}

/** What a planned length of weft really takes. */
export function useOver({ factor, ofFactor }: UseBelief, planned: Mm): BelievedLength {
  const variance = planned ** 2 * ofFactor + (DRIFT_RATE * planned ** 3) / 3;
  return believedLength(factor * planned, Math.sqrt(variance));
}
