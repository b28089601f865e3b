/** Quantities as they are printed. */

/** Eighths as a weaver writes them, without a unit: 20 → `2½`, 64 → `8`, 3 → `⅜`. */
export function formatEighths(eighths: number): string {
  const whole = Math.floor(eighths / 8);
  const part = ['', '⅛', '¼', '⅜', '½', '⅝', '¾', '⅞'][eighths % 8] ?? '';
  return whole === 0 && part !== '' ? part : `${whole}${part}`;
}

/**
 * Prints a quantity in whole steps of `step`. The sign belongs to the rounded figure, so that
 * nothing prints as minus nought. Throws when the quantity is not finite.
 */
export function formatInSteps(
  quantity: number,
  step: number,
  print: (steps: number) => string,
): string {
  if (!Number.isFinite(quantity)) throw new RangeError(`got ${quantity}, wanted a finite quantity`);
  const steps = Math.round(Math.abs(quantity) / step);
  return `${quantity < 0 && steps > 0 ? '−' : ''}${print(steps)}`;
}
