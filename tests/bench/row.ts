/** What a benchmark hands over: one row of the table each. */

/** Samples of one thing, in the order they were taken. */
export interface Spread {
  readonly median: number;
  readonly p95: number;
  readonly most: number;
  readonly samples: readonly number[];
}

/** How much a row may be. `ratio`: of the medians; the others in the row's unit. */
export type Limit =
  | { readonly kind: 'ratio'; readonly most: number }
  | { readonly kind: 'median'; readonly most: number }
  | { readonly kind: 'p95'; readonly most: number }
  /** No sample may be more. */
  | { readonly kind: 'each'; readonly most: number };

export type Unit = 'ms' | 'µs' | 'kB' | 'MB' | 'bytes';

export interface Row {
  readonly what: string;
  readonly unit: Unit;
  readonly ours: Spread;
  /** What it is measured beside; null for a row that has only a budget. */
  readonly floor: { readonly what: string; readonly spread: Spread } | null;
  readonly limits: readonly Limit[];
}

/** One file of `rows/`: measures in parts that need nothing of each other. */
export interface Bench<Ground> {
  readonly name: string;
  readonly parts: readonly Part<Ground>[];
}

/** Where one throws, all others are measured all the same. */
export interface Part<Ground> {
  readonly what: string;
  readonly run: (ground: Ground) => Promise<readonly Row[]>;
}

/** A part that could not be measured, and what it said. */
export interface Failure {
  readonly what: string;
  readonly why: string;
}

/** Throws on an empty list: nothing measured is no figure. */
export function spreadOf(samples: readonly number[]): Spread {
  if (samples.length === 0) throw new RangeError('spreadOf: got no samples');
  const most = samples.reduce((a, b) => Math.max(a, b));
  return { median: quantile(samples, 0.5), p95: quantile(samples, 0.95), most, samples };
}

/** Between neighbours in proportion: the p-th share of 0 … n − 1 (Hyndman and Fan 1996, type 7). */
export function quantile(samples: readonly number[], share: number): number {
  const sorted = [...samples].sort((a, b) => a - b);
  const at = (sorted.length - 1) * share;
  const below = sorted[Math.floor(at)] ?? Number.NaN;
  const above = sorted[Math.ceil(at)] ?? Number.NaN;
  return below + (above - below) * (at - Math.floor(at));
}

/** Ours over the floor's, of the medians and of the p95s; null without a floor. */
export function ratiosOf({ ours, floor }: Row): { median: number; p95: number } | null {
  if (floor === null) return null;
  return { median: ours.median / floor.spread.median, p95: ours.p95 / floor.spread.p95 };
}

export function holds(row: Row): boolean {
  return row.limits.every((limit) => valueFor(row, limit) <= limit.most);
}

/** What a limit is held against: a ratio, or a figure in the row's unit. */
export function valueFor(row: Row, { kind }: Limit): number {
  switch (kind) {
    case 'ratio':
      return ratiosOf(row)?.median ?? Number.NaN;
    case 'median':
      return row.ours.median;
    case 'p95':
      return row.ours.p95;
    case 'each':
      return row.ours.most;
  }
}
