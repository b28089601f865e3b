/** What is believed of one number: several guesses, each normal, each with its weight. */
export interface Guess {
  readonly weight: number;
  readonly mean: number;
  readonly sd: number;
}

export interface Believed {
  /** Median. */
  readonly mm: number;
  /** 90 % interval. */
  readonly low: number;
  readonly high: number;
  readonly sd: number;
}

/** Median, 90 % interval and standard deviation of a mixture of normals. */
export function believed(guesses: readonly Guess[]): Believed {
  let [weight, mean, square] = [0, 0, 0];
  for (const it of guesses) {
    weight += it.weight;
    mean += it.weight * it.mean;
    square += it.weight * (it.sd ** 2 + it.mean ** 2);
  }
  mean /= weight;
  const sd = Math.sqrt(Math.max(0, square / weight - mean ** 2));
  const ask = (share: number) => quantile(guesses, share * weight, mean);
  return { mm: ask(0.5), low: ask(0.05), high: ask(0.95), sd };
}

/** What is known exactly is still a (very) narrow normal. */
const NARROWEST = 1e-9;

/** The number below which lies this much of the weight: Newton's steps, by halves where they lead astray. */
function quantile(guesses: readonly Guess[], weight: number, start: number): number {
  let [low, high] = [start, start];
  for (const { mean, sd } of guesses) {
    low = Math.min(low, mean - 8 * sd - NARROWEST);
    high = Math.max(high, mean + 8 * sd + NARROWEST);
  }
  let x = start;
  for (let i = 0; i < 60; i++) {
    const { below, density } = around(guesses, x);
    if (below < weight) low = x;
    else high = x;
    const step = (weight - below) / density;
    const next = x + step > low && x + step < high ? x + step : (low + high) / 2;
    if (Math.abs(next - x) < NARROWEST) return next;
    x = next;
  }
  return x;
}

function around(guesses: readonly Guess[], x: number): { below: number; density: number } {
  let [below, density] = [0, 0];
  for (const { weight, mean, sd } of guesses) {
    const width = Math.max(sd, NARROWEST);
    const z = (x - mean) / width;
    below += weight * normal(z);
    density += (weight * Math.exp(-z * z * 0.5)) / (width * Math.sqrt(2 * Math.PI));
  }
  return { below, density };
}

/** Standard normal distribution; Abramowitz & Stegun 7.1.26, off by at most 1.5e-7. */
export function normal(z: number): number {
  const x = Math.abs(z) / Math.SQRT2;
  const t = 1 / (1 + 0.3275911 * x);
  const poly =
    t *
    (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))));
  const erf = 1 - poly * Math.exp(-x * x);
  return z < 0 ? (1 - erf) / 2 : (1 + erf) / 2;
}
