/** A Gaussian blur of a row of values. */

/** From this spread on some moving means stand for the bell, to 5 % of its height, at a fixed cost. */
const WIDE = 8;
const MEANS = 4;

/** Pixels a blur of that spread reaches to either side. */
export function blurReach(spread: number): number {
  return spread < WIDE ? Math.ceil(4 * spread) : Math.ceil(3.5 * spread) + MEANS;
}

/**
 * The values blurred by a Gaussian of a spread (standard deviation) in places of the row; beyond its
 * ends lies nothing. What lies at least `blurReach` inside them keeps its sum.
 */
export function gaussianBlur(values: Float64Array, spread: number): Float64Array {
  if (spread < WIDE) return spread <= 0 ? values : weighted(values, bell(spread));
  return boxWidths(spread).reduce(movingMean, values);
}

function bell(spread: number): Float64Array {
  const reach = blurReach(spread);
  const weights = Float64Array.from({ length: 2 * reach + 1 }, (_, i) =>
    Math.exp(-0.5 * ((i - reach) / spread) ** 2),
  );
  const sum = weights.reduce((total, weight) => total + weight, 0);
  return weights.map((weight) => weight / sum);
}

function weighted(values: Float64Array, weights: Float64Array): Float64Array {
  const reach = (weights.length - 1) / 2;
  const out = new Float64Array(values.length);
  for (let at = 0; at < values.length; at++) {
    const from = Math.max(0, at - reach);
    const to = Math.min(values.length - 1, at + reach);
    let sum = 0;
    for (let i = from; i <= to; i++) sum += (weights[i - at + reach] ?? 0) * (values[i] ?? 0);
    out[at] = sum;
  }
  return out;
}

/**
 * Odd widths of moving means that together spread as far: the variance of a mean over w is
 * (w² − 1) / 12, and variances add (after W. M. Wells, Efficient Synthesis of Gaussian Filters by
 * Cascaded Uniform Filters, IEEE PAMI 8, 1986).
 */
function boxWidths(spread: number): readonly number[] {
  const ideal = Math.sqrt((12 * spread ** 2) / MEANS + 1);
  const less = 2 * Math.floor((ideal - 1) / 2) + 1;
  const missing = 12 * spread ** 2 - MEANS * (less ** 2 - 1);
  const wider = Math.round(missing / ((less + 2) ** 2 - less ** 2));
  return Array.from({ length: MEANS }, (_, i) => (i < wider ? less + 2 : less));
}

function movingMean(values: Float64Array, width: number): Float64Array {
  const half = (width - 1) / 2;
  const out = new Float64Array(values.length);
  let sum = 0;
  for (let i = 0; i < half; i++) sum += values[i] ?? 0;
  for (let at = 0; at < values.length; at++) {
    sum += values[at + half] ?? 0;
    out[at] = sum / width;
    sum -= values[at - half] ?? 0;
  }
  return out;
}
