import type { Units } from './length.ts';
import { formatEighths, formatInSteps } from './quantityFormat.ts';
import { parseSum, type TextProblem } from './quantityText.ts';
import type { Result } from './result.ts';
import { fail } from './result.ts';

/** Grams. */
export type Grams = number;

/** 1 lb = 453.592 37 g exactly (international pound, 1959); 16 oz to the pound. */
export const G_PER_POUND = 453.59237;
export const G_PER_OUNCE = G_PER_POUND / 16;

export type MassProblem = Exclude<TextProblem, 'nonsense'> | 'not-a-mass' | 'too-heavy';

/** A tonne: nobody keeps more yarn than that on a shelf. */
const HEAVIEST: Grams = 1e6;

const QUARTERS_PER_POUND = 64;

/** `gr` is missing on purpose: it stands for grams to some and for grains to others. */
const UNIT_SIZES: ReadonlyMap<string, Grams> = new Map([
  ...['g', 'gram', 'grams', 'gramme', 'grammes'].map(sized(1)),
  ...['kg', 'kilo', 'kilos', 'kilogram', 'kilograms'].map(sized(1000)),
  ...['oz', 'ounce', 'ounces'].map(sized(G_PER_OUNCE)),
  ...['lb', 'lbs', 'pound', 'pounds'].map(sized(G_PER_POUND)),
]);

/**
 * Reads a mass as a weaver types it, in grams: `100 g`, `3.5 oz`, `1 lb 4 oz`, `1/2 lb`, `0,1 kg`.
 * A bare number is grams or ounces. Refuses what is empty, no mass, below nought, beyond a tonne,
 * or written with a comma that could part thousands.
 */
export function parseMass(text: string, units: Units): Result<Grams, MassProblem> {
  const sum = parseSum(text, UNIT_SIZES, units === 'inch' ? G_PER_OUNCE : 1);
  if (!sum.ok) return fail(sum.problem === 'nonsense' ? 'not-a-mass' : sum.problem);
  return sum.value > HEAVIEST ? fail('too-heavy') : sum;
}

/**
 * Prints a mass to the nearest gram or quarter ounce: `677 g`, `1.25 kg`; `3½ oz`, `1 lb 4 oz`.
 * Throws when the mass is not finite.
 */
export function formatMass(grams: Grams, units: Units): string {
  return units === 'metric'
    ? formatInSteps(grams, 1, printGrams)
    : formatInSteps(grams, G_PER_OUNCE / 4, printQuarterOunces);
}

function printGrams(grams: number): string {
  return grams < 1000 ? `${grams} g` : `${grams / 1000} kg`;
}

/** Pounds are split off after rounding, so that sixteen ounces are always a pound. */
function printQuarterOunces(quarters: number): string {
  const pounds = Math.floor(quarters / QUARTERS_PER_POUND);
  const rest = quarters % QUARTERS_PER_POUND;
  const ounces = `${formatEighths(2 * rest)} oz`;
  if (pounds === 0) return ounces;
  return rest === 0 ? `${pounds} lb` : `${pounds} lb ${ounces}`;
}

function sized(size: Grams): (name: string) => readonly [string, Grams] {
  return (name) => [name, size];
}
