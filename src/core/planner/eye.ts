/** What an eye still tells apart at a distance, as a blur of the cloth it looks at. */
import type { Mm } from '../measure/length.ts';

/** Standard deviations of two Gaussian blurs, on the cloth; 0 is sharp. */
export interface EyeBlur {
  /** Of light against dark. */
  readonly light: Mm;
  /** Of one colour against another as light. */
  readonly colour: Mm;
}

export const SHARP: EyeBlur = { light: 0, colour: 0 };

/** At the length of an arm, and across a room. Common practice. */
export const ARMS_LENGTH: Mm = 600;
export const ACROSS_THE_ROOM: Mm = 4000;

const ARC_MINUTE = Math.PI / (180 * 60);

/**
 * Bars of one arc minute are what a good eye just tells apart (visual acuity 1.0, ISO 8596);
 * of colours equally light it tells apart 12 cycles a degree, bars of 2½ arc minutes (K. T. Mullen,
 * J. Physiol. 359, 1985). This is why a change of colour alone vanishes before a change of light.
 */
const LIGHT_BAR = 1 * ARC_MINUTE;
const COLOUR_BAR = 2.5 * ARC_MINUTE;

/** Of the contrast of bars that can just be told apart, the blur leaves this much. */
const CONTRAST_LEFT = 0.05;

/** The blur of a cloth looked at from so far. Example: from 4 m, bars of 1.16 mm just vanish. */
export function eyeBlur(distance: Mm): EyeBlur {
  return { light: blurHiding(distance * LIGHT_BAR), colour: blurHiding(distance * COLOUR_BAR) };
}

/** Bars narrower than this can not be told apart, light from dark. */
export function finestSeen(distance: Mm): Mm {
  return distance * LIGHT_BAR;
}

/** A Gaussian blur leaves exp(−2 π² σ² f²) of the contrast of a wave of frequency f. */
export function contrastLeft(blur: Mm, bar: Mm): number {
  return Math.exp(-2 * (Math.PI * blur * (1 / (2 * bar))) ** 2);
}

function blurHiding(bar: Mm): Mm {
  return (Math.sqrt(-2 * Math.log(CONTRAST_LEFT)) * bar) / Math.PI;
}
