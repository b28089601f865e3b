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
  const ask = (share: number) => quantile(guesses, share * weight);
  return { mm: ask(0.5), low: ask(0.05), high: ask(0.95), sd };
}

/** The number below which lies this much of the weight, by halving. */
function quantile(guesses: readonly Guess[], weight: number): number {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const { mean, sd } of guesses) {
    low = Math.min(low, mean - 8 * sd);
    high = Math.max(high, mean + 8 * sd);
  }
  for (let i = 0; i < 40 && high - low > 1e-9; i++) {
    const middle = (low + high) / 2;
    if (below(guesses, middle) < weight) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

function below(guesses: readonly Guess[], x: number): number {
  let sum = 0;
  for (const { weight, mean, sd } of guesses)
    sum += weight * (sd > 0 ? normal((x - mean) / sd) : x >= mean ? 1 : 0);
  return sum;
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
