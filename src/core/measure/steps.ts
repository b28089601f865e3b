/** Steps of a value that buttons make larger and smaller. */

/** What computing may leave on a whole number of steps. */
const DIRT = 1e-6;

/** The next whole step above: 63 in steps of 5 → 65, 65 → 70. */
export function stepUp(value: number, step: number): number {
  return clean((Math.floor(value / step + DIRT) + 1) * step);
}

/** The next whole step below, never less than one step: 63 in steps of 5 → 60, 3 → 5. */
export function stepDown(value: number, step: number): number {
  return clean(Math.max(1, Math.ceil(value / step - DIRT) - 1) * step);
}

/** 3 × 6.35 is 19.049999999999997 to the machine; nothing typed has more than four places. */
export function clean(value: number): number {
  return Math.round(value * 1e4) / 1e4;
}
