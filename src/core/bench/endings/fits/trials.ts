/**
 * Trials: the ways to make one piece longer or shorter towards a target. Each family moves in one
 * parameter, so its nearest is found by halving.
 */
import type { Mm } from '../../../measure/length.ts';
import type { Way } from '../ending.ts';
import { type Board, type BoardPiece, loomAhead } from './board.ts';
import { facing, matched, pairLever, withBlocks } from './facing.ts';
import type { Item } from './items.ts';
import { blockLever, costOf, countAt, type Lever, lengthAt, loomWith, move } from './levers.ts';
import { inProportion } from './proportion.ts';
import { type Site, sitesOf, withMotifs } from './sites.ts';
import { lastUpTo, nearest, type Target } from './target.ts';

/** A plan that may come out right. */
export interface Trial {
  readonly way: Way;
  readonly motifs: number;
  readonly matched: boolean;
  readonly dropped: number;
  readonly cost: number;
  /** How many blocks or pairs are moved. */
  readonly moved: number;
  /** The pieces that change, with their weft. */
  readonly wefts: ReadonlyMap<number, readonly Item[]>;
}

/** A weft to start from. */
interface Base {
  readonly items: readonly Item[];
  readonly motifs: number;
  readonly matched: boolean;
  readonly cost: number;
}

/** Every family's nearest, for one piece. None once its ending hem is begun. */
export function trialsOf(board: Board, it: BoardPiece, target: Target): readonly Trial[] {
  if (it.begun !== null) return [];
  const start: Base = { items: it.items, motifs: 0, matched: false, cost: 0 };
  const sites = sitesOf(board.reckoning.plan, it.index, it.items);
  const bases = [start, ...sites.flatMap((site) => motifBases(board, it, target, site))];
  return bases
    .flatMap((base) => [base, ...matchedBases(board, base)])
    .flatMap((base) => fromBase(board, it, target, base));
}

/** No plan grows by more motifs than this (ours). */
const MOST_MOTIFS = 200;

/** The number of motifs that comes just below the target and the next one; without any it is the plan. */
function motifBases(board: Board, it: BoardPiece, target: Target, site: Site): readonly Base[] {
  const fewest = -site.removable.length;
  const weftWith = (n: number) => withMotifs(it.items, site, fewest + n);
  const count = MOST_MOTIFS - fewest;
  const below = lastUpTo(count, (n) => target.over(loomAhead(board, it, weftWith(n))));
  return [below, below + 1]
    .filter((n) => n >= 0 && n < count && fewest + n !== 0)
    .map((n) => ({
      items: weftWith(n),
      motifs: fewest + n,
      matched: false,
      cost: blocksChanged(site, fewest + n),
    }));
}

/** A block more or fewer is a relative change of 1. */
function blocksChanged({ removable, motif }: Site, motifs: number): number {
  if (motifs > 0) return motifs * motif.length;
  return removable.slice(0, -motifs).reduce((sum, blocks) => sum + blocks, 0);
}

/** The same with the second half as the first one became, in picks and in length. */
function matchedBases({ reckoning }: Board, base: Base): readonly Base[] {
  const pairs = facing(base.items);
  if (pairs === null) return [];
  return (['picks', 'length'] as const).flatMap((by) => {
    const found = matched(base.items, pairs, by, reckoning.beliefs.rates);
    if (found === null) return [];
    return [{ ...base, items: found.items, matched: true, cost: base.cost + found.cost }];
  });
}

function fromBase(board: Board, it: BoardPiece, target: Target, base: Base): readonly Trial[] {
  const ahead = loomAhead(board, it, base.items);
  const levers = leversOf(it.index, base);
  const trial = (way: Way, moves: readonly Move[]): Trial => ({
    way,
    motifs: base.motifs,
    matched: base.matched,
    dropped: 0,
    cost: base.cost + moves.reduce((sum, move) => sum + costOf(move.lever, move.size), 0),
    moved: moves.length,
    wefts: new Map([[it.index, withMoves(base.items, moves)]]),
  });
  const alone = levers.alone.flatMap((lever) => {
    const size = sizeFor(lever, target, ahead);
    if (size === null || isStrained(base, [{ lever, size }])) return [];
    return [trial(lever.items.length > 1 ? 'pair' : 'block', [{ lever, size }])];
  });
  const together = movesInProportion(levers.together, target, ahead);
  const itself = base.matched ? 'mirror' : 'motifs';
  return [
    ...(base.matched || base.motifs !== 0 ? [trial(itself, [])] : []),
    ...alone,
    ...(together.length === 0 || isStrained(base, together) ? [] : [trial('proportion', together)]),
  ];
}

/** Beside motifs more or fewer the blocks change slightly or not at all: by no more than this (ours). */
const MOST_BESIDE_MOTIFS = 0.25;

