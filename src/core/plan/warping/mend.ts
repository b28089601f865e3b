/** What change of the warp order would spare the weaver a tie at the peg. */
import { mergeRuns, type Run } from '../../measure/runs.ts';
import { warpRuns } from '../geometry.ts';
import type { Letter, Plan } from '../plan.ts';
import type { Mend, RunChange } from './list.ts';

/** The mend for the tie whose first end has this index in the plan's order; null when there is none. */
export type MendAt = (firstEnd: number) => Mend | null;

/**
 * One end more of one colour and one fewer of its neighbour, so that neither run of the pair ends
 * inside a loop. The longer run gives, so that the least is seen; nothing mends two runs of one end.
 */
export function mendsOf(plan: Plan): MendAt {
  const runs = mergeRuns(warpRuns(plan.warp.order));
  const lastEnds = lastEndsOf(runs);
  // With several ends a dent a slot may hold more than two runs: no single change is sure to help.
  if (plan.loom.endsPerDent > 1) return () => null;
  return (firstEnd) => {
    const run = lastEnds.get(firstEnd);
    return run === undefined ? null : mendBetween(runs, run);
  };
}

/** The run that ends on an end, by the index of that end. */
function lastEndsOf(runs: readonly Run<Letter>[]): ReadonlyMap<number, number> {
  const ends = new Map<number, number>();
  let end = -1;
  runs.forEach(({ count }, run) => {
    end += count;
    ends.set(end, run);
  });
  return ends;
}

function mendBetween(runs: readonly Run<Letter>[], run: number): Mend | null {
  const [here, next] = [runs[run], runs[run + 1]];
  if (here === undefined || next === undefined) return null;
  if (here.count === 1 && next.count === 1) return null;
  const by = here.count > next.count ? -1 : 1;
  return [changed(here, run, by), changed(next, run + 1, -by)];
}

function changed({ of, count }: Run<Letter>, run: number, by: number): RunChange {
  return { run, yarn: of, ends: count, becomes: count + by };
}
