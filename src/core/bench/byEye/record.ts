/** What was thrown in a part woven by eye, and how that lies in the course. */
import { mergeRuns, type Runs, takeFirst, totalOf } from '../../measure/runs.ts';
import { type LaidBlock, picksOf, withPicks } from '../../plan/blocks.ts';

/** The picks of one free part, in weaving order. */
export interface FreeRecord {
  readonly piece: number;
  /** Counted from 0 inside the piece. */
  readonly block: number;
  /** By yarn index, neighbours merged. */
  readonly runs: Runs<number>;
  readonly isEnded: boolean;
}

/**
 * The free part as it lies in the course. Until it is ended one pick more stands at its end for the
 * one to throw next: of the yarn last thrown, here or before it, since that is the likeliest.
 */
export function laidByEye(
  base: LaidBlock,
  record: Pick<FreeRecord, 'runs' | 'isEnded'>,
  yarnBefore: number,
): LaidBlock {
  const { isOpen, ...closed } = base;
  const { runs, isEnded } = record;
  const next = { of: runs.at(-1)?.of ?? yarnBefore, count: 1 };
  const laid = isEnded ? runs : mergeRuns([...runs, next]);
  const shown = laid.length === 0 ? [next] : laid;
  return {
    ...closed,
    period: { yarns: shown.map((run) => run.of), picks: shown.map((run) => run.count) },
    firstTurn: 0,
    turns: laid.length,
    ...(isEnded ? {} : { isOpen: true as const }),
  };
}

/** A laid block without the pick that only stands for the next one by eye. */
export function thrownOnly(laid: LaidBlock): LaidBlock {
  if (!laid.isOpen) return laid;
  const { isOpen, ...closed } = laid;
  return withPicks(closed, picksOf(laid) - 1);
}

/** The records once picks were taken out so that so many of each part are left: such a part goes on. */
export function withoutPicksAfter(
  records: readonly FreeRecord[],
  picksLeft: (record: FreeRecord) => number,
): readonly FreeRecord[] {
  return records.flatMap((record) => {
    const [picks, left] = [totalOf(record.runs), picksLeft(record)];
    if (left > 0 && left < picks)
      return [{ ...record, runs: takeFirst(record.runs, left), isEnded: false }];
    // Ended without a pick it stays ended, unless the cloth before it was taken out too.
    return left >= picks && (picks > 0 || (record.isEnded && left >= 0)) ? [record] : [];
  });
}
