/** Everything about one pick, against only finding its run. */
import { NO_ADJUSTMENTS } from '../../../src/core/bench/adjustments.ts';
import { type Course, layCourse } from '../../../src/core/bench/course.ts';
import { pickAt } from '../../../src/core/bench/pickAt.ts';
import { largePlan } from './layPlan.ts';
import type { Pair } from './pair.ts';

/** Picks asked for in one run, spread over the whole warp out of order. */
const ASKED = 20_000;
/** Prime, so that the picks asked for do not fall into the rhythm of the pattern. */
const STRIDE = 7_919;

interface RunOfPicks {
  readonly from: number;
  readonly yarn: number;
}

export const pickFacts: Pair = {
  what: 'everything derived at pick n',
  against: 'a binary search in an array of the same runs',
  unit: 'µs',
  limits: [{ kind: 'ratio', most: 3 }],
  prepare: () => {
    const course = layCourse(largePlan(), NO_ADJUSTMENTS);
    const runs = runsOf(course);
    const asked = Array.from({ length: ASKED }, (_, i) => (i * STRIDE) % course.picks);
    // The sums are what somebody could look at, so that no answer can be left out.
    const ours = () => asked.reduce((sum, pick) => sum + (pickAt(course, pick)?.yarn ?? 0), 0);
    const floor = () => asked.reduce((sum, pick) => sum + (runAt(runs, pick)?.yarn ?? 0), 0);
    if (ours() !== floor()) throw new Error('pickFacts: the two find different yarns');
    return { ours, floor, times: ASKED };
  },
};

function runsOf({ stripes }: Course): readonly RunOfPicks[] {
  return Array.from({ length: stripes.count }, (_, i) => ({
    from: stripes.firstPick[i] ?? 0,
    yarn: stripes.yarn[i] ?? 0,
  }));
}

function runAt(runs: readonly RunOfPicks[], pick: number): RunOfPicks | undefined {
  let low = 0;
  let high = runs.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    const run = runs[middle];
    if (run !== undefined && run.from <= pick) low = middle + 1;
    else high = middle;
  }
  return runs[low - 1];
}
