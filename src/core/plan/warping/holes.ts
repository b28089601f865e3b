/** The second phase of direct warping: from the slots into the holes, as steps to tick off. */
import { mergeRuns } from '../../measure/runs.ts';
import type { Letter } from '../plan.ts';
import { ENDS_A_STEP, evenParts, inBatches } from './batches.ts';
import type { ChooseStep, MoveStep, Openings, SlotPlan, SwapStep } from './list.ts';

export type HolePhaseStep = MoveStep | ChooseStep | SwapStep;

const SLOTS_A_STEP = ENDS_A_STEP / 2;

/** Slots that are threaded alike, one (or two, for a swap) at a time. */
interface Unit {
  readonly kind: HolePhaseStep['kind'];
  readonly slots: readonly SlotPlan[];
  /** Equal in units that may share a step; moves of all colours may. */
  readonly alike: string;
}

/** Steps in the order of the slots. */
export function holeSteps(slots: readonly SlotPlan[]): readonly HolePhaseStep[] {
  const steps: HolePhaseStep[] = [];
  let from = 0;
  for (const units of stretchesOf(unitsOf(slots))) {
    for (const part of partsOf(units)) {
      const step = stepOf(part, from);
      steps.push(step);
      from = step.to;
    }
  }
  return steps;
}

function unitsOf(slots: readonly SlotPlan[]): readonly Unit[] {
  return slots.flatMap((slot, k) => {
    if (slot.swap?.with === 'previous') return [];
    const next = slots[k + 1];
    return slot.swap !== null && next !== undefined
      ? [unit('swap', [slot, next])]
      : [unit(isOfOneColour(slot) ? 'move' : 'choose', [slot])];
  });
}

function unit(kind: Unit['kind'], slots: readonly SlotPlan[]): Unit {
  const alike = kind === 'move' ? '' : JSON.stringify(slots.map(openingsOf));
  return { kind, slots, alike: `${kind} ${alike}` };
}

/** Whole slots of one colour; where an end is missing, the weaver has to be told which one is there. */
function isOfOneColour({ stays, moves }: SlotPlan): boolean {
  const [first] = stays;
  return stays.length === moves.length && [...stays, ...moves].every((yarn) => yarn === first);
}

function openingsOf({ stays, moves }: SlotPlan): Openings {
  return { stays, moves };
}

function stretchesOf(units: readonly Unit[]): readonly (readonly Unit[])[] {
  const stretches: Unit[][] = [];
  for (const it of units) {
    const last = stretches[stretches.length - 1];
    if (last?.[0]?.alike === it.alike) last.push(it);
    else stretches.push([it]);
  }
  return stretches;
}

/** A stretch in parts small enough to tick. Moves are parted where the colour changes. */
function partsOf(units: readonly Unit[]): readonly (readonly Unit[])[] {
  const most = SLOTS_A_STEP / (units[0]?.slots.length ?? 1);
  const sizes =
    units[0]?.kind === 'move'
      ? inBatches(runsOf(units), most).map((batch) => batch.reduce((sum, it) => sum + it.count, 0))
      : evenParts(units.length, most);
  let at = 0;
  return sizes.map((size) => {
    const part = units.slice(at, at + size);
    at += size;
    return part;
  });
}

function runsOf(units: readonly Unit[]) {
  return mergeRuns(
    units.map(({ slots }) => ({ of: slots[0]?.stays[0] ?? ('' as Letter), count: 1 })),
  );
}

function stepOf(units: readonly Unit[], from: number): HolePhaseStep {
  const [first] = units;
  const [here, next] = first?.slots ?? [];
  if (first === undefined || here === undefined) throw new Error('stepOf: wanted a unit, got none');
  const place = { from, to: from + units.length * first.slots.length };
  if (first.kind === 'move') return { phase: 'holes', kind: 'move', ...place, runs: runsOf(units) };
  if (first.kind === 'choose' || next === undefined || here.swap === null)
    return { phase: 'holes', kind: 'choose', ...place, ...openingsOf(here) };
  return {
    phase: 'holes',
    kind: 'swap',
    ...place,
    gives: here.swap.gives,
    takes: here.swap.takes,
    first: openingsOf(here),
    second: openingsOf(next),
  };
}
