/**
 * Run-length sequences: stripes of a warp, turns of a weft. A run is `count` of the same thing in
 * a row; things are compared with ===. Every function that returns runs returns them *merged*: no
 * two equal neighbours, no empty run, so that the runs are the stripes that will be seen.
 */
export interface Run<T> {
  readonly of: T;
  /** A whole number from 0. */
  readonly count: number;
}

export type Runs<T> = readonly Run<T>[];

/** Whether a mirror turns on the centre run once, or weaves it again on the way back. */
export type MirrorCentre = 'shared' | 'doubled';

/** Equal neighbours made one run, empty runs dropped: A2 A1 B0 A1 → A4. */
export function mergeRuns<T>(runs: Runs<T>): Runs<T> {
  const merged: Run<T>[] = [];
  for (const run of runs) {
    assertCount(run.count);
    const last = merged.at(-1);
    if (run.count === 0) continue;
    if (last === undefined || last.of !== run.of) merged.push({ of: run.of, count: run.count });
    else merged[merged.length - 1] = { of: last.of, count: last.count + run.count };
  }
  return merged;
}

/** The same order `times` over, sharing nothing: A2 B2 twice → A2 B2 A2 B2. */
export function repeatRuns<T>(runs: Runs<T>, times: number): Runs<T> {
  assertCount(times);
  const merged = mergeRuns(runs);
  return mergeRuns(Array.from({ length: times }, () => merged).flat());
}

/** The order read from its other end. */
export function reverseRuns<T>(runs: Runs<T>): Runs<T> {
  return mergeRuns(runs.toReversed());
}

/** The order and its way back: A2 B3 → A2 B3 A2 with the centre shared, A2 B6 A2 with it doubled. */
export function mirrorRuns<T>(runs: Runs<T>, centre: MirrorCentre): Runs<T> {
  const there = mergeRuns(runs);
  const back = reverseRuns(there);
  return mergeRuns([...there, ...(centre === 'shared' ? back.slice(1) : back)]);
}

/**
 * One repeat of a mirrored order, from a half that runs from pivot to pivot: A4 B2 C6 → A4 B2 C6 B2.
 * Both pivots (the first and last run) stand once, so the repeat counts 2 × half − both pivots,
 * and repeated end to end it turns on A and on C. A half of one run is all pivot: itself.
 */
export function mirrorAtPivots<T>(half: Runs<T>): Runs<T> {
  const there = mergeRuns(half);
  return [...there, ...there.slice(1, -1).toReversed()];
}

/**
 * `times` repeats of a mirrored order, and its first pivot once more, so that it ends as it began:
 * A4 B2 C6 once → A4 B2 C6 B2 A4. Nothing at all when `times` is 0.
 */
export function closeAtPivot<T>(half: Runs<T>, times: number): Runs<T> {
  const repeat = mirrorAtPivots(half);
  // A single run has no second pivot to return from: its repeats are one stripe already.
  const pivot = times > 0 && repeat.length > 1 ? repeat.slice(0, 1) : [];
  return mergeRuns([...repeatRuns(repeat, times), ...pivot]);
}

/** Whether the stripes are the same from both ends: A2 B2 A2 are, A B C A are not. */
export function readsSameBothWays<T>(runs: Runs<T>): boolean {
  const there = mergeRuns(runs);
  const back = reverseRuns(there);
  return there.every((run, i) => run.of === back[i]?.of && run.count === back[i]?.count);
}

/** Whether the order ends on what it began with: A B C A does. An empty order does not. */
export function closes<T>(runs: Runs<T>): boolean {
  const merged = mergeRuns(runs);
  const [first, last] = [merged.at(0), merged.at(-1)];
  return first !== undefined && last !== undefined && first.of === last.of;
}

/** How many elements the runs hold together. */
export function totalOf<T>(runs: Runs<T>): number {
  return runs.reduce((total, run) => total + run.count, 0);
}

/** How many elements there are of each thing, in order of first use; they sum to the total. */
export function countsBy<T>(runs: Runs<T>): ReadonlyMap<T, number> {
  const counts = new Map<T, number>();
  for (const { of, count } of mergeRuns(runs)) counts.set(of, (counts.get(of) ?? 0) + count);
  return counts;
}

/** The first `n` elements, or all of them where there are fewer. */
export function takeFirst<T>(runs: Runs<T>, n: number): Runs<T> {
  assertCount(n);
  let left = n;
  const taken = runs.map(({ of, count }) => {
    const kept = Math.min(count, left);
    left -= kept;
    return { of, count: kept };
  });
  return mergeRuns(taken);
}

/** An order repeated over exactly `n` elements, the last repeat cut. Throws on an empty order. */
export function cycleTo<T>(runs: Runs<T>, n: number): Runs<T> {
  const total = totalOf(runs);
  if (total === 0 && n > 0) throw new RangeError(`got an empty order, wanted one to fill ${n}`);
  return n === 0 ? [] : takeFirst(repeatRuns(runs, Math.ceil(n / total)), n);
}

/** The thing at place `n`, counted from 0; nothing beyond either end. */
export function elementAt<T>(runs: Runs<T>, n: number): T | undefined {
  if (n < 0) return undefined;
  let left = n;
  for (const { of, count } of runs) {
    if (left < count) return of;
    left -= count;
  }
  return undefined;
}

/** Every element by itself: A2 B1 → A, A, B. */
export function expandRuns<T>(runs: Runs<T>): readonly T[] {
  return runs.flatMap(({ of, count }) => Array.from({ length: count }, () => of));
}

function assertCount(count: number): void {
  if (!Number.isSafeInteger(count) || count < 0) {
    throw new RangeError(`got a count of ${count}, wanted a whole number from 0`);
  }
}
