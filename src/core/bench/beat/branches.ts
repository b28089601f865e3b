/**
 * What may have happened, each branch of it with its weight: how unsteady this weaver's beat and
 * readings are (the *ways*, a small bank that learns), and of every reading whether it fits, is
 * misread, or shows that picks were miscounted. Each branch is one plain Kalman filter; the unlikely
 * are dropped. A jump in beat is no branch of its own: the unsteady ways follow it just as well.
 *
 * Source: D. L. Alspach & H. W. Sorenson, Nonlinear Bayesian Estimation Using Gaussian Sum
 * Approximations, IEEE Trans. Autom. Control 17, 1972.
 */
import type { Mm } from '../../measure/length.ts';
import {
  at,
  type Gaussian,
  type Hindsight,
  met,
  type Numbers,
  noisy,
  observed,
  type Seen,
} from './kalman.ts';
import type { BeatMark } from './marks.ts';
import { LENGTH, type Sight } from './quantities.ts';

export interface Branch {
  readonly before: Branch | null;
  readonly mark: BeatMark | null;
  readonly way: number;
  /** How each of the last three readings was taken, as one number: branches that agree in it become one. */
  readonly recent: number;
  /** Natural logarithm of how likely. */
  readonly weight: number;
  readonly state: Gaussian;
  readonly news: News;
}

/** What its mark told: nothing, a reading, or what was learnt from cloth since taken out, kept for what is left. */
export type News =
  | { readonly kind: 'none' }
  | { readonly kind: 'seen'; readonly seen: Seen }
  | { readonly kind: 'kept'; readonly cov: Numbers; readonly hindsight: Hindsight };

export const NO_NEWS: News = { kind: 'none' };

export interface Way {
  /** Of the factor, variance per mm. */
  readonly drift: number;
  /** Of a reading, sd before rounding. */
  readonly reading: Mm;
  readonly weight: number;
}

/** Wander of the factor (sd) and error of a reading (sd, mm). Ours, set by simulated weavers (coverage.test.ts). */
const DRIFTS = [
  { per10cm: 0.011, weight: 0.64 },
  { per10cm: 0.022, weight: 0.31 },
  { per10cm: 0.05, weight: 0.05 },
];
const READINGS = [
  { sd: 1.2, weight: 0.74 },
  { sd: 2.3, weight: 0.26 },
];
export const WAYS: readonly Way[] = DRIFTS.flatMap((drift) =>
  READINGS.map((reading) => ({
    drift: drift.per10cm ** 2 / 100,
    reading: reading.sd,
    weight: drift.weight * reading.weight,
  })),
);

/** Jumps in beat to come: how often (per mm) and how large (sd). */
const JUMP = { perMm: 1 / 5000, spread: 0.05 };
/**
 * What can be wrong: how often, and how far off (sd). Misread: the ruler or what it said. Miscounted: picks
 * tapped that were not thrown or the other way round. Further off than that: as far as it is off, so
 * that nothing read, however absurd, carries the belief away.
 */
const SLIPS = {
  misread: { share: 0.015, spread: 32 },
  miscounted: { share: 0.002, spread: 40 },
};

/** Branches kept; how unlikely one may be to be kept, and to be asked. */
const MOST = 12;
const UNLIKELY = Math.log(1e-4);
const LIKELY = Math.log(0.003);
/** In a new piece every way gets a new chance, this small at least: hands change. */
const NEW_CHANCE = Math.log(0.003);

/** Variance per mm by which the factor wanders in the way of a branch; 0 for a way that is not there. */
export const driftOf = ({ way }: { readonly way: number }): number => WAYS[way]?.drift ?? 0;

/**
 * How likely the beat jumps within so many mm of cloth to come, and the variance per mm that such a jump,
 * spread over all of them, adds to the drift.
 */
export function jumpOver(mm: Mm): { readonly chance: number; readonly drift: number } {
  return { chance: -Math.expm1(-JUMP.perMm * mm), drift: mm > 0 ? JUMP.spread ** 2 / mm : 0 };
}

/** How a reading may be taken; the last three of a branch make a number in base 3. */
export const FITS = 0;
const MISREAD = 1;
const MISCOUNTED = 2;
const RECENT = 3 ** 3;

/** A way to take a reading, weighed but not yet believed. */
export interface Child extends Weighed {
  readonly before: Branch;
  readonly verdict: number;
  /** The belief before the reading, and how a reading without any error would meet it. */
  readonly state: Gaussian;
  readonly exact: Seen;
  /** Variance added to the reading, and to the length. */
  readonly error: number;
  readonly shift: number;
}

