/** Threading end by end: every end with its place, in groups small enough to tick off. */
import { expandRuns, mergeRuns, totalOf } from '../../measure/runs.ts';
import { warpRuns } from '../geometry.ts';
import type { Letter, Plan } from '../plan.ts';
import { ENDS_A_STEP, inBatches } from './batches.ts';
import type { DentRange, Thread, ThreadPlace, ThreadStep, Viewpoint } from './list.ts';
import { dentsUsed } from './places.ts';

/** The ends of a plan from left to right, as seen from `viewpoint`. */
export function threadsOf(plan: Plan, viewpoint: Viewpoint): readonly Thread[] {
  const ends = expandRuns(warpRuns(plan.warp.order));
  const turned = viewpoint !== plan.warp.viewpoint;
  const place = plan.loom.kind === 'shaft' ? shaftPlace(plan, turned) : heddlePlace(plan, turned);
  const threads = ends.map((yarn, end): Thread => ({ yarn, place: place(end) }));
  return turned ? threads.toReversed() : threads;
}

type PlaceOf = (end: number) => ThreadPlace;

/** Plain weave: shafts 1 and 2 by turns, end 1 of the plan on shaft 1. Common practice. */
function shaftPlace(plan: Plan, turned: boolean): PlaceOf {
  const dentOf = dentsFrom(plan, turned);
  return (end) => ({ kind: 'shaft', shaft: end % 2 === 0 ? 1 : 2, dent: dentOf(end) });
}

/** Slot and hole by turns; each slot and its hole, counted from the left, have one number. */
function heddlePlace(plan: Plan, turned: boolean): PlaceOf {
  const dentOf = dentsFrom(plan, turned);
  const slotIsEven = (plan.warp.firstEnd !== 'hole') !== (turned && dentsUsed(plan) % 2 === 0);
  return (end) => {
    const dent = dentOf(end);
    const kind = (dent % 2 === 0) === slotIsEven ? 'slot' : 'hole';
    return { kind, index: Math.floor(dent / 2) };
  };
}

/** The dent of an end of the plan, counted from the first of the warp as the list runs. */
function dentsFrom(plan: Plan, turned: boolean): (end: number) => number {
  const last = dentsUsed(plan) - 1;
  return (end) => {
    const dent = Math.floor(end / plan.loom.endsPerDent);
    return turned ? last - dent : dent;
  };
}

/** `each`: ends a dent. A long stripe is parted where both a dent and a pair of shafts or openings end. */
export function threadSteps(threads: readonly Thread[], each: number): readonly ThreadStep[] {
  const runs = mergeRuns(
    threads.map(({ yarn }): { of: Letter; count: number } => ({ of: yarn, count: 1 })),
  );
  let from = 0;
  return inBatches(runs, ENDS_A_STEP, each % 2 === 0 ? each : 2 * each).map((batch) => {
    const to = from + totalOf(batch);
    const group = threads.slice(from, to);
    const [first, last] = [group[0], group[group.length - 1]];
    if (first === undefined || last === undefined)
      throw new Error('threadSteps: got an empty group');
    const dents = dentRange(threads, from, to);
    const step = { from, to, runs: batch, first: first.place, last: last.place, dents };
    from = to;
    return { phase: 'thread', kind: 'thread', ...step };
  });
}

function dentRange(threads: readonly Thread[], from: number, to: number): DentRange | null {
  const [first, last] = [dentAt(threads, from), dentAt(threads, to - 1)];
  if (first === null || last === null) return null;
  return {
    from: first,
    to: last + 1,
    sharesFirst: dentAt(threads, from - 1) === first,
    sharesLast: dentAt(threads, to) === last,
  };
}

function dentAt(threads: readonly Thread[], end: number): number | null {
  const place = threads[end]?.place;
  return place?.kind === 'shaft' ? place.dent : null;
}
