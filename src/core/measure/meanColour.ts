import type { Hex } from './colour.ts';

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
      sums[channel] = sum + opacity * lightOf(pixels[at + channel] ?? 0);
    }
  }
  if (weight === 0) return null;
  const hex = sums.map((sum) =>
    levelOf(sum / weight)
      .toString(16)
      .padStart(2, '0'),
  );
  return `#${hex.join('')}`;
}

/** Light, 0 to 1, of a channel's level: the transfer function of sRGB, IEC 61966-2-1. */
function lightOf(level: number): number {
  const share = level / 255;
  return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
}

/** The level of a channel, 0 to 255, nearest to a light; undoes `lightOf`. */
function levelOf(light: number): number {
  const share = light <= 0.0031308 ? light * 12.92 : 1.055 * light ** (1 / 2.4) - 0.055;
  return Math.round(share * 255);
}
