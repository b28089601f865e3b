/** How well an allowance is known, and how far a forecast size may lie from it. */
import type { Mm } from '../measure/length.ts';
import { addedUp, nineInTen, type Uncertain } from '../measure/spread.ts';
import type { Allowance } from './plan.ts';

/**
 * One yarn, sett and loom: the share of the next piece lies about one part in a hundred from the
 * last one's, half of the variance between warps and half within them (ours; washed cottons as a
 * whole range over 6 to 11 %, common practice). It is worth so many findings of the weaver's own.
 */
export const USUAL_SPREAD = 0.01;
export const USUAL_WORTH = 4;

/** A spread learnt from so many pieces, for intervals: few pieces know little of their spread. */
export function sureBy(spread: number, pieces: number): Uncertain {
  return { spread, freedom: USUAL_WORTH + pieces - 1 };
}

/** Of a share nobody learnt we know no more than of one piece: both may stray by the usual spread. */
const NOT_LEARNT: Uncertain = sureBy(Math.SQRT2 * USUAL_SPREAD, 1);

/** How well the share of a plan is known. */
export function surenessOf({ from }: Allowance): Uncertain {
  return from.kind === 'washed' ? sureBy(from.spread, from.pieces) : NOT_LEARNT;
}

/** Where the next piece's share will lie nine times in ten. */
export function likelyShares(allowance: Allowance): { readonly from: number; readonly to: number } {
  const half = nineInTen(surenessOf(allowance));
  return { from: allowance.share - half, to: allowance.share + half };
}

/** Nine in ten such pieces lie between these. */
export interface Range {
  readonly from: Mm;
  readonly to: Mm;
}

/**
 * The range of a size that is left after losses one after another; null where none of them was
 * learnt, for common practice says nothing of this yarn.
 */
export function rangeOf(size: Mm, losses: readonly Allowance[]): Range | null {
  if (!losses.some((it) => it.from.kind === 'washed')) return null;
  const parts = losses.map((it) => {
    const { spread, freedom } = surenessOf(it);
    return { spread: spread / (1 - it.share), freedom };
  });
  const half = size * nineInTen(addedUp(parts));
  return { from: size - half, to: size + half };
}
