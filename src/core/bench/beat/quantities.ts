/**
 * What the estimator keeps in its head about a piece: its length, the beat as a factor on the planned
 * spacing, how much eased cloth shrinks, a correction per yarn, and where the last pin lies.
 *
 * Weaving x mm by the plan in yarn y makes (factor + correction of y) · x mm of cloth. The factor
 * wanders, so a stretch also brings the noise of an integrated random walk.
 */
import type { Mm } from '../../measure/length.ts';
import type { Tension } from '../events.ts';
import {
  at,
  type Gaussian,
  type Move,
  type Noise,
  type Numbers,
  noisy,
  predicted,
  zeros,
} from './kalman.ts';

export interface BeatPrior {
  /** Real / planned spacing. */
  readonly factor: number;
  /** Its standard deviation. */
  readonly spread: number;
}

/** Planned loom lengths by yarn index. */
export type ByYarn = readonly Mm[];

export const LENGTH = 0;
export const FACTOR = 1;
const EASE = 2;
const YARN = 3;

/** How far a yarn's own beat lies from the common factor (sd). A hem in thin yarn is no change of beat. */
const YARN_SPREAD = 0.015;
/** Share of its length that cloth loses when the warp is eased, a part of what it loses off the loom; and its sd. */
const EASED = { share: 0.02, spread: 0.015 };
/** How far a pin lies from where the fell was (sd). */
export const PIN_ERROR: Mm = 1;
/** Loom and yarn are the same in the next piece, hands and day are not (sd of what changes). */
const NEXT_PIECE = { factor: 0.02, yarn: 0.005 };

/** As many as there are; the last one is where the last pin lies. */
export const quantitiesOf = (yarns: number): number => YARN + yarns + 1;

/** Before the first pick. */
export function atStart(yarns: number, prior: BeatPrior): Gaussian {
  const n = quantitiesOf(yarns);
  const mean = zeros(n);
  mean[FACTOR] = prior.factor;
  mean[EASE] = EASED.share;
  const cov = zeros(n * n);
  const spread = (i: number, sd: number) => {
    cov[i * n + i] = sd ** 2;
  };
  spread(FACTOR, prior.spread);
  spread(EASE, EASED.spread);
  for (let yarn = 0; yarn < yarns; yarn++) spread(YARN + yarn, YARN_SPREAD);
  return { mean, cov };
}

/** Planned millimetres of all yarns together. */
export const total = (planned: ByYarn): Mm => planned.reduce((sum, mm) => sum + mm, 0);

/** What is left, yarn by yarn, of the planned millimetres `a` once those of `b` are off. */
export function less(a: ByYarn, b: ByYarn): ByYarn {
  return a.map((mm, yarn) => mm - (b[yarn] ?? 0));
}

/** Cloth grows by what was woven. */
export function weaving(n: number, planned: ByYarn): Move {
  const weights = one(n, LENGTH);
  weights[FACTOR] = total(planned);
  for (const [yarn, mm] of planned.entries()) weights[YARN + yarn] = mm;
  return { row: LENGTH, weights, add: 0 };
}

/** Cloth grows by a length the weaver told. */
export function growing(n: number, length: Mm): Move {
  return { row: LENGTH, weights: one(n, LENGTH), add: length };
}

/** A pin goes in at the fell. */
export function pinning(n: number): Move {
  return { row: n - 1, weights: one(n, LENGTH), add: 0 };
}

/** What a factor wandering by `drift` (variance per mm) adds over a stretch: integrals of a random walk. */
export function wandering(mm: Mm, drift: number): Noise {
  return [
    { row: FACTOR, column: FACTOR, variance: drift * mm },
    { row: LENGTH, column: FACTOR, variance: (drift * mm ** 2) / 2 },
    { row: LENGTH, column: LENGTH, variance: (drift * mm ** 3) / 3 },
  ];
}

/** What a told length adds: nothing is learnt about the beat, which wanders all the same. */
export function growingNoise(mm: Mm, drift: number, variance: number): Noise {
  return [
    { row: FACTOR, column: FACTOR, variance: drift * mm },
    { row: LENGTH, column: LENGTH, variance },
  ];
}

/** What a pin adds: it lies within `PIN_ERROR` (sd) of the fell, and is the last of `n` quantities. */
export function pinningNoise(n: number): Noise {
  return [{ row: n - 1, column: n - 1, variance: PIN_ERROR ** 2 }];
}

/** The next piece: no cloth, and the beat carried on but for what changes from piece to piece. */
export function nextPiece(state: Gaussian): Gaussian {
  const noCloth = { row: LENGTH, weights: zeros(state.mean.length), add: 0 };
  return beatLoosened(predicted(state, noCloth, []), NEXT_PIECE.factor);
}

/** The beat less sure by so much (sd), each yarn's own by a little. */
export function beatLoosened(state: Gaussian, spread: number): Gaussian {
  const yarns = Array.from({ length: state.mean.length - 1 - YARN }, (_, yarn) => YARN + yarn);
  const loosened = (i: number, sd: number) => ({ row: i, column: i, variance: sd ** 2 });
  const ofYarns = yarns.map((i) => loosened(i, NEXT_PIECE.yarn));
  return noisy(state, [loosened(FACTOR, spread), ...ofYarns]);
}

/** Where a ruler starts: at a known length of the piece, or at the last pin, whose place is one of the quantities. */
export interface Origin {
  readonly kind: 'known' | 'lastPin';
  readonly mm: Mm;
  readonly variance: number;
}

export const PIECE_START: Origin = { kind: 'known', mm: 0, variance: 0 };
export const LAST_PIN: Origin = { kind: 'lastPin', mm: 0, variance: 0 };

export interface Sight {
  /** What the ruler should show. */
  readonly expected: Mm;
  /** By how much that changes with each quantity. */
  readonly weights: Numbers;
}

/** What a ruler sees: the length from its origin, less what easing takes; straightened at the best guess. */
export function sightOf({ mean }: Gaussian, { kind, mm }: Origin, tension: Tension): Sight {
  const n = mean.length;
  const from = kind === 'lastPin' ? at(mean, n - 1) : mm;
  const tight = at(mean, LENGTH) - from;
  const left = tension === 'tight' ? 1 : 1 - at(mean, EASE);
  const weights = one(n, LENGTH);
  weights[LENGTH] = left;
  if (kind === 'lastPin') weights[n - 1] = -left;
  if (tension === 'eased') weights[EASE] = -tight;
  return { expected: tight * left, weights };
}

/** The weights that ask for the factor of one yarn. */
export function factorWeights(n: number, yarn: number): Numbers {
  const weights = one(n, FACTOR);
  weights[YARN + yarn] = 1;
  return weights;
}

function one(n: number, i: number): number[] {
  const weights = zeros(n);
  weights[i] = 1;
  return weights;
}
