/**
 * What may have happened, each way with its weight: how unsteady this weaver's beat and readings are
 * (the *ways*, a small bank that learns), and for every reading whether it fits, whether the beat
 * jumped before it, or whether it is misread. Each way is one plain Kalman filter; the unlikely are dropped.
 *
 * Source: D. L. Alspach & H. W. Sorenson, Nonlinear Bayesian Estimation Using Gaussian Sum
 * Approximations, IEEE Trans. Autom. Control 17, 1972.
 */
import type { Mm } from '../../measure/length.ts';
import { type Gaussian, type Hindsight, met, type Numbers, observed, type Seen } from './kalman.ts';
import type { BeatMark } from './marks.ts';
import type { Sight } from './quantities.ts';

/** A reading fits, follows a jump in beat, or is misread. */
export const FITS = 0;
export const JUMPED = 1;
export const MISREAD = 2;

export interface Branch {
  readonly before: Branch | null;
  readonly mark: BeatMark | null;
  readonly way: number;
  readonly verdict: number;
  /** The last four verdicts, in base 3: branches that agree in them become one. */
  readonly recent: number;
  /** Natural logarithm of how likely. */
  readonly weight: number;
  /** By how much the factor wandered since the mark before: variance per mm. */
  readonly drift: number;
  readonly state: Gaussian;
  readonly news: News;
}

/** What its mark told: nothing, a reading, or what was learnt from cloth since taken out, kept for what is left. */
export type News =
  | { readonly kind: 'none' }
  | { readonly kind: 'seen'; readonly seen: Seen }
  | { readonly kind: 'kept'; readonly cov: Numbers; readonly hindsight: Hindsight };

export interface Way {
  /** Of the factor, variance per mm. */
  readonly drift: number;
  /** Of a reading, sd before rounding. */
  readonly reading: Mm;
  readonly weight: number;
}

const DRIFTS = [
  { per10cm: 0.005, weight: 0.25 },
  { per10cm: 0.015, weight: 0.5 },
  { per10cm: 0.04, weight: 0.25 },
];
const READINGS = [
  { sd: 0.8, weight: 0.25 },
  { sd: 1.5, weight: 0.5 },
  { sd: 2.8, weight: 0.25 },
];
export const WAYS: readonly Way[] = DRIFTS.flatMap((drift) =>
  READINGS.map((reading) => ({
    drift: drift.per10cm ** 2 / 100,
    reading: reading.sd,
    weight: drift.weight * reading.weight,
  })),
);

/** Jumps in beat: how often (per mm) and how large (sd). */
const JUMP = { perMm: 1 / 5000, spread: 0.05 };
/** Misread readings: how often and how far off (sd). */
const MISREADING = { share: 0.015, spread: 32 };

const MOST = 40;
const AGREEING = 3 ** 4;
/** A way never falls further behind than this: hands change. */
const FURTHEST = Math.log(1e-5);
const UNLIKELY = Math.log(1e-4);

export const driftOf = ({ way }: { readonly way: number }): number => WAYS[way]?.drift ?? 0;

export function jumpOver(mm: Mm): { readonly chance: number; readonly drift: number } {
  return { chance: -Math.expm1(-JUMP.perMm * mm), drift: mm > 0 ? JUMP.spread ** 2 / mm : 0 };
}

export interface Child {
  /** Its state is that before the reading. */
  readonly branch: Omit<Branch, 'news'>;
  /** How likely it was before the reading. */
  readonly chance: number;
  readonly seen: Seen;
}

export interface Taking {
  readonly mark: BeatMark;
  /** Planned length since the mark before. */
  readonly mm: Mm;
  readonly advance: (state: Gaussian, drift: number) => Gaussian;
  readonly sight: (state: Gaussian) => Sight;
  readonly reading: Mm;
  /** Variance that rounding adds. */
  readonly rounding: number;
}

/** Every way a reading can be taken, weighed but not yet believed. */
export function childrenOf(branch: Branch, taking: Taking): readonly Child[] {
  const drift = driftOf(branch);
  const jump = jumpOver(taking.mm);
  const noise = (WAYS[branch.way]?.reading ?? 0) ** 2 + taking.rounding;
  const steady = taking.advance(branch.state, drift);
  const fits = (1 - jump.chance) * (1 - MISREADING.share);
  const children = [
    child(branch, taking, steady, drift, FITS, fits, noise),
    child(branch, taking, steady, drift, MISREAD, MISREADING.share, MISREADING.spread ** 2),
  ];
  if (jump.chance === 0) return children;
  const unsteady = drift + jump.drift;
  const jumped = taking.advance(branch.state, unsteady);
  return [...children, child(branch, taking, jumped, unsteady, JUMPED, jump.chance, noise)];
}

function child(
  before: Branch,
  { mark, sight, reading }: Taking,
  state: Gaussian,
  drift: number,
  verdict: number,
  share: number,
  noise: number,
): Child {
  const { expected, weights } = sight(state);
  const seen = met(state, weights, reading - expected, noise);
  const weight = before.weight + Math.log(share) + likelihood(seen);
  const recent = other(before.recent, verdict);
  const { way } = before;
  const branch = { before, mark, way, verdict, recent, weight, drift, state };
  return { branch, chance: share * Math.exp(before.weight), seen };
}

/** The last verdicts with one more. */
export const other = (recent: number, verdict: number): number => (recent * 3 + verdict) % AGREEING;

function likelihood({ gap, variance }: Seen): number {
  return -0.5 * (gap ** 2 / variance + Math.log(variance));
}

/** The likely ones, believed. */
export function believing(children: readonly Child[]): readonly Branch[] {
  return pruned(children).map(({ branch, seen }) => ({
    ...branch,
    state: observed(branch.state, seen),
    news: { kind: 'seen', seen },
  }));
}

/**
 * Of branches that agree in all but the distant past only the likeliest, with the weight of all; the
 * best of every way; of the others the likeliest. The weights add up to 1.
 */
export function pruned<T extends { readonly branch: Omit<Branch, 'news'> }>(
  all: readonly T[],
): readonly T[] {
  const likeliest = [...all].sort((a, b) => b.branch.weight - a.branch.weight);
  const top = likeliest[0]?.branch.weight ?? 0;
  const kept = new Map<number, { it: T; share: number }>();
  const ways = new Set<number>();
  for (const it of likeliest) {
    const { way, recent } = it.branch;
    const weight = it.branch.weight - top;
    const key = way * AGREEING + recent;
    const same = kept.get(key);
    if (same !== undefined) same.share += Math.exp(weight);
    else if (!ways.has(way)) kept.set(key, { it, share: Math.exp(Math.max(weight, FURTHEST)) });
    else if (kept.size < MOST && weight > UNLIKELY) kept.set(key, { it, share: Math.exp(weight) });
    ways.add(way);
  }
  const whole = [...kept.values()].reduce((sum, { share }) => sum + share, 0);
  return [...kept.values()].map(({ it, share }) => ({
    ...it,
    branch: { ...it.branch, weight: Math.log(share / whole) },
  }));
}
