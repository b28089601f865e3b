import type { TextProblem } from './quantityText.ts';
import { formatEighths, formatInSteps, parseSum } from './quantityText.ts';
import type { Result } from './result.ts';
import { fail } from './result.ts';

/** Millimetres. */
export type Mm = number;

/** What the weaver reads and types in; everything is kept in SI. */
export const UNITS = ['inch', 'metric'] as const;
export type Units = (typeof UNITS)[number];

/** 1 in = 25.4 mm and 1 yd = 914.4 mm exactly (international yard, 1959). */
export const MM_PER_INCH = 25.4;
export const MM_PER_YARD = 914.4;

/** `short` for cloth, `long` for warps, `fine` for what is measured with a ruler. */
export const LENGTH_STYLES = ['short', 'long', 'fine'] as const;
export type LengthStyle = (typeof LENGTH_STYLES)[number];

export type LengthProblem = Exclude<TextProblem, 'nonsense'> | 'not-a-length' | 'too-long';

interface Scale {
  readonly step: Mm;
  readonly print: (steps: number) => string;
}

/** No handloom carries a kilometre of warp: a length beyond it is a slip of the finger. */
const LONGEST: Mm = 1e6;

const UNIT_SIZES: ReadonlyMap<string, Mm> = new Map([
  ...['mm', 'millimetre', 'millimetres', 'millimeter', 'millimeters'].map(sized(1)),
  ...['cm', 'centimetre', 'centimetres', 'centimeter', 'centimeters'].map(sized(10)),
  ...['m', 'metre', 'metres', 'meter', 'meters'].map(sized(1000)),
  ...['in', 'ins', 'inch', 'inches', '"'].map(sized(MM_PER_INCH)),
  ...['ft', 'foot', 'feet', "'"].map(sized(12 * MM_PER_INCH)),
  ...['yd', 'yds', 'yard', 'yards'].map(sized(MM_PER_YARD)),
]);

const EIGHTHS: Scale = {
  step: MM_PER_INCH / 8,
  print: (eighths) => `${formatEighths(eighths)} in`,
};

const SCALES: Readonly<Record<Units, Readonly<Record<LengthStyle, Scale>>>> = {
  inch: {
    short: EIGHTHS,
    long: { step: MM_PER_YARD / 4, print: (quarters) => `${formatEighths(2 * quarters)} yd` },
    fine: EIGHTHS,
  },
  metric: {
    short: { step: 1, print: (mm) => `${mm / 10} cm` },
    long: { step: 10, print: (cm) => `${cm / 100} m` },
    fine: { step: 1, print: (mm) => `${mm} mm` },
  },
};

/** The next quarter yard or 10 cm: warps are measured out in these. */
export const WARP_STEPS: Readonly<Record<Units, Mm>> = { inch: MM_PER_YARD / 4, metric: 100 };

/** Sums of exact sizes stray by less than this; it must not cost the weaver a quarter yard. */
const WARP_TOLERANCE: Mm = 1e-6;

/**
 * Reads a length as a weaver types it, in millimetres: `2 1/2`, `2½`, `2.5"`, `6,5 cm`, `1 yd 4 in`,
 * `3' 2"`. A bare number is inches or centimetres. Refuses what is empty, no length, below
 * nought, beyond a kilometre, or written with a comma that could part thousands (`1,500 yd`).
 */
export function parseLength(text: string, units: Units): Result<Mm, LengthProblem> {
  const sum = parseSum(text, UNIT_SIZES, units === 'inch' ? MM_PER_INCH : 10);
  if (!sum.ok) return fail(sum.problem === 'nonsense' ? 'not-a-length' : sum.problem);
  return sum.value > LONGEST ? fail('too-long') : sum;
}

/**
 * Prints a length to the nearest printed step (see `printedStep`), a fraction always in lowest
 * terms: 63.5 mm → `2½ in` or `6.4 cm`. Throws when the length is not finite.
 */
export function formatLength(mm: Mm, units: Units, style: LengthStyle = 'short'): string {
  const { step, print } = SCALES[units][style];
  return formatInSteps(mm, step, print);
}

/** The step that `formatLength` rounds to: ⅛ in, ¼ yd, 1 mm or 1 cm. */
export function printedStep(units: Units, style: LengthStyle = 'short'): Mm {
  return SCALES[units][style].step;
}

/** A warp length rounded up to the next ¼ yd or 10 cm, never down; exact lengths stay. */
export function roundUpWarp(mm: Mm, units: Units): Mm {
  if (!(mm >= 0)) throw new RangeError(`got a warp length of ${mm} mm, wanted 0 or more`);
  const step = WARP_STEPS[units];
  return Math.max(0, Math.ceil((mm - WARP_TOLERANCE) / step)) * step;
}

function sized(size: Mm): (name: string) => readonly [string, Mm] {
  return (name) => [name, size];
}
