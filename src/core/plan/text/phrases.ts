/** Phrases that warp and weft orders share. */
import { MM_PER_INCH, type Mm, type Units } from '../../measure/length.ts';
import { formatEighths } from '../../measure/quantityFormat.ts';
import type { Centre, Letter } from '../plan.ts';

/** What computing may add to a length that was typed in inches. */
const DIRT: Mm = 1e-6;

/** `(2 A, 2 B)` */
export function cycleText(
  cycle: readonly { readonly yarn: Letter; readonly count: number }[],
): string {
  return `(${cycle.map(({ yarn, count }) => `${count} ${yarn}`).join(', ')})`;
}

/** What is repeated or mirrored: `(24 B, 12 A)` */
export function groupText<T>(of: readonly T[], text: (item: T) => string): string {
  return `(${of.map(text).join(', ')})`;
}

/** What stands before a mirrored group; a middle woven once goes without saying. */
export function centreText(centre: Centre): string {
  return centre === 'shared' ? 'mirror' : 'mirror with the middle twice';
}

/**
 * A length that reads back the same to a hundredth of a millimetre: centimetres, or inches where
 * eighths, sixteenths or hundredths of an inch hit it, else millimetres: 63.5 → `2½ in`, 60 → `60 mm`.
 * What was read prints the same again.
 */
export function exactLengthText(mm: Mm, units: Units): string {
  if (units === 'metric') return `${rounded(mm / 10, 1000)} cm`;
  const hundredths = rounded(mm, 100);
  return inchText(mm) ?? inchText(hundredths) ?? `${hundredths} mm`;
}

/** `2½ in`, `2 1/16 in` or `2.37 in`; null when none of these is this length. */
function inchText(mm: Mm): string | null {
  const inches = (parts: number) => Math.round((mm / MM_PER_INCH) * parts);
  const hits = (parts: number) => Math.abs((inches(parts) / parts) * MM_PER_INCH - mm) < DIRT;
  if (hits(8)) return `${formatEighths(inches(8))} in`;
  if (hits(16)) {
    const whole = Math.floor(inches(16) / 16);
    return `${whole === 0 ? '' : `${whole} `}${inches(16) % 16}/16 in`;
  }
  return hits(100) ? `${inches(100) / 100} in` : null;
}

function rounded(value: number, parts: number): number {
  return Math.round(value * parts) / parts;
}
