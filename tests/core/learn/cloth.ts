/**
 * Cloth woven by chance: true shares that differ from warp to warp and from piece to piece, sizes
 * that follow from them by the table of states of cloth, and readings that stray, rounded to a
 * millimetre, as a log holds them. Written apart from what it checks.
 */
import type { Happening, LogEvent } from '../../../src/core/bench/events.ts';
import { logged } from '../bench/logs.ts';
import type { Dice } from './chance.ts';

/** How a yarn behaves on one loom, and how much that varies. */
export interface Nature {
  readonly drawIn: number;
  readonly relax: number;
  readonly shrinkLength: number;
  readonly shrinkWidth: number;
  readonly warpTaken: number;
  /** Standard deviations of each share. */
  readonly betweenWarps: number;
  readonly betweenPieces: number;
  /** Standard deviation of one reading, mm. */
  readonly reading: number;
}

export const SHARES = ['drawIn', 'relax', 'shrinkLength', 'shrinkWidth'] as const;
export type TrueShares = Readonly<Record<(typeof SHARES)[number], number>>;

export interface TruePiece {
  readonly shares: TrueShares;
  readonly loomLength: number;
  readonly washedLength: number;
  readonly washedWidth: number;
}

export interface TrueWarp {
  readonly pieces: readonly TruePiece[];
  readonly warpTaken: number;
  readonly log: readonly LogEvent[];
}

export interface Order {
  readonly pieces: number;
  readonly reed: number;
  /** Readings of each size. */
  readonly times: number;
}

export function weaveWarp(nature: Nature, order: Order, dice: Dice): TrueWarp {
  const ofWarp = sharesAbout(nature, nature.betweenWarps, dice);
  const pieces = Array.from({ length: order.pieces }, () => {
    const shares = sharesAbout(ofWarp, nature.betweenPieces, dice);
    const loomLength = dice.between(450, 1000);
    const off = loomLength * (1 - shares.relax);
    return {
      shares,
      loomLength,
      washedLength: off * (1 - shares.shrinkLength),
      washedWidth: order.reed * (1 - shares.drawIn) * (1 - shares.shrinkWidth),
    };
  });
  const ofWarps = Math.hypot(nature.betweenWarps, nature.betweenPieces);
  const warpTaken = nature.warpTaken + dice.normal(ofWarps);
  const taken = pieces.reduce((sum, it) => sum + it.loomLength, 0) * (1 + warpTaken);
  const read = (mm: number) => Math.round(mm + dice.normal(nature.reading));
  const gaps = pieces.slice(1).map(() => Math.round(150 + dice.normal(10)));
  const warpRead: Happening = {
    kind: 'warpRead',
    reading: 'warp',
    tiedOn: Math.round(taken + 200 + 300 + 150 * gaps.length + dice.normal(10)),
    frontWaste: Math.round(200 + dice.normal(10)),
    backWaste: Math.round(300 + dice.normal(10)),
    gaps,
  };
  const readings = pieces.flatMap((it, piece) => clothReads(it, piece, order, read));
  return { pieces, warpTaken, log: logged([...readings, warpRead]) };
}

function sharesAbout(mean: TrueShares, sd: number, dice: Dice): TrueShares {
  const about = (share: number) => share + dice.normal(sd);
  return {
    drawIn: about(mean.drawIn),
    relax: about(mean.relax),
    shrinkLength: about(mean.shrinkLength),
    shrinkWidth: about(mean.shrinkWidth),
  };
}

function clothReads(
  it: TruePiece,
  piece: number,
  { reed, times }: Order,
  read: (mm: number) => number,
): readonly Happening[] {
  const states = [
    { state: 'loom', length: it.loomLength, width: reed * (1 - it.shares.drawIn) },
    {
      state: 'off',
      length: it.loomLength * (1 - it.shares.relax),
      width: reed * (1 - it.shares.drawIn),
    },
    { state: 'washed', length: it.washedLength, width: it.washedWidth },
  ] as const;
  return states.flatMap(({ state, length, width }) =>
    Array.from({ length: times }, (_, n) => ({
      kind: 'clothRead' as const,
      reading: `${piece}-${state}-${n}`,
      piece,
      state,
      lengths: [read(length)],
      widths: [read(width)],
    })),
  );
}
