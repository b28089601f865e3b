/**
 * All blocks to come in proportion: one factor for all, every block at its permitted size nearest to
 * so many times its own. Blocks that are alike stay alike.
 */
import { lastAtOrBefore } from '../../search.ts';
import { type Lever, lengthAt } from './levers.ts';
import { nearest, type Target } from './target.ts';

/** A size for each lever, in their order; null where no factor does it. `over` says what sizes come to. */
export function inProportion(
  levers: readonly Lever[],
  aim: Target['aim'],
  over: (sizes: readonly number[]) => number,
): readonly number[] | null {
  if (levers.length < 2) return null;
  const steps = levers.map(stepsOf);
  const cuts = distinct(steps.flat());
  const sizesAt = (n: number) =>
    steps.map((own) => {
      const cut = cuts[n - 1];
      return cut === undefined ? 0 : lastAtOrBefore(own, own.length, cut + SAME) + 1;
    });
  // Between the last cut at or below 1 and the next one every block is as it is.
  const now = lastAtOrBefore(cuts, cuts.length, 1) + 1;
  const found = nearest(aim, { count: cuts.length + 1, now, over: (n) => over(sizesAt(n)) });
  return found === null ? null : sizesAt(found);
}

/** Factors that differ by less are one. */
const SAME = 1e-9;

/** The factors at which a lever takes its next size: half way between two, and at half way the smaller one. */
function stepsOf(lever: Lever): readonly number[] {
  const lengths = lever.counts.map((_, size) => lengthAt(lever, size));
  const own = lengths[lever.now] ?? 1;
  return lengths.slice(1).map((length, i) => (length + (lengths[i] ?? 0)) / 2 / own);
}

function distinct(factors: readonly number[]): readonly number[] {
  const sorted = [...factors].sort((a, b) => a - b);
  return sorted.filter((it, i) => i === 0 || it - (sorted[i - 1] ?? 0) > SAME);
}
