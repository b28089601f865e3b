/** Work cut into groups small enough to tick off. */
import type { Run, Runs } from '../../measure/runs.ts';

/** As many ends, or loops of so many ends, as one tick stands for: counted at one go, and found again. */
export const ENDS_A_STEP = 24;

/**
 * `total` in as few parts as hold at most `most` each, nearly even, larger first: 40 by 12 → 4 × 10.
 * With a unit every part but the last is whole units, so that none ends inside a dent.
 */
export function evenParts(total: number, most: number, unit = 1): readonly number[] {
  const units = Math.ceil(total / unit);
  const parts = Math.ceil(units / Math.max(1, Math.floor(most / unit)));
  const size = Math.floor(units / parts);
  const larger = units - size * parts;
  const over = units * unit - total;
  return Array.from(
    { length: parts },
    (_, i) => unit * (i < larger ? size + 1 : size) - (i === parts - 1 ? over : 0),
  );
}

/**
 * Runs in groups of at most `most` together. Short runs stay whole and share a group; a longer one
 * is cut into nearly even groups of its own, so that a group never begins in the middle of a stripe
 * unless the stripe is too long for one.
 */
export function inBatches<T>(runs: Runs<T>, most: number, unit = 1): readonly Runs<T>[] {
  const batches: Run<T>[][] = [];
  let open: Run<T>[] = [];
  let room = most;
  const close = () => {
    if (open.length > 0) batches.push(open);
    open = [];
    room = most;
  };
  for (const run of runs) {
    if (run.count > room) close();
    if (run.count > most) {
      for (const count of evenParts(run.count, most, unit)) batches.push([{ of: run.of, count }]);
      continue;
    }
    open.push(run);
    room -= run.count;
  }
  close();
  return batches;
}

/** Runs that come so many times in a row: B8 C2 B2 C2 B2 → B8 once, C2 B2 twice. */
export interface Rounds<T> {
  readonly round: Runs<T>;
  readonly times: number;
}

/** Rounds of two to four runs are seen as one; longer ones nobody keeps in mind at the loom. */
const SIZES = [2, 3, 4] as const;

/** Merged runs told shorter where they repeat themselves; laid out again they are the same runs. */
export function inRounds<T>(runs: Runs<T>): readonly Rounds<T>[] {
  const rounds: Rounds<T>[] = [];
  for (let i = 0; i < runs.length; ) {
    const next = roundAt(runs, i, Number.POSITIVE_INFINITY);
    rounds.push(next);
    i += next.times * next.round.length;
  }
  return rounds;
}

/**
 * The shortest round that comes at least twice from run `i` on, of runs of at most `longest`; else
 * that one run once.
 */
export function roundAt<T>(runs: Runs<T>, i: number, longest: number): Rounds<T> {
  for (const size of SIZES) {
    const round = runs.slice(i, i + size);
    if (round.length < size || round.some((run) => run.count > longest)) continue;
    let times = 1;
    while (round.every((run, k) => same(run, runs[i + times * size + k]))) times++;
    if (times > 1) return { round, times };
  }
  return { round: runs.slice(i, i + 1), times: 1 };
}

function same<T>(a: Run<T>, b: Run<T> | undefined): boolean {
  return b !== undefined && a.of === b.of && a.count === b.count;
}
