/** Blocks that face each other in a mirrored weft, and second halves that match what first halves became. */
import type { Mm } from '../../../measure/length.ts';
import {
  type LaidBlock,
  picksOf,
  plannedLengthOf,
  reverseLaid,
  turnOf,
  withPicks,
} from '../../../plan/blocks.ts';
import type { Keep } from '../../events.ts';
import { changeOf, type Item, isSolid, isToCome } from './items.ts';
import { addCount, boundsOf, countOf, countsOf, type Lever, leverOf, withCount } from './levers.ts';

export interface Pair {
  /** Index of the block in the first half, and of the one that faces it. */
  readonly first: number;
  readonly second: number;
  /** Turns at the centre that the second one leaves out. */
  readonly drop: number;
}

/** Who faces whom in a weft that is planned to read the same from both ends; null in any other. */
export function facing(items: readonly Item[]): readonly Pair[] | null {
  const pairs: Pair[] = [];
  for (let first = 0, second = items.length - 1; first < second; first++, second--) {
    const drop = dropBetween(items[first]?.planned, items[second]?.planned);
    if (drop === null) return null;
    pairs.push({ first, second, drop });
  }
  return pairs;
}

/** How many turns the way back leaves out; null when it is not the way back. */
function dropBetween(there: LaidBlock | undefined, back: LaidBlock | undefined): number | null {
  if (there === undefined || back === undefined) return null;
  if (there.role === 'free' || back.role === 'free') return null;
  const length = there.period.yarns.length;
  if (length !== back.period.yarns.length) return null;
  if (length === 1) return there.period.yarns[0] === back.period.yarns[0] ? 0 : null;
  const drop = there.turns - back.turns;
  if (drop < 0) return null;
  const reversed = reverseLaid({ ...there, lastTurnPicks: null });
  const open = { ...back, lastTurnPicks: null };
  for (let k = 0; k < Math.min(length, back.turns); k++) {
    const [one, other] = [turnOf(reversed, k + drop), turnOf(open, k)];
    if (one.yarn !== other.yarn || one.picks !== other.picks) return null;
  }
  return drop;
}

/** The facing block as the way back of another, at the size that one has; two blocks where its last turn is cut. */
export function wayBack(there: LaidBlock, back: LaidBlock, drop: number): readonly LaidBlock[] {
  if (there.turns === 0) return [];
  if (isSolid(there)) return [withPicks(back, picksOf(there))];
  const turns = there.turns - drop;
  if (turns <= 0) return [];
  const { period, firstTurn } = reverseLaid({ ...there, lastTurnPicks: null });
  const from = (skipped: number) => (firstTurn + skipped) % period.yarns.length;
  const whole = { ...back, period, lastTurnPicks: null };
  const isWhole = there.lastTurnPicks === null || drop > 0;
  if (isWhole) return [{ ...whole, firstTurn: from(drop), turns }];
  const cut = { ...whole, firstTurn: from(0), turns: 1, lastTurnPicks: there.lastTurnPicks };
  return turns === 1 ? [cut] : [cut, { ...whole, firstTurn: from(1), turns: turns - 1 }];
}

/** The two of a pair alike, where both are to come and alike now. */
export function pairLever(
  piece: number,
  items: readonly Item[],
  { first, second, drop }: Pair,
): Lever | null {
  const [there, back] = [items[first], items[second]];
  if (there === undefined || back === undefined) return null;
  if (!isToCome(there) || !isToCome(back)) return null;
  if (!isWayBack(there.laid, back.laid, drop)) return null;
  const counts = countsOf(there, boundsOf(there.laid, false));
  return leverOf({
    piece,
    items: [first, second],
    // What comes back must be something.
    counts: counts.filter((count) => isSolid(there.laid) || count > drop),
    laid: there.laid,
    at: (count) => {
      const laid = withCount(there.laid, count);
      return [[laid], wayBack(laid, back.laid, drop)];
    },
    add: (sums, count, times) => {
      addCount(sums, there.laid, count, times);
      // The way back has the first turns of the way there, but for those left out at the centre.
      const { period, firstTurn } = there.laid;
      const shown = { ...back.laid, period, firstTurn, turns: 0, lastTurnPicks: null };
      addCount(sums, shown, count - drop, times);
    },
  });
}

