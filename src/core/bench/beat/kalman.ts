/**
 * The plain Kalman step on a Gaussian belief about a few quantities: what happens next (`predicted`)
 * and what a reading says (`observed`), and both backwards, for what later readings tell about before.
 *
 * Source: R. E. Kalman, A New Approach to Linear Filtering and Prediction Problems, J. Basic Eng. 82,
 * 1960; backwards after G. J. Bierman, Fixed Interval Smoothing with Discrete Measurements, Int. J.
 * Control 18, 1973, which never inverts a matrix and so bears quantities known exactly.
 */

/** As many numbers as there are quantities, or that squared, row by row. */
export type Numbers = readonly number[];

export interface Gaussian {
  readonly mean: Numbers;
  readonly cov: Numbers;
}

/** One quantity becomes `add` + the weighted sum of all of them. */
export interface Move {
  readonly row: number;
  readonly weights: Numbers;
  readonly add: number;
}

/** Variance that comes in at a place of the covariance and its mirror. */
export type Noise = readonly {
  readonly row: number;
  readonly column: number;
  readonly variance: number;
}[];

/** What later readings say about a moment: the best guess there moves by −cov·pull, its cov shrinks by cov·hold·cov. */
export interface Hindsight {
  readonly pull: Numbers;
  readonly hold: Numbers;
}

/**
 * A reading as it met the belief: what it saw of each quantity (`weights`), how that goes along with
 * every quantity (`across` = cov·weights), how far it was off and the variance of that.
 */
export interface Seen {
  readonly weights: Numbers;
  readonly across: Numbers;
  readonly gap: number;
  readonly variance: number;
}

/** The number at a place, 0 where there is none. */
export const at = (numbers: Numbers, i: number): number => numbers[i] ?? 0;

/** So many noughts, to be filled in. */
export const zeros = (count: number): number[] => new Array<number>(count).fill(0);

/** Sum of the products place by place; `a` says how many, and what `b` lacks counts as 0. */
export function dot(a: Numbers, b: Numbers): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += at(a, i) * at(b, i);
  return sum;
}

/** A square symmetric matrix times a vector. */
export function times(matrix: Numbers, vector: Numbers): number[] {
  const n = vector.length;
  const product = zeros(n);
  for (let i = 0; i < n; i++) {
    const weight = at(vector, i);
    if (weight === 0) continue;
    for (let j = 0; j < n; j++) product[j] = at(product, j) + weight * at(matrix, i * n + j);
  }
  return product;
}

/** The belief after a move: mean F·x, covariance F·P·Fᵀ + noise, where F differs from 1 in one row. */
export function predicted(before: Gaussian, { row, weights, add }: Move, noise: Noise): Gaussian {
  const n = before.mean.length;
  const mean = before.mean.slice();
  const cov = before.cov.slice();
  const across = times(cov, weights);
  mean[row] = add + dot(weights, mean);
  for (let j = 0; j < n; j++) {
    cov[row * n + j] = at(across, j);
    cov[j * n + row] = at(across, j);
  }
  cov[row * n + row] = dot(weights, across);
  addNoise(cov, n, noise);
  return { mean, cov };
}

/** The belief with noise added. */
export function noisy({ mean, cov }: Gaussian, noise: Noise): Gaussian {
  const to = cov.slice();
  addNoise(to, mean.length, noise);
  return { mean, cov: to };
}

function addNoise(cov: number[], n: number, noise: Noise): void {
  for (const { row, column, variance } of noise) {
    cov[row * n + column] = at(cov, row * n + column) + variance;
    if (row !== column) cov[column * n + row] = at(cov, column * n + row) + variance;
  }
}

/** How a reading without any error would meet a belief. */
export function met({ cov }: Gaussian, weights: Numbers, gap: number): Seen {
  const across = times(cov, weights);
  return { weights, across, gap, variance: dot(weights, across) };
}

/** The belief after a reading: with gain K = across / S, mean x + K·gap, covariance P − K·S·Kᵀ. */
export function observed(before: Gaussian, { across, gap, variance }: Seen): Gaussian {
  const n = before.mean.length;
  const mean = before.mean.slice();
  const cov = before.cov.slice();
  for (let i = 0; i < n; i++) {
    const gain = at(across, i) / variance;
    if (gain === 0) continue;
    mean[i] = at(mean, i) + gain * gap;
    for (let j = 0; j < n; j++) cov[i * n + j] = at(cov, i * n + j) - gain * at(across, j);
  }
  return { mean, cov };
}

/** No later reading. */
export function noHindsight(quantities: number): Hindsight {
  return { pull: zeros(quantities), hold: zeros(quantities ** 2) };
}

/** What was known after a reading, told of the moment before it: the reading itself is hindsight there. */
export function beforeReading(after: Hindsight, seen: Seen): Hindsight {
  const { weights, across, gap, variance } = seen;
  const n = weights.length;
  const held = times(after.hold, across).map((it) => it / variance);
  const pulled = (gap + dot(across, after.pull)) / variance;
  const own = (1 + dot(across, held)) / variance;
  const hold = after.hold.slice();
  for (let i = 0; i < n; i++) {
    const a = at(weights, i);
    for (let j = 0; j < n; j++) {
      const b = at(weights, j);
      if (a === 0 && b === 0) continue;
      hold[i * n + j] = at(hold, i * n + j) + a * b * own - a * at(held, j) - at(held, i) * b;
    }
  }
  return { pull: after.pull.map((it, i) => it - at(weights, i) * pulled), hold };
}

/** What was known after a move, told of the moment before it: Fᵀ·pull and Fᵀ·hold·F. */
export function beforeMove({ pull, hold }: Hindsight, move: Move): Hindsight {
  const n = pull.length;
  const half = hold.slice();
  for (let i = 0; i < n; i++) moveBack(half, i * n, 1, move);
  for (let j = 0; j < n; j++) moveBack(half, j, n, move);
  const back = pull.slice();
  moveBack(back, 0, 1, move);
  return { pull: back, hold: half };
}

/** Fᵀ times the vector that starts at `from` and takes every `step`th number. */
function moveBack(numbers: number[], from: number, step: number, { row, weights }: Move): void {
  const own = at(numbers, from + row * step);
  numbers[from + row * step] = 0;
  for (let i = 0; i < weights.length; i++) {
    numbers[from + i * step] = at(numbers, from + i * step) + at(weights, i) * own;
  }
}
