/**
 * What may have happened, each way with its weight: how unsteady this weaver's beat and readings are
 * (the *ways*, a small bank that learns), and for every reading whether it fits, whether the beat
 * jumped before it, or whether it is misread. Each way is one plain Kalman filter; the unlikely are dropped.
 *
 * Source: D. L. Alspach & H. W. Sorenson, Nonlinear Bayesian Estimation Using Gaussian Sum
 * Approximations, IEEE Trans. Autom. Control 17, 1972.
 */
import type { Mm } from '../../measure/length.ts';
import {
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
const MISREAD = { share: 0.015, spread: 32 };
const MISCOUNTED = { share: 0.002, spread: 40 };

const MOST = 9;
const UNLIKELY = Math.log(1e-4);
const LIKELY = Math.log(0.003);
/** In a new piece every way gets a new chance, this small at least: hands change. */
const NEW_CHANCE = Math.log(0.003);

export const driftOf = ({ way }: { readonly way: number }): number => WAYS[way]?.drift ?? 0;

export function jumpOver(mm: Mm): { readonly chance: number; readonly drift: number } {
  return { chance: -Math.expm1(-JUMP.perMm * mm), drift: mm > 0 ? JUMP.spread ** 2 / mm : 0 };
}

/** How a reading may be taken; 0 to 2 for the last three of a branch, in base 3. */
const FITS = 0;
const IS_MISREAD = 1;
const IS_MISCOUNTED = 2;
const RECENT = 3 ** 3;

export interface Child {
  readonly before: Branch;
  readonly way: number;
  readonly recent: number;
  readonly weight: number;
  /** Whether it takes reading and count for what they are. */
  readonly fits: boolean;
  /** The belief before the reading. */
  readonly state: Gaussian;
  readonly seen: Seen;
}

export interface Taking {
  readonly advance: (state: Gaussian, drift: number) => Gaussian;
  readonly sight: (state: Gaussian) => Sight;
  readonly reading: Mm;
  /** Variance that rounding and the origin add. */
  readonly error: number;
}

/** Every way to take a reading, weighed but not yet believed. */
export function childrenOf(before: Branch, taking: Taking): readonly Child[] {
  const { way } = before;
  const state = taking.advance(before.state, driftOf(before));
  const { expected, weights } = taking.sight(state);
  const gap = taking.reading - expected;
  const error = (WAYS[way]?.reading ?? 0) ** 2 + taking.error;
  const off = ({ spread }: typeof MISREAD) => Math.max(spread ** 2, gap ** 2);
  const child = (verdict: number, share: number, from: Gaussian, noise: number): Child => {
    const exact = met(from, weights, gap);
    const seen = { ...exact, variance: exact.variance + noise };
    const weight = before.weight + Math.log(share) + likelihood(seen);
    const recent = (before.recent * 3 + verdict) % RECENT;
    return { before, way, recent, weight, fits: verdict === FITS, state: from, seen };
  };
  const shifted = noisy(state, [{ row: LENGTH, column: LENGTH, variance: off(MISCOUNTED) }]);
  return [
    child(FITS, 1 - MISREAD.share - MISCOUNTED.share, state, error),
    child(IS_MISREAD, MISREAD.share, state, off(MISREAD)),
    child(IS_MISCOUNTED, MISCOUNTED.share, shifted, error),
  ];
}

function likelihood({ gap, variance }: Seen): number {
  return -0.5 * (gap ** 2 / variance + Math.log(variance));
}

/** The likely ones, believed. */
export function believing(children: readonly Child[], mark: BeatMark): readonly Branch[] {
  return pruned(children).map(({ before, way, recent, weight, state, seen }) => ({
    before,
    mark,
    way,
    recent,
    weight,
    state: observed(state, seen),
    news: { kind: 'seen', seen },
  }));
}

type Weighed = Pick<Branch, 'way' | 'recent' | 'weight'>;

/**
 * Of branches that agree in all but the distant past only the likeliest, with the weight of all; the
 * best of every way; of the others the likeliest. What is most unlikely goes. The weights add up to 1.
 */
export function pruned<T extends Weighed>(all: readonly T[]): readonly T[] {
  const likeliest = [...all].sort((a, b) => b.weight - a.weight);
  const top = likeliest[0]?.weight ?? 0;
  const kept = new Map<number, { it: T; share: number }>();
  const ways = new Set<number>();
  for (const it of likeliest) {
    const weight = it.weight - top;
    const key = it.way * RECENT + it.recent;
    const same = kept.get(key);
    if (same !== undefined) same.share += Math.exp(weight);
    else if (weight > UNLIKELY && (kept.size < MOST || !ways.has(it.way)))
      kept.set(key, { it, share: Math.exp(weight) });
    ways.add(it.way);
  }
  let whole = 0;
  for (const { share } of kept.values()) whole += share;
  return [...kept.values()].map(({ it, share }) => ({ ...it, weight: Math.log(share / whole) }));
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
