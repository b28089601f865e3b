/** How threads share the pixels along one edge of a picture, sharp or as blurred by the eye. */

import { LIGHT_STEPS, LUMINANCE, lightOfPixel } from '../measure/linearLight.ts';
import type { EyeBlur } from './eye.ts';
import { blurReach, gaussianBlur } from './gaussianBlur.ts';

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

/** The values of one term, the axis's own: what is added to them stays. Throws on a term it has not got. */
export function termAt({ terms }: Axis, term: number): Float64Array {
  const line = terms[term];
  if (line === undefined) throw new Error(`got term ${term}, wanted one of ${terms.length}`);
  return line;
}

export const ONE: Channels = [1, 1, 1];

/**
 * The pixels of a room `0` to `room` on which a line from `from` to `to` is seen, and as many to
 * either side as a blur reaches; null where nothing of it is seen. `blurAxis` takes them off again.
 */
export function axisOver(
  from: number,
  to: number,
  room: number,
  spread: EyeBlur,
  terms: number,
): Axis | null {
  const margin = reach(spread);
  const first = Math.max(0, Math.floor(from - margin));
  const last = Math.min(room, Math.ceil(to + margin));
  if (last <= first) return null;
  const pixels = last - first + 2 * margin;
  const empty = () => new Float64Array(3 * pixels);
  return { first: first - margin, pixels, terms: Array.from({ length: terms }, empty) };
}

/** Pixels beyond which a blur adds nothing. */
function reach({ light, colour }: EyeBlur): number {
  return blurReach(Math.max(light, colour));
}

/** Adds a thread that lies from `from` to `to`, in pixels, to a term, with its value per pixel. */
export function addThread(
  axis: Axis,
  from: number,
  to: number,
  term: number,
  [a, b, c]: Channels,
): void {
  const { first, pixels } = axis;
  const line = termAt(axis, term);
  const end = Math.min(pixels, Math.ceil(to) - first);
  for (let pixel = Math.max(0, Math.floor(from) - first); pixel < end; pixel++) {
    const left = first + pixel;
    const share = Math.min(to, left + 1) - Math.max(from, left);
    const at = 3 * pixel;
    line[at] = (line[at] ?? 0) + share * a;
    line[at + 1] = (line[at + 1] ?? 0) + share * b;
    line[at + 2] = (line[at + 2] ?? 0) + share * c;
  }
}

/** The axis as the eye blurs it, without the pixels only the blur needed. */
export function blurAxis(axis: Axis, spread: EyeBlur): Axis {
  const margin = reach(spread);
  if (margin === 0) return axis;
  const pixels = axis.pixels - 2 * margin;
  const terms = axis.terms.map((line) => {
    const out = new Float64Array(3 * pixels);
    for (let channel = 0; channel < 3; channel++) {
      const values = channelOf(line, channel);
      if (values === null) continue;
      const seen = gaussianBlur(values, channel === 0 ? spread.light : spread.colour);
      for (let pixel = 0; pixel < pixels; pixel++) {
        out[3 * pixel + channel] = seen[pixel + margin] ?? 0;
      }
    }
    return out;
  });
  return { first: axis.first + margin, pixels, terms };
}

/** One of three values a pixel; null where all are nought, as those of a shed that is not there. */
function channelOf(line: Float64Array, channel: number): Float64Array | null {
  const values = new Float64Array(line.length / 3);
  let isNought = true;
  for (let pixel = 0; pixel < values.length; pixel++) {
    const value = line[3 * pixel + channel] ?? 0;
    values[pixel] = value;
    if (value !== 0) isNought = false;
  }
  return isNought ? null : values;
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
