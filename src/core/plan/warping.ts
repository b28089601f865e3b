/**
 * From a plan the list its weaver warps from: loops through slots and then holes, or ends in groups.
 * Ticking off its steps one by one is the same as counting them, so the log keeps only a number.
 */
import type { Mm } from '../measure/length.ts';
import { countsBy, mergeRuns, totalOf } from '../measure/runs.ts';
import { warpRuns } from './geometry.ts';
import type { Letter, Plan } from './plan.ts';
import { holeSteps } from './warping/holes.ts';
import { CARRY_ON_BEAM } from './warping/joins.ts';
import type {
  FloatingSelvedges,
  SlotPlan,
  StepWork,
  Viewpoint,
  WarpingList,
  WarpingMethod,
  WarpingStep,
  WarpingWay,
  WarpingYarn,
} from './warping/list.ts';
import { loopSteps } from './warping/loops.ts';
import { mendsOf } from './warping/mend.ts';
import { oddPlacesOf } from './warping/oddPlaces.ts';
import { dentsPerMm, startOf } from './warping/places.ts';
import { directSlots } from './warping/slots.ts';
import { withTallies } from './warping/tally.ts';
import { threadSteps, threadsOf } from './warping/threads.ts';

export interface WarpingOptions {
  readonly method: WarpingMethod;
  /** The list runs left to right as seen from here. */
  readonly viewpoint: Viewpoint;
  /** As wound; the distance from the back beam to the peg. */
  readonly warpLength: Mm;
}

/** The methods a plan's loom allows: direct warping needs slots and holes. The first is the usual one. */
export function warpingMethods({ loom }: Plan): readonly WarpingMethod[] {
  return loom.kind === 'rigid-heddle' ? ['direct', 'ends'] : ['ends'];
}

/** How a warp is put on as long as its weaver has not said otherwise. */
export function usualWay(plan: Plan): WarpingWay {
  const [method = 'ends'] = warpingMethods(plan);
  const { viewpoint } = plan.warp;
  return { method, viewpoint, seenFrom: viewpoint };
}

/**
 * The whole list. Throws when the plan's loom cannot be warped by this method (`warpingMethods`).
 *
 * Example: 4 A, 4 B in a rigid heddle → set up; slots 1–2 A, 2 loops; slots 3–4 B, 2 loops; wind on;
 * from slots 1–4 one end each into the holes.
 */
export function warpingList(plan: Plan, options: WarpingOptions): WarpingList {
  if (!warpingMethods(plan).includes(options.method)) {
    throw new Error(`warpingList: got ${options.method} for a ${plan.loom.kind} loom`);
  }
  return options.method === 'direct' ? directList(plan, options) : threadedList(plan, options);
}

function directList(plan: Plan, options: WarpingOptions): WarpingList {
  const { slots, holeSide, singleFirst } = directSlots(plan, options.viewpoint);
  const mendAt = mendsOf(plan);
  const rules = { slotWidth: 2 / dentsPerMm(plan), carry: CARRY_ON_BEAM };
  const work: readonly StepWork[] = [
    ...loopSteps(slots, rules, mendAt),
    { phase: 'wind', kind: 'wind' },
    ...holeSteps(slots),
  ];
  const singles = slots.filter((slot) => slot.single !== null).length;
  const loops = slots.reduce((sum, slot) => sum + slot.loops.length + slot.ties.length, 0);
  return {
    ...common(plan, options, slots),
    loops,
    singles,
    start: startOf(plan, options, singleFirst),
    holeSide,
    slots,
    threads: [],
    steps: stepsOf(plan, work, slots),
    oddPlaces: oddPlacesOf(slots, mendAt),
  };
}

function threadedList(plan: Plan, options: WarpingOptions): WarpingList {
  const threads = threadsOf(plan, options.viewpoint);
  return {
    ...common(plan, options, []),
    loops: 0,
    singles: threads.length,
    start: startOf(plan, options, false),
    holeSide: null,
    slots: [],
    threads,
    steps: stepsOf(plan, threadSteps(threads, plan.loom.endsPerDent), []),
    oddPlaces: [],
  };
}

function common(
  plan: Plan,
  { method, viewpoint, warpLength }: WarpingOptions,
  slots: readonly SlotPlan[],
) {
  return {
    method,
    viewpoint,
    ends: totalOf(warpRuns(plan.warp.order)),
    pegDistance: warpLength,
    yarns: yarnsOf(plan, slots, warpLength),
    floating: floatingOf(plan, warpLength),
  };
}

function stepsOf(
  plan: Plan,
  work: readonly StepWork[],
  slots: readonly SlotPlan[],
): readonly WarpingStep[] {
  const yarn = plan.warp.floatingSelvedges?.yarn;
  const all: readonly StepWork[] = [
    { phase: 'setup', kind: 'setup' },
    ...work,
    ...(yarn === undefined ? [] : [{ phase: 'floating', kind: 'floating', yarn } as const]),
  ];
  const yarns = plan.yarns.map(({ letter }) => letter);
  return withTallies(
    all,
    yarns.filter((letter) => endsOfYarns(plan).has(letter)),
    slots,
  );
}

/** Ends of each yarn that has any, floating selvedges not counted. */
export function endsOfYarns(plan: Plan): ReadonlyMap<Letter, number> {
  return countsBy(mergeRuns(warpRuns(plan.warp.order)));
}

function yarnsOf(plan: Plan, slots: readonly SlotPlan[], warpLength: Mm): readonly WarpingYarn[] {
  const ends = endsOfYarns(plan);
  const loops = countsBy(slots.flatMap((slot) => slot.loops.map((of) => ({ of, count: 1 }))));
  return plan.yarns.flatMap(({ letter }) => {
    const count = ends.get(letter) ?? 0;
    if (count === 0) return [];
    const length = count * warpLength;
    return [{ yarn: letter, ends: count, loops: loops.get(letter) ?? 0, length }];
  });
}

function floatingOf(plan: Plan, warpLength: Mm): FloatingSelvedges | null {
  const yarn = plan.warp.floatingSelvedges?.yarn;
  return yarn === undefined ? null : { yarn, ends: 2, length: 2 * warpLength };
}
