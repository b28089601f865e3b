/** A record of picks as the search reads it: merged runs, and where each of them begins. */
import { mergeRuns, type Runs } from '../../../measure/runs.ts';
import type { Letter } from '../../../plan/plan.ts';
import { lastAtOrBefore } from '../../search.ts';

/** Cuts are places between picks, counted from 0 to `picks`. */
export interface Strip {
  readonly letters: readonly Letter[];
  readonly runs: number;
  readonly picks: number;
  /** Of each run: index of its yarn in `letters`, its picks, and the cut before it (one entry more: the end). */
  readonly yarn: Int32Array;
  readonly count: Int32Array;
  readonly start: Int32Array;
}

/**
 * The strip of a record, empty runs dropped and equal neighbours merged. Throws a RangeError for a count that
 * is no whole number from 0.
 */
export function stripOf(record: Runs<Letter>): Strip {
  const merged = mergeRuns(record);
  const letters = [...new Set(merged.map((run) => run.of))];
  const start = new Int32Array(merged.length + 1);
  for (const [i, run] of merged.entries()) start[i + 1] = (start[i] ?? 0) + run.count;
  return {
    letters,
    runs: merged.length,
    picks: start[merged.length] ?? 0,
    yarn: Int32Array.from(merged, (run) => letters.indexOf(run.of)),
    count: Int32Array.from(merged, (run) => run.count),
    start,
  };
}

/** The run of the pick after a cut; at the very end one run more than there are. */
export function runAfter(strip: Strip, cut: number): number {
  return lastAtOrBefore(strip.start, strip.runs + 1, cut);
}

/** The cut before a run; for one run more than there are, the end of the strip. */
export function startOf(strip: Strip, run: number): number {
  return strip.start[run] ?? 0;
}

/** Whether two runs are of one yarn and as many picks. */
export function sameRun(strip: Strip, one: number, other: number): boolean {
  return strip.yarn[one] === strip.yarn[other] && strip.count[one] === strip.count[other];
}

/** Whether a cut lies inside a run instead of between two. */
export function insideRun(strip: Strip, cut: number): boolean {
  return startOf(strip, runAfter(strip, cut)) !== cut;
}

/** How many picks of two runs agree from the edges that face each other or away: their yarn's smaller count. */
export function agreeing(strip: Strip, one: number, other: number): number {
  if (one < 0 || other < 0 || one >= strip.runs || other >= strip.runs) return 0;
  if (strip.yarn[one] !== strip.yarn[other]) return 0;
  return Math.min(strip.count[one] ?? 0, strip.count[other] ?? 0);
}