function isStrained({ motifs }: Base, moves: readonly Move[]): boolean {
  return motifs !== 0 && moves.some(({ lever, size }) => costOf(lever, size) > MOST_BESIDE_MOTIFS);
}

interface Move {
  readonly lever: Lever;
  readonly size: number;
}

interface LeversOfBase {
  /** To be moved one at a time; where the weft is changed already only what leaves it mirrored. */
  readonly alone: readonly Lever[];
  /** To be moved in proportion. */
  readonly together: readonly Lever[];
}

/** In a weft matched to its first half only what leaves it mirrored may move: pairs, and the centre. */
function leversOf(piece: number, base: Base): LeversOfBase {
  const { items } = base;
  const found = facing(items);
  const pairs = (found ?? []).flatMap((pair) => pairLever(piece, items, pair) ?? []);
  const paired = new Set(pairs.flatMap((lever) => lever.items));
  const isCentre = (i: number) => found !== null && 2 * i === items.length - 1;
  const blocks = items.flatMap((_, i) => blockLever(piece, items, i) ?? []);
  const centre = blocks.filter(({ items: [i = -1] }) => isCentre(i));
  const unpaired = base.matched ? centre : blocks.filter(({ items: [i = -1] }) => !paired.has(i));
  const together = stretchable([...pairs, ...unpaired], items);
  const isStart = base.motifs === 0 && !base.matched;
  const others = isStart ? longest(blocks) : [];
  return { alone: [...new Set([...longest(pairs), ...others, ...centre])], together };
}

/** Of so many blocks those are tried alone that would change least: the longest ones (ours). */
const MOST_ALONE = 24;

function longest(levers: readonly Lever[]): readonly Lever[] {
  if (levers.length <= MOST_ALONE) return levers;
  const lengths = new Map(levers.map((lever) => [lever, lengthAt(lever, lever.now)]));
  const byLength = [...levers].sort((a, b) => (lengths.get(b) ?? 0) - (lengths.get(a) ?? 0));
  return byLength.slice(0, MOST_ALONE);
}

/** Blocks planned by length are there to be stretched; where there is none, all are. */
function stretchable(levers: readonly Lever[], items: readonly Item[]): readonly Lever[] {
  const byLength = levers.filter(({ items: [i = -1] }) => items[i]?.laid.plannedLength !== null);
  return byLength.length > 0 ? byLength : levers;
}

function sizeFor(lever: Lever, target: Target, ahead: readonly Mm[]): number | null {
  const over = (size: number) => target.over(loomWith(ahead, lever, size));
  return nearest(target.aim, { count: lever.counts.length, now: lever.now, over });
}

function movesInProportion(
  levers: readonly Lever[],
  target: Target,
  ahead: readonly Mm[],
): readonly Move[] {
  const over = (sizes: readonly number[]) => {
    const sums = [...ahead];
    for (const [i, lever] of levers.entries()) move(sums, lever, sizes[i] ?? lever.now);
    return target.over(sums);
  };
  const sizes = inProportion(levers, target.aim, over);
  if (sizes === null) return [];
  return levers
    .map((lever, i) => ({ lever, size: sizes[i] ?? 0 }))
    .filter(({ lever, size }) => size !== lever.now);
}

function withMoves(items: readonly Item[], moves: readonly Move[]): readonly Item[] {
  const changed = moves.flatMap(({ lever, size }) => {
    const blocks = lever.at(countAt(lever, size));
    return lever.items.map((item, i) => [item, blocks[i] ?? []] as const);
  });
  return withBlocks(items, new Map(changed));
}

/** All pieces but the present one in proportion. */
export function trialOfLater(board: Board, target: Target): readonly Trial[] {
  const later = board.pieces.slice(1);
  const levers = later.flatMap((it) => {
    const base = { items: it.items, motifs: 0, matched: false, cost: 0 };
    return leversOf(it.index, base).together;
  });
  const ahead = later.reduce<readonly Mm[]>(
    (sum, it) => loomAhead(board, it, it.items).map((mm, yarn) => mm + (sum[yarn] ?? 0)),
    [],
  );
  const moves = movesInProportion(levers, target, ahead);
  if (moves.length === 0) return [];
  const wefts = later.flatMap((it) => {
    const own = moves.filter(({ lever }) => lever.piece === it.index);
    return own.length === 0 ? [] : [[it.index, withMoves(it.items, own)] as const];
  });
  const cost = moves.reduce((sum, { lever, size }) => sum + costOf(lever, size), 0);
  const plain = { way: 'proportion', motifs: 0, matched: false, dropped: 0 } as const;
  return [{ ...plain, cost, moved: moves.length, wefts: new Map(wefts) }];
}
