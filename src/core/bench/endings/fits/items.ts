/** The weft of one piece as a list of blocks that can be made longer or shorter as far as they are not woven. */
import type { Mm } from '../../../measure/length.ts';
import { type LaidBlock, picksOf, plannedLengthOf } from '../../../plan/blocks.ts';
import type { Course } from '../../course.ts';
import { layPiece } from '../../layPiece.ts';
import { partsOf } from '../woven/parts.ts';

export interface Item {
  readonly laid: LaidBlock;
  /** As the plan alone lays it. */
  readonly planned: LaidBlock;
  /** Counted from 0 in its piece as now laid, hems included; null for a block of a motif added. */
  readonly block: number | null;
  /** Picks of it in the cloth. */
  readonly woven: number;
  /** Loom length it is believed to have as now laid; 0 for a block added. */
  readonly loomLength: Mm;
}

/** The weft of a piece as now laid, hems left out. */
export function itemsOf(course: Course, piece: number, pick: number): readonly Item[] {
  const planned = layPiece(course.plan, piece);
  return partsOf(course, piece).weft.map(({ laid, ofPiece, firstPick, picks, loomLength }) => ({
    laid,
    planned: planned[ofPiece] ?? laid,
    block: ofPiece,
    woven: Math.max(0, Math.min(picks, pick - firstPick)),
    loomLength,
  }));
}

/** A block of a motif put in: nothing of it is woven, and it is no block of the piece as now laid. */
export function addedItem(laid: LaidBlock): Item {
  return { laid, planned: laid, block: null, woven: 0, loomLength: 0 };
}

/** Whether some of it is still to be woven. */
export function isToCome({ laid, woven }: Item): boolean {
  return laid.turns > 0 && woven < picksOf(laid);
}

/** Whether it is of one yarn throughout: then picks are its size, else turns are. */
export function isSolid(laid: LaidBlock): boolean {
  return laid.period.yarns.length === 1;
}

/** Adds the planned millimetres of a laid block, by yarn index, so many times. */
export function addLoom(sums: Mm[], laid: LaidBlock, times: number): void {
  addLoomOf(sums, laid, { turns: laid.turns, last: laid.lastTurnPicks, times });
}

interface Amount {
  readonly turns: number;
  /** Picks of the last turn, where it is not a whole one. */
  readonly last: number | null;
  readonly times: number;
}

/** The same of so many turns of it, whole periods by multiplication. */
export function addLoomOf(
  sums: Mm[],
  { period, spacings, firstTurn }: LaidBlock,
  { turns, last, times }: Amount,
): void {
  const { yarns, picks } = period;
  const periods = Math.floor(turns / yarns.length);
  const rest = turns - periods * yarns.length;
  for (let k = 0; k < yarns.length; k++) {
    const at = (firstTurn + k) % yarns.length;
    const yarn = yarns[at] ?? 0;
    const isLast = last !== null && turns > 0 && k === (turns - 1) % yarns.length;
    const more = isLast ? last - (picks[at] ?? 0) : 0;
    const count = (periods + (k < rest ? 1 : 0)) * (picks[at] ?? 0) + more;
    sums[yarn] = (sums[yarn] ?? 0) + times * count * (spacings[yarn] ?? 0);
  }
}

/** Relative change of a block's length; a block that had none changes wholly. */
export function changeOf(from: LaidBlock, to: readonly LaidBlock[]): number {
  const before = plannedLengthOf(from);
  const after = to.reduce((sum, laid) => sum + plannedLengthOf(laid), 0);
  return before === 0 ? Math.sign(after) : Math.abs(after - before) / before;
}
