/**
 * The plain Kalman step on a Gaussian belief about a few quantities: what happens next (`predicted`)
 * and what a reading says (`observed`), and both backwards, for what later readings tell about before.
 *
 * Source: R. E. Kalman, A New Approach to Linear Filtering and Prediction Problems, J. Basic Eng. 82,
 * 1960; backwards after G. J. Bierman, Fixed Interval Smoothing with Discrete Measurements, Int. J.
 * Control 18, 1973, which never inverts a matrix and so bears quantities known exactly.
 */

/** As many numbers as there are quantities, or that squared, row by row. */
export type Numbers = Float64Array;

export interface Gaussian {
  readonly mean: Numbers;
  readonly cov: Numbers;
}

/** One quantity becomes `add` + the weighted sum of all of them; noise is added to the covariance. */
export interface Move {
  readonly row: number;
  readonly weights: Numbers;
  readonly add: number;
}

/** Variance that comes in at a place of the covariance and its mirror. */
export type Noise = readonly (readonly [row: number, column: number, variance: number])[];

/** What later readings say about a moment: the best guess there moves by −cov·pull, its cov shrinks by cov·hold·cov. */
export interface Hindsight {
  readonly pull: Numbers;
  readonly hold: Numbers;
}

/** A reading as it met the belief: what it saw of each quantity, how far it was off, how far it may be off. */
export interface Seen {
  readonly weights: Numbers;
  readonly gain: Numbers;
  readonly gap: number;
  readonly variance: number;
}

export const at = (numbers: Numbers, i: number): number => numbers[i] ?? 0;

export function dot(a: Numbers, b: Numbers): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += at(a, i) * at(b, i);
  return sum;
}

/** A square symmetric matrix times a vector. */
export function times(matrix: Numbers, vector: Numbers): Numbers {
  const n = vector.length;
  const product = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const weight = at(vector, i);
    if (weight === 0) continue;
    for (let j = 0; j < n; j++) product[j] = at(product, j) + weight * at(matrix, i * n + j);
  }
  return product;
}

/** The belief after a move: mean F·x, covariance F·P·Fᵀ + noise, where F differs from 1 in one row. */
export function predicted({ mean, cov }: Gaussian, move: Move, noise: Noise): Gaussian {
  const { row, weights, add } = move;
  const n = mean.length;
  const to = { mean: mean.slice(), cov: cov.slice() };
  const across = times(cov, weights);
  to.mean[row] = add + dot(weights, mean);
  for (let j = 0; j < n; j++) {
    to.cov[row * n + j] = at(across, j);
    to.cov[j * n + row] = at(across, j);
  }
  to.cov[row * n + row] = dot(weights, across);
  return noisy(to, noise);
}

/** The belief with noise added. */
export function noisy({ mean, cov }: Gaussian, noise: Noise): Gaussian {
  const n = mean.length;
  const to = cov.slice();
  for (const [i, j, variance] of noise) {
    to[i * n + j] = at(to, i * n + j) + variance;
    if (i !== j) to[j * n + i] = at(to, j * n + i) + variance;
  }
  return { mean, cov: to };
}

/** How a reading meets a belief: its gap from what was expected, with the variance of that gap. */
export function met({ cov }: Gaussian, weights: Numbers, gap: number, variance: number): Seen {
  const across = times(cov, weights);
  const all = dot(weights, across) + variance;
  return { weights, gap, variance: all, gain: across.map((it) => it / all) };
}

/** The belief after a reading: mean x + K·gap, covariance P − K·S·Kᵀ. */
export function observed({ mean, cov }: Gaussian, { gain, gap, variance }: Seen): Gaussian {
  const n = mean.length;
  const to = cov.slice();
  for (let i = 0; i < n; i++) {
    const weight = at(gain, i) * variance;
    if (weight === 0) continue;
    for (let j = 0; j < n; j++) to[i * n + j] = at(to, i * n + j) - weight * at(gain, j);
  }
  return { mean: mean.map((it, i) => it + at(gain, i) * gap), cov: to };
}

/** No later reading. */
export function noHindsight(quantities: number): Hindsight {
  return { pull: new Float64Array(quantities), hold: new Float64Array(quantities ** 2) };
}

/** What was known after a reading, told of the moment before it: the reading itself is hindsight there. */
export function beforeReading(after: Hindsight, { weights, gain, gap, variance }: Seen): Hindsight {
  const n = weights.length;
  const held = times(after.hold, gain);
  const pulled = gap / variance + dot(gain, after.pull);
  const own = 1 / variance + dot(gain, held);
  const hold = after.hold.slice();
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++) {
      const [a, b] = [at(weights, i), at(weights, j)];
      hold[i * n + j] = at(hold, i * n + j) + a * b * own - a * at(held, j) - at(held, i) * b;
    }
  return { pull: after.pull.map((it, i) => it - at(weights, i) * pulled), hold };
}

/** What was known after a move, told of the moment before it: Fᵀ·pull and Fᵀ·hold·F. */
export function beforeMove({ pull, hold }: Hindsight, { row, weights }: Move): Hindsight {
  const n = pull.length;
  const through = (vector: Numbers): Numbers => {
    const own = at(vector, row);
    return vector.map((it, i) => (i === row ? 0 : it) + at(weights, i) * own);
  };
  const half = new Float64Array(n * n);
  for (let i = 0; i < n; i++) half.set(through(hold.subarray(i * n, i * n + n)), i * n);
  const whole = new Float64Array(n * n);
  for (let j = 0; j < n; j++) {
    const column = through(new Float64Array(n).map((_, i) => at(half, i * n + j)));
    for (let i = 0; i < n; i++) whole[i * n + j] = at(column, i);
  }
  return { pull: through(pull), hold: whole };
}
