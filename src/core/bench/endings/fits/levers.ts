/**
 * Levers: blocks to come that can be longer or shorter without becoming others. A solid keeps the
 * parity of its picks, an alternation the yarn it ends on, both in whole turns (as `picksForLength`
 * and `nearestTurns` have it); no lever takes back a woven pick.
 */
import type { Mm } from '../../../measure/length.ts';
import { type LaidBlock, picksOf, plannedLengthOf, turnOf } from '../../../plan/blocks.ts';
import { mayHaveAnyParity } from '../../../plan/parity.ts';
import { addLoomOf, type Item, isSolid, isToCome } from './items.ts';

export interface Lever {
  readonly piece: number;
  /** The blocks that move together: one, or the two of a mirrored pair. */
  readonly items: readonly number[];
  /** Sizes it can have: picks of a solid, turns of an alternation, ascending. */
  readonly counts: readonly number[];
  /** Which of them it has now. */
  readonly now: number;
  /** The block it counts in, as it is now. */
  readonly laid: LaidBlock;
  /** The blocks of a count, one list for each of `items`. */
  readonly at: (count: number) => readonly (readonly LaidBlock[])[];
  /** Adds the planned millimetres of a count, by yarn index, so many times. */
  readonly add: (sums: Mm[], count: number, times: number) => void;
}

/** A block stays between half and one and a half of its length; more makes another design of it (ours). */
const LEAST_SHARE = 0.5;
const MOST_SHARE = 1.5;
/** The only block of a piece is the piece: it may be anything up to this many times as long (ours). */
const MOST_ALONE = 10;

/** Planned loom lengths a block may have. */
export interface Bounds {
  readonly least: Mm;
  readonly most: Mm;
}

/**
 * Between which planned loom lengths (mm) a block stays the design it is; the only one of a piece has far
 * more room.
 */
export function boundsOf(laid: LaidBlock, isOnlyBlock: boolean): Bounds {
  const length = plannedLengthOf(laid);
  return isOnlyBlock
    ? { least: 0, most: MOST_ALONE * length }
    : { least: LEAST_SHARE * length, most: MOST_SHARE * length };
}

/** One block alone; null when it is woven or has only the size it has. */
export function blockLever(piece: number, items: readonly Item[], at: number): Lever | null {
  const item = items[at];
  if (item === undefined || !isToCome(item)) return null;
  const { laid } = item;
  return leverOf({
    piece,
    items: [at],
    counts: countsOf(item, boundsOf(laid, items.length === 1)),
    laid,
    at: (count) => [[withCount(laid, count)]],
    add: (sums, count, times) => addCount(sums, laid, count, times),
  });
}

/**
 * A lever at the size its block has now; null where there is no other size, or the present one is not among
 * them.
 */
export function leverOf(lever: Omit<Lever, 'now'>): Lever | null {
  const now = lever.counts.indexOf(countOf(lever.laid));
  if (lever.counts.length < 2 || now < 0) return null;
  const { piece, items, counts, laid, at, add } = lever;
  return { piece, items, counts, now, laid, at, add };
}

/** What sizes are counted in: picks of a solid, turns of an alternation. */
export function countOf(laid: LaidBlock): number {
  return isSolid(laid) ? picksOf(laid) : laid.turns;
}

/** The block with another count; as it is with its own, cut or stretched as its last turn may be. */
export function withCount(laid: LaidBlock, count: number): LaidBlock {
  if (count === countOf(laid)) return laid;
  if (isSolid(laid)) return { ...laid, turns: 1, lastTurnPicks: count };
  return { ...laid, turns: count, lastTurnPicks: null };
}

/** Adds the planned millimetres of a block with a count, by yarn index, so many times. */
export function addCount(sums: Mm[], laid: LaidBlock, count: number, times: number): void {
  const isAsIs = count === countOf(laid);
  const [turns, last] = isSolid(laid) ? [1, count] : [count, isAsIs ? laid.lastTurnPicks : null];
  addLoomOf(sums, laid, { turns, last, times });
}

/** Counts a block may have within bounds, ascending, its own among them. */
export function countsOf(item: Item, bounds: Bounds): readonly number[] {
  return isSolid(item.laid) ? picksWithin(item, bounds) : turnsWithin(item, bounds);
}

const SLACK = 1e-9;

function picksWithin({ laid, woven }: Item, { least, most }: Bounds): readonly number[] {
  const now = picksOf(laid);
  const step = mayHaveAnyParity(laid.block) ? 1 : 2;
  const spacing = laid.spacings[laid.period.yarns[0] ?? 0] ?? 0;
  const counts: number[] = [];
  const first = now - step * Math.floor(now / step);
  for (let picks = first; picks * spacing <= most + SLACK || picks <= now; picks += step) {
    const isWithin = picks >= Math.max(1, woven) && picks * spacing >= least - SLACK;
    if (picks === now || isWithin) counts.push(picks);
  }
  return counts;
}

function turnsWithin({ laid, woven }: Item, { least, most }: Bounds): readonly number[] {
  const closes = turnOf(laid, laid.turns - 1).yarn;
  const { yarns, picks: period } = laid.period;
  const counts: number[] = [];
  let [picks, length] = [0, 0];
  for (let turns = 1; length <= most + SLACK || turns <= laid.turns; turns++) {
    const at = (laid.firstTurn + turns - 1) % yarns.length;
    const yarn = yarns[at] ?? 0;
    picks += period[at] ?? 0;
    length += (period[at] ?? 0) * (laid.spacings[yarn] ?? 0);
    const isWithin = picks >= woven && length >= least - SLACK && length <= most + SLACK;
    if (turns === laid.turns || (yarn === closes && isWithin)) counts.push(turns);
  }
  return counts;
}

/** The count of one of its sizes. */
export function countAt(lever: Lever, size: number): number {
  return lever.counts[size] ?? 0;
}

/** Planned millimetres by yarn index, with a lever at another size. */
export function loomWith(planned: readonly Mm[], lever: Lever, size: number): readonly Mm[] {
  const sums = [...planned];
  move(sums, lever, size);
  return sums;
}

/** Changes sums of planned millimetres, by yarn index, to those with a lever at another size. */
export function move(sums: Mm[], lever: Lever, size: number): void {
  if (size === lever.now) return;
  lever.add(sums, countAt(lever, lever.now), -1);
  lever.add(sums, countAt(lever, size), 1);
}

/** Relative change of length; the two of a pair count once. */
export function costOf(lever: Lever, size: number): number {
  const [before, after] = [lengthAt(lever, lever.now), lengthAt(lever, size)];
  return Math.abs(after - before) / before;
}

/** Planned length of the block it counts in, at one of its sizes. */
export function lengthAt(lever: Lever, size: number): Mm {
  const sums = lever.laid.spacings.map(() => 0);
  addCount(sums, lever.laid, countAt(lever, size), 1);
  return sums.reduce((sum, mm) => sum + mm, 0);
}
