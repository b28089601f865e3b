import type { Hex } from './colour.ts';
import { lightOf, partOf } from './linearLight.ts';

/** Channels of one pixel: red, green, blue and opacity, 0 to 255 each. */
const CHANNELS = 4;

/**
 * The colour of a patch of a picture, given as its pixels one after the other (red, green, blue,
 * opacity), or null where nothing in it is opaque. The light of the pixels is averaged, not their
 * numbers, as it is when threads are seen from too far away to be told apart.
 *
 * @example meanColour([255, 255, 255, 255, 0, 0, 0, 255]) // '#bcbcbc'
 */
export function meanColour(pixels: ArrayLike<number>): Hex | null {
  const sums = [0, 0, 0];
  let weight = 0;
  for (let at = 0; at + CHANNELS <= pixels.length; at += CHANNELS) {
    const opacity = (pixels[at + 3] ?? 0) / 255;
    weight += opacity;
    for (const [channel, sum] of sums.entries()) {
      sums[channel] = sum + opacity * lightOf((pixels[at + channel] ?? 0) / 255);
    }
  }
  if (weight === 0) return null;
  const hex = sums.map((sum) =>
    Math.round(255 * partOf(sum / weight))
      .toString(16)
      .padStart(2, '0'),
  );
  return `#${hex.join('')}`;
}
