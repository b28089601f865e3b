/** What a fit is to come out as, and the nearest a family of plans in one parameter comes to it. */
import type { Mm } from '../../../measure/length.ts';
import type { Aim } from '../ending.ts';

export interface Target {
  readonly aim: Aim;
  /**
   * By how many millimetres it is too much, with so many planned ones still to weave of the pieces
   * that may change, by yarn index. It grows with each of them.
   */
  readonly over: (planned: readonly Mm[]) => Mm;
}

/** Sums of exact lengths stray by less than this. */
export const TOLERANCE: Mm = 1e-6;

export interface Family {
  /** Parameters are 0 up to this, not included; the length grows with them. */
  readonly count: number;
  /** The plan as it is. */
  readonly now: number;
  /** By how much the plan of a parameter is too much. */
  readonly over: (parameter: number) => Mm;
}

/**
 * The parameter that comes nearest to a wish, or up to the warp; of two as near the one that changes
 * less. Null where that is the plan as it is, or the family does not reach so far.
 */
export function nearest(aim: Aim, { count, now, over }: Family): number | null {
  const below = lastUpTo(count, over);
  if (below < 0) return null;
  const above = below + 1;
  const isReached = above < count || over(below) > -TOLERANCE;
  if (!isReached) return null;
  const found = aim === 'warp' || above >= count ? below : nearer(below, above, { now, over });
  return found === now ? null : found;
}

function nearer(below: number, above: number, { now, over }: Omit<Family, 'count'>): number {
  const [under, beyond] = [-over(below), over(above)];
  if (Math.abs(under - beyond) > TOLERANCE) return under < beyond ? below : above;
  return Math.abs(below - now) <= Math.abs(above - now) ? below : above;
}

/** The last parameter that is not too much; −1 where every one is. */
export function lastUpTo(count: number, over: (parameter: number) => Mm): number {
  let [low, high] = [0, count];
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (over(middle) <= TOLERANCE) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}