/** Whether one block is another backwards, all but the turns left out at the centre; both uncut. */
function isWayBack(there: LaidBlock, back: LaidBlock, drop: number): boolean {
  if (isSolid(there)) return picksOf(there) === picksOf(back);
  if (there.lastTurnPicks !== null || back.lastTurnPicks !== null) return false;
  if (back.turns !== there.turns - drop) return false;
  for (let k = 0; k < Math.min(back.turns, back.period.yarns.length); k++) {
    const [one, other] = [turnOf(there, back.turns - 1 - k), turnOf(back, k)];
    if (one.yarn !== other.yarn || one.picks !== other.picks) return false;
  }
  return true;
}

/** Whether two lists of blocks have the same yarn at every pick. */
export function isSameWeft(one: readonly LaidBlock[], other: readonly LaidBlock[]): boolean {
  const [a, b] = [turnsOf(one), turnsOf(other)];
  return (
    a.length === b.length &&
    a.every((turn, i) => turn.yarn === b[i]?.yarn && turn.picks === b[i]?.picks)
  );
}

function turnsOf(laid: readonly LaidBlock[]) {
  return laid.flatMap((it) => Array.from({ length: it.turns }, (_, k) => turnOf(it, k)));
}

export interface Matched {
  readonly items: readonly Item[];
  /** Sum of the relative changes. */
  readonly cost: number;
}

/**
 * The weft with every block to come that faces another as the way back of it: of what a woven one
 * really became in picks, or in length (where `rates` are real millimetres for planned ones). Null
 * where nothing changes, or a block half woven cannot become that.
 */
export function matched(
  items: readonly Item[],
  pairs: readonly Pair[],
  by: Keep,
  rates: readonly number[],
): Matched | null {
  let cost = 0;
  const changed = new Map<number, readonly LaidBlock[]>();
  for (const pair of pairs) {
    const [there, back] = [items[pair.first], items[pair.second]];
    if (there === undefined || back === undefined || !isToCome(back)) continue;
    const byLength = by === 'length' && !isToCome(there);
    if (!byLength && isWayBack(there.laid, back.laid, pair.drop)) continue;
    const laid = byLength
      ? [nearestTo(back, wantedOf(there, back), rates)]
      : wayBack(there.laid, back.laid, pair.drop);
    if (laid[0] === back.laid || isSameWeft(laid, [back.laid])) continue;
    if (laid.length === 0 || !holdsWoven(back, laid)) return null;
    changed.set(pair.second, laid);
    cost += changeOf(back.laid, laid);
  }
  if (changed.size === 0) return null;
  return { items: withBlocks(items, changed), cost };
}

/** Items with some of them laid otherwise; one that becomes two is two items of the same block. */
export function withBlocks(
  items: readonly Item[],
  changed: ReadonlyMap<number, readonly LaidBlock[]>,
): readonly Item[] {
  return items.flatMap((item, i) => changed.get(i)?.map((laid) => ({ ...item, laid })) ?? [item]);
}

/** Real length of the first block, less what the way back leaves out. */
function wantedOf(there: Item, back: Item): Mm {
  return (there.loomLength * plannedLengthOf(back.planned)) / (plannedLengthOf(there.planned) || 1);
}

function nearestTo(item: Item, wanted: Mm, rates: readonly number[]): LaidBlock {
  const { laid } = item;
  const most = 2 * wanted + 2 * plannedLengthOf(laid);
  const missOf = (count: number) => Math.abs(realLength(laid, count, rates) - wanted);
  let best = countOf(laid);
  for (const count of countsOf(item, { least: 0, most }))
    if (missOf(count) < missOf(best) - 1e-9) best = count;
  return withCount(laid, best);
}

function realLength(laid: LaidBlock, count: number, rates: readonly number[]): Mm {
  const sums = rates.map(() => 0);
  addCount(sums, laid, count, 1);
  return sums.reduce((sum, mm, yarn) => sum + mm * (rates[yarn] ?? 1), 0);
}

/** Whether what is woven of a block stays as it is in the blocks it would become. */
function holdsWoven({ laid, woven }: Item, next: readonly LaidBlock[]): boolean {
  const [was, is] = [yarnsUpTo([laid], woven), yarnsUpTo(next, woven)];
  return was.length === woven && is.length === woven && was.every((yarn, i) => yarn === is[i]);
}

function yarnsUpTo(laid: readonly LaidBlock[], picks: number): readonly number[] {
  const yarns: number[] = [];
  for (const turn of turnsOf(laid)) {
    for (let k = 0; k < turn.picks && yarns.length < picks; k++) yarns.push(turn.yarn);
  }
  return yarns;
}
