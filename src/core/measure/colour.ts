import type { Rgb } from 'culori/fn';
import { convertRgbToLab65, differenceCiede2000, parseHex as rgbOf } from 'culori/fn';
import { luminanceOf } from './linearLight.ts';
import type { Result } from './result.ts';
import { fail, ok } from './result.ts';

/** `#rrggbb` in lower case, as `parseHex` gives it. */
export type Hex = string;

/** CIELAB under D65: lightness 0 to 100, red against green, yellow against blue. */
export interface Lab {
  readonly l: number;
  readonly a: number;
  readonly b: number;
}

export const BLACK: Hex = '#000000';
export const WHITE: Hex = '#ffffff';

// Straight from sRGB to Lab: asked by the names of the spaces, the library would bring all the ways in
// which a colour can be written. Lab under D65, not the library's plain `lab`, which is under D50:
// screens are D65, and so are the published conversions.
const difference = differenceCiede2000();

/** Reads a colour written in full, `#rrggbb`, in either case; short forms and names are refused. */
export function parseHex(text: string): Result<Hex, 'not-a-colour'> {
  const hex = text.toLowerCase();
  return /^#[0-9a-f]{6}$/.test(hex) ? ok(hex) : fail('not-a-colour');
}

/** The CIELAB (D65) values of an sRGB colour: #ff0000 → 53.24, 80.09, 67.20. */
export function labOf(hex: Hex): Lab {
  const { l, a, b } = convertRgbToLab65(channelsOf(hex));
  return { l, a, b };
}

/** How far apart two colours look, by CIEDE2000 (Sharma, Wu, Dalal 2005); 0 is equal. */
export function ciede2000(one: Lab, other: Lab): number {
  return difference({ mode: 'lab65', ...one }, { mode: 'lab65', ...other });
}

/** Contrast ratio of two colours by WCAG 2.2: 1 (none) to 21 (black on white). */
export function contrast(one: Hex, other: Hex): number {
  const [light, dark] = [luminance(one), luminance(other)].sort((a, b) => b - a);
  return ((light ?? 0) + 0.05) / ((dark ?? 0) + 0.05);
}

function luminance(hex: Hex): number {
  const { r, g, b } = channelsOf(hex);
  return luminanceOf([r, g, b]);
}

/**
 * Black or white, whichever stands out more on a colour. Pure ones, because between them every
 * colour has a contrast of at least √21 = 4.58, above the 4.5 that WCAG 2.2 asks of text.
 */
export function readableInk(hex: Hex): Hex {
  return contrast(hex, BLACK) >= contrast(hex, WHITE) ? BLACK : WHITE;
}

/** The channels of an sRGB colour, each 0 to 1. Throws when it is not `#rrggbb`. */
export function channelsOf(hex: Hex): Rgb {
  const channels = parseHex(hex).ok ? rgbOf(hex) : undefined;
  if (channels === undefined) throw new RangeError(`got the colour ${hex}, wanted #rrggbb`);
  return channels;
}
