/** What the weaver changed against the plan while weaving; each holds from its pick on. */
import type { Side } from '../plan/plan.ts';
import type { FreeRecord } from './byEye/record.ts';

export interface Adjustments {
  /** Picks before which the other shed was taken; holds to the end of the piece. Ascending. */
  readonly shedFlips: readonly number[];
  /** Where a shuttle was found to lie before a pick. Ascending. */
  readonly sides: readonly SideFound[];
  /** Blocks cut short or lengthened to this many picks; the last word on a block counts. */
  readonly blocks: readonly BlockPicks[];
  /** What was thrown in parts woven by eye. */
  readonly free: readonly FreeRecord[];
}

export interface SideFound {
  readonly pick: number;
  readonly yarn: number;
  readonly side: Side;
}

export interface BlockPicks {
  readonly piece: number;
  /** Counted from 0 inside the piece. */
  readonly block: number;
  readonly picks: number;
  /** Picks beyond this many stay in the yarn of the last turn instead of beginning the next one. */
  readonly sameYarnFrom?: number;
  /** Set by a reading that made the beat known better, not by hand. */
  readonly aimed?: true;
}

export const NO_ADJUSTMENTS: Adjustments = { shedFlips: [], sides: [], blocks: [], free: [] };

/** The adjustments that still hold once the cloth has been taken back to `pick`. */
export function adjustmentsUpTo(adjustments: Adjustments, pick: number): Adjustments {
  return {
    ...adjustments,
    shedFlips: adjustments.shedFlips.filter((at) => at <= pick),
    sides: adjustments.sides.filter((it) => it.pick <= pick),
  };
}

/** Whether any of them is about this piece; a side found before the pick after its last one is, too. */
export function isAdjusted(
  { shedFlips, sides, blocks, free }: Adjustments,
  {
    index,
    firstPick,
    picks,
  }: { readonly index: number; readonly firstPick: number; readonly picks: number },
): boolean {
  const holds = (pick: number) => pick >= firstPick && pick <= firstPick + picks;
  const isOfIt = ({ piece }: { readonly piece: number }) => piece === index;
  return (
    shedFlips.some(holds) ||
    sides.some(({ pick }) => holds(pick)) ||
    blocks.some(isOfIt) ||
    free.some(isOfIt)
  );
}
