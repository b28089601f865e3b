/** How threads share the pixels along one edge of a picture, sharp or as blurred by the eye. */
import type { EyeBlur } from './eye.ts';
import { LIGHT_STEPS, LUMINANCE, lightOfPixel } from './linearLight.ts';

/**
 * A colour in three channels, in steps of light: red, green and blue; or, where the eye blurs light
 * and colour unlike, its light, and what red and blue have beyond it.
 */
export type Channels = readonly [number, number, number];

/** One edge of a picture: the pixels that are covered, and what lies on them. */
export interface Axis {
  readonly first: number;
  readonly pixels: number;
  /** By term three values a pixel, one a channel. */
  readonly terms: readonly Float64Array[];
}

export function termAt({ terms }: Axis, term: number): Float64Array {
  const line = terms[term];
  if (line === undefined) throw new Error(`got term ${term}, wanted one of ${terms.length}`);
  return line;
}

export const ONE: Channels = [1, 1, 1];

/** Blurs of less than this many pixels are none. */
export const LEAST_SPREAD = 0.15;

/** Pixels beyond which a blur adds nothing that could be seen. */
export function reach({ light, colour }: EyeBlur): number {
  return Math.ceil(4 * Math.max(light, colour));
}

/** The pixels of a room `0` to `room` on which a line from `from` to `to` is seen; null if none. */
export function axisOver(
  from: number,
  to: number,
  room: number,
  spread: EyeBlur,
  terms: number,
): Axis | null {
  const margin = spread.colour > LEAST_SPREAD ? reach(spread) : 0;
  const first = Math.max(0, Math.floor(from - margin));
  const pixels = Math.min(room, Math.ceil(to + margin)) - first;
  if (pixels <= 0) return null;
  const empty = () => new Float64Array(3 * pixels);
  return { first, pixels, terms: Array.from({ length: terms }, empty) };
}

/** Adds a thread that lies from `from` to `to`, in pixels, to a term, with its value per pixel. */
export function addThread(
  axis: Axis,
  from: number,
  to: number,
  spread: EyeBlur,
  term: number,
  [a, b, c]: Channels,
): void {
  const { first, pixels } = axis;
  const alike = spread.light === spread.colour || spread.colour <= LEAST_SPREAD;
  const margin = spread.colour > LEAST_SPREAD ? reach(spread) : 0;
  const line = termAt(axis, term);
  const end = Math.min(pixels, Math.ceil(to + margin) - first);
  for (let pixel = Math.max(0, Math.floor(from - margin) - first); pixel < end; pixel++) {
    const left = from - first - pixel;
    const right = to - first - pixel;
    const light = leftOf(right, spread.light) - leftOf(left, spread.light);
    const colour = alike ? light : leftOf(right, spread.colour) - leftOf(left, spread.colour);
    const at = 3 * pixel;
    line[at] = (line[at] ?? 0) + light * a;
    line[at + 1] = (line[at + 1] ?? 0) + colour * b;
    line[at + 2] = (line[at + 2] ?? 0) + colour * c;
  }
}

/**
 * How much of what the pixel from 0 to 1 receives comes from the left of `edge`, when everything is
 * blurred by a Gaussian of that spread: the Gaussian's own share, averaged over the pixel.
 */
export function leftOf(edge: number, spread: number): number {
  if (spread <= LEAST_SPREAD) return Math.min(1, Math.max(0, edge));
  return spread * (rampOf(edge / spread) - rampOf((edge - 1) / spread));
}

/** Beyond this many spreads from its middle a Gaussian is nought. */
const TAIL = 5;
const STEPS = 512;

/** The integral of the normal distribution from −∞ to z, z Φ(z) + φ(z), in steps; exact to 2e-7. */
const RAMP = Float64Array.from({ length: 2 * TAIL * STEPS + 2 }, (_, i) => {
  const z = i / STEPS - TAIL;
  return z * normal(z) + density(z);
});

function rampOf(z: number): number {
  if (z <= -TAIL) return 0;
  if (z >= TAIL) return z;
  const at = (z + TAIL) * STEPS;
  const step = Math.floor(at);
  const low = RAMP[step] ?? 0;
  return low + (at - step) * ((RAMP[step + 1] ?? 0) - low);
}

function density(z: number): number {
  return Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
}

/** Φ, to 7.5e-8 (Abramowitz and Stegun, Handbook of Mathematical Functions, 26.2.17). */
function normal(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const sum =
    t *
    (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  const tail = density(z) * sum;
  return z < 0 ? tail : 1 - tail;
}

/** A pixel's colour in three channels; `split` into light and colour. */
export function channelsOf(pixel: number, split: boolean): Channels {
  const [red, green, blue] = lightOfPixel(pixel);
  if (!split) return [red * LIGHT_STEPS, green * LIGHT_STEPS, blue * LIGHT_STEPS];
  const light = LUMINANCE[0] * red + LUMINANCE[1] * green + LUMINANCE[2] * blue;
  return [light * LIGHT_STEPS, (red - light) * LIGHT_STEPS, (blue - light) * LIGHT_STEPS];
}

/** Light and colour back to red, green and blue, in place; what no screen can show is cut. */
export function backToRgb(row: Float64Array): void {
  for (let at = 0; at < row.length; at += 3) {
    const light = row[at] ?? 0;
    const red = row[at + 1] ?? 0;
    const blue = row[at + 2] ?? 0;
    const green = -(LUMINANCE[0] * red + LUMINANCE[2] * blue) / LUMINANCE[1];
    row[at] = inRange(light + red);
    row[at + 1] = inRange(light + green);
    row[at + 2] = inRange(light + blue);
  }
}

function inRange(light: number): number {
  return Math.min(LIGHT_STEPS, Math.max(0, light));
}
