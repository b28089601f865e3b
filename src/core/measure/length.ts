import { formatEighths, formatInSteps } from './quantityFormat.ts';

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

interface Scale {
  readonly step: Mm;
  readonly print: (steps: number) => string;
}

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
