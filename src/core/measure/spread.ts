/** Several readings of one thing: their mean, their spread, and how far the next may lie from them. */

/** The mean of one or more readings; throws on none. */
export function meanOf(readings: readonly number[]): number {
  if (readings.length === 0) throw new RangeError('meanOf: wanted a reading, got none');
  return readings.reduce((sum, it) => sum + it, 0) / readings.length;
}

/** Sum of squared distances from the mean; 0 for one reading. */
export function squaresOf(readings: readonly number[]): number {
  const mean = meanOf(readings);
  return readings.reduce((sum, it) => sum + (it - mean) ** 2, 0);
}

/** Standard deviation of a sample, divisor n − 1; null for one reading, which says nothing of it. */
export function spreadOf(readings: readonly number[]): number | null {
  return readings.length < 2 ? null : Math.sqrt(squaresOf(readings) / (readings.length - 1));
}

/** A figure and how well it is known: standard deviation, and its degrees of freedom. */
export interface Uncertain {
  readonly spread: number;
  readonly freedom: number;
}

/**
 * Standard deviations of independent errors added up, with effective degrees of freedom
 * (Welch and Satterthwaite, as in the GUM, JCGM 100:2008, G.4.1).
 */
export function addedUp(parts: readonly Uncertain[]): Uncertain {
  const variance = parts.reduce((sum, it) => sum + it.spread ** 2, 0);
  if (variance === 0) return { spread: 0, freedom: Number.POSITIVE_INFINITY };
  const denominator = parts.reduce((sum, it) => sum + it.spread ** 4 / it.freedom, 0);
  return { spread: Math.sqrt(variance), freedom: variance ** 2 / denominator };
}

/** Half the width of the interval that holds nine in ten: Student's t at 90 %, both sides, × spread. */
export function nineInTen({ spread, freedom }: Uncertain): number {
  return spread === 0 ? 0 : spread * studentNineInTen(freedom);
}

/** The standard normal deviate beyond which one in twenty lies. */
const NORMAL = 1.6448536269514722;

/** The share outside the interval, both sides together. */
const OUTSIDE = 0.1;

/**
 * Student's t with one in twenty beyond it on either side, for any degrees of freedom of 1 or more:
 * 4 → 2.132, ∞ → 1.645. G. W. Hill, Algorithm 396, Communications of the ACM 13, 1970, p. 619.
 * Fewer than 1 throws.
 */
export function studentNineInTen(freedom: number): number {
  if (!(freedom >= 1)) throw new RangeError(`got ${freedom} degrees of freedom, wanted 1 or more`);
  if (freedom > 1e9) return NORMAL;
  if (freedom === 1) return 1 / Math.tan((OUTSIDE * Math.PI) / 2);
  if (freedom === 2) return Math.sqrt(2 / (OUTSIDE * (2 - OUTSIDE)) - 2);
  return Math.sqrt(freedom * hillSquare(freedom));
}

/** t² / n of Hill's algorithm, in his letters. */
function hillSquare(n: number): number {
  const a = 1 / (n - 0.5);
  const b = (48 / a) * (1 / a);
  const c = (((20_700 * a) / b - 98) * a - 16) * a + 96.36;
  const d = ((94.5 / (b + c) - 3) / b + 1) * Math.sqrt((a * Math.PI) / 2) * n;
  const y = (d * OUTSIDE) ** (2 / n);
  return y > 0.05 + a ? farOut(n, { a, b, c, d }) : closeIn(n, d, y);
}

interface HillTerms {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
}

/** The asymptotic inverse expansion about the normal. */
function farOut(n: number, { a, b, c: c0, d }: HillTerms): number {
  const x = -NORMAL;
  const y = x * x;
  const c1 = n < 5 ? c0 + 0.3 * (n - 4.5) * (x + 0.6) : c0;
  const c = (((0.05 * d * x - 5) * x - 7) * x - 2) * x + b + c1;
  const inner = (((((0.4 * y + 6.3) * y + 36) * y + 94.5) / c - y - 3) / b + 1) * x;
  return Math.expm1(a * inner * inner);
}

function closeIn(n: number, d: number, y: number): number {
  const inner = 1 / (((n + 6) / (n * y) - 0.089 * d - 0.822) * (n + 2) * 3) + 0.5 / (n + 4);
  return ((inner * y - 1) * (n + 1)) / (n + 2) + 1 / y;
}