export interface Taking {
  readonly advance: (state: Gaussian, drift: number) => Gaussian;
  readonly sight: (state: Gaussian) => Sight;
  readonly reading: Mm;
  /** Variance that rounding and the origin add. */
  readonly error: number;
}

/** Every way to take a reading. */
export function childrenOf(before: Branch, taking: Taking): readonly Child[] {
  const { way, weight, recent } = before;
  const state = taking.advance(before.state, driftOf(before));
  const { expected, weights } = taking.sight(state);
  const exact = met(state, weights, taking.reading - expected);
  const square = exact.gap ** 2;
  const seen = at(weights, LENGTH) ** 2;
  const child = (verdict: number, share: number, error: number, shift: number): Child => {
    const variance = exact.variance + error + shift * seen;
    const likely = -0.5 * (square / variance + Math.log(variance));
    return {
      before,
      way,
      recent: (recent * 3 + verdict) % RECENT,
      weight: weight + Math.log(share) + likely,
      verdict,
      state,
      exact,
      error,
      shift,
    };
  };
  const error = (WAYS[way]?.reading ?? 0) ** 2 + taking.error;
  return [
    child(FITS, 1 - SLIPS.misread.share - SLIPS.miscounted.share, error, 0),
    child(MISREAD, SLIPS.misread.share, Math.max(SLIPS.misread.spread ** 2, square), 0),
    child(
      MISCOUNTED,
      SLIPS.miscounted.share,
      error,
      Math.max(SLIPS.miscounted.spread ** 2, square),
    ),
  ];
}

/** The likely ones, believed. */
export function believing(children: readonly Child[], mark: BeatMark): readonly Branch[] {
  return pruned(children).map(({ before, way, recent, weight, ...child }) => {
    const { state, seen } = meeting(child);
    const news = { kind: 'seen', seen } as const;
    return { before, mark, way, recent, weight, state: observed(state, seen), news };
  });
}

function meeting({
  state,
  exact,
  error,
  shift,
}: Pick<Child, 'state' | 'exact' | 'error' | 'shift'>) {
  if (shift === 0) return { state, seen: { ...exact, variance: exact.variance + error } };
  const shifted = noisy(state, [{ row: LENGTH, column: LENGTH, variance: shift }]);
  const { variance, ...seen } = met(shifted, exact.weights, exact.gap);
  return { state: shifted, seen: { ...seen, variance: variance + error } };
}

export type Weighed = Pick<Branch, 'way' | 'recent' | 'weight'>;

/**
 * Of branches that agree in all but the distant past only the likeliest, with the weight of all; the
 * best of every way; of the others the likeliest. What is most unlikely goes. The weights add up to 1.
 */
export function pruned<T extends Weighed>(all: readonly T[]): readonly T[] {
  let top = Number.NEGATIVE_INFINITY;
  for (const { weight } of all) top = Math.max(top, weight);
  const likeliest = all.filter(({ weight }) => weight > top + UNLIKELY);
  likeliest.sort((a, b) => b.weight - a.weight);
  const kept: { readonly it: T; share: number }[] = [];
  let whole = 0;
  for (const it of likeliest) {
    const share = Math.exp(it.weight - top);
    const ofWay = kept.filter((other) => other.it.way === it.way);
    const same = ofWay.find((other) => other.it.recent === it.recent);
    if (same === undefined && ofWay.length > 0 && kept.length >= MOST) continue;
    whole += share;
    if (same === undefined) kept.push({ it, share });
    else same.share += share;
  }
  return kept.map(({ it, share }) => ({ ...it, weight: Math.log(share / whole) }));
}

/** Those that are asked; the others wait to become likelier. */
export const likely = (branches: readonly Branch[]): readonly Branch[] =>
  branches.filter(({ weight }) => weight > LIKELY);

/** The best branch of every way, with the weight of all of them; a way long given up starts from the best of all. */
export function everyWay(branches: readonly Branch[]): readonly Branch[] {
  const likeliest = [...branches].sort((a, b) => b.weight - a.weight);
  return WAYS.flatMap((_, way) => {
    const own = likeliest.filter((it) => it.way === way);
    const best = own[0] ?? likeliest[0];
    const weight = Math.log(own.reduce((sum, it) => sum + Math.exp(it.weight), 0));
    return best ? [{ ...best, way, weight: Math.max(weight, NEW_CHANCE) }] : [];
  });
}
