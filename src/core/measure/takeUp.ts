import type { Mm } from './length.ts';

/** Crimp relative to the cloth, (D − F)/F, from a thread straightened (D) and in cloth (F); ASTM D3883. */
export function crimpOf(straightened: Mm, inCloth: Mm): number {
  return (straightened - inCloth) / inCloth;
}

/** Take-up relative to the yarn, (D − F)/D, from a thread straightened (D) and in cloth (F); ASTM D3883. */
export function takeUpOf(straightened: Mm, inCloth: Mm): number {
  return (straightened - inCloth) / straightened;
}

/** t = c/(1 + c): a crimp of 25 % is a take-up of 20 %. */
export function takeUpFromCrimp(crimp: number): number {
  return crimp / (1 + crimp);
}

/** c = t/(1 − t): a take-up of 20 % is a crimp of 25 %. */
export function crimpFromTakeUp(takeUp: number): number {
  return takeUp / (1 - takeUp);
}

/** Dimensional change in percent, as ISO 5077 has it: negative when the cloth shrank. */
export function dimensionalChange(before: Mm, after: Mm): number {
  return (100 * (after - before)) / before;
}

/** The fraction lost between two measurements, as allowances are stored: 27 → 25.5 in is 0.0556. */
export function lossOf(before: Mm, after: Mm): number {
  return (before - after) / before;
}

/** What is left of a size after fractional losses one after another: 14 in by 9 %, 12 % → 11.21. */
export function afterLosses(size: Mm, losses: readonly number[]): Mm {
  return losses.reduce((left, loss) => left * (1 - loss), size);
}

/** The size to start from so that `wished` is left: 10 in by 20 % → 12.5, not 12. */
export function beforeLosses(wished: Mm, losses: readonly number[]): Mm {
  return losses.reduce((needed, loss) => needed / (1 - loss), wished);
}
