/**
 * Light added as light adds: colours mix in linear light, not in the numbers of a pixel. The curve
 * between the two is the one of sRGB (IEC 61966-2-1).
 */

/** Linear light, 0 to 1, of every value a byte of a pixel can have. */
export const LIGHT_OF_BYTE: Float64Array = Float64Array.from({ length: 256 }, (_, byte) =>
  lightOf(byte / 255),
);

/** Steps of light told apart on the way back; at the dark end, where the curve is steepest, 3300
 * of them make one step of a byte each. */
export const LIGHT_STEPS = 4095;

/** The byte of a pixel for `light × LIGHT_STEPS`, rounded. */
export const BYTE_OF_LIGHT: Uint8Array = Uint8Array.from({ length: LIGHT_STEPS + 1 }, (_, step) =>
  Math.round(255 * partOf(step / LIGHT_STEPS)),
);

/** Red, green and blue of a pixel 0xAABBGGRR as linear light. */
export function lightOfPixel(pixel: number): readonly [number, number, number] {
  const of = (shift: number) => LIGHT_OF_BYTE[(pixel >>> shift) & 0xff] ?? 0;
  return [of(0), of(8), of(16)];
}

/** The opaque pixel nearest to a linear light; what lies outside 0 to 1 is cut. */
export function pixelOfLight([red, green, blue]: readonly [number, number, number]): number {
  const byte = (light: number) => Math.round(255 * partOf(Math.min(1, Math.max(0, light))));
  return ((0xff << 24) | (byte(blue) << 16) | (byte(green) << 8) | byte(red)) >>> 0;
}

/** Shares of red, green and blue in what the eye takes for lightness (Rec. 709, as sRGB has it). */
export const LUMINANCE = [0.2126, 0.7152, 0.0722] as const;

/** Relative luminance by WCAG 2.2, 0 (black) to 1 (white), of red, green and blue as parts of full. */
export function luminanceOf(parts: readonly number[]): number {
  return LUMINANCE.reduce((sum, share, i) => sum + share * lightOf(parts[i] ?? 0), 0);
}

/** Linear light of a channel's part of full, 0 to 1. */
export function lightOf(part: number): number {
  return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
}

/** The part of full a channel has for a linear light; undoes `lightOf`. */
export function partOf(light: number): number {
  return light <= 0.0031308 ? 12.92 * light : 1.055 * light ** (1 / 2.4) - 0.055;
}
