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
/** Of the weight, which adds up to about 1. */
const NEAR_ENOUGH = 1e-11;

/** The number below which lies this much of the weight: by Newton's steps, and by halves where they lead astray. */
function quantile(guesses: readonly Guess[], weight: number, start: number): number {
  let [low, high] = [start, start];
  for (const { mean, sd } of guesses) {
    low = Math.min(low, mean - 8 * sd - NARROWEST);
    high = Math.max(high, mean + 8 * sd + NARROWEST);
  }
  let x = start;
  for (let i = 0; i < 90; i++) {
    const { below, density } = around(guesses, x);
    if (Math.abs(below - weight) < NEAR_ENOUGH) return x;
    if (below < weight) low = x;
    else high = x;
    const step = x + (weight - below) / density;
    // Every third step by halves: beside a very narrow guess the others would hardly move.
    x = i % 3 < 2 && step > low && step < high ? step : (low + high) / 2;
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
