/** What hangs in the heddle when so many steps are done: the picture beside the list. */
import type { Letter } from '../plan.ts';
import type { SlotPlan, WarpingList, WarpingStep } from './list.ts';

/** A slot or a hole of a rigid heddle. Slots and holes are numbered from 0, a hole with its slot. */
export interface Opening {
  readonly kind: 'slot' | 'hole';
  readonly index: number;
  /** The ends in it now. The step to do next already shows what it will bring. */
  readonly holds: readonly Letter[];
  /** The ends in it once the warp is on. */
  readonly willHold: readonly Letter[];
  /** Whether the step to do next concerns it. */
  readonly now: boolean;
}

/** Every slot and hole of the warp after `done` steps, in the list's order. Rigid heddles only. */
export function openingsAfter(list: WarpingList, done: number): readonly Opening[] {
  return list.method === 'direct' ? whileLooping(list, done) : whileThreading(list, done);
}

function whileLooping(list: WarpingList, done: number): readonly Opening[] {
  const reached = list.steps.slice(0, done + 1);
  const looped = reachedIn(reached, 'loops');
  const threaded = reachedIn(reached, 'holes');
  const step = list.steps[done];
  const wanted = step?.phase === 'loops' || step?.phase === 'holes' ? step : null;
  return list.slots.flatMap((slot, index) => {
    const now = wanted !== null && index >= wanted.from && index < wanted.to;
    const raw = index < looped ? endsInSlot(slot) : [];
    const isThreaded = index < threaded;
    const inSlot: Opening = {
      kind: 'slot',
      index,
      holds: isThreaded ? slot.stays : raw,
      willHold: slot.stays,
      now,
    };
    const inHole: Opening = {
      kind: 'hole',
      index,
      holds: isThreaded ? slot.moves : [],
      willHold: slot.moves,
      now: now && wanted?.phase === 'holes',
    };
    return list.holeSide === 'left' ? [inHole, inSlot] : [inSlot, inHole];
  });
}

/** Slots that a phase has reached, from the first on. */
function reachedIn(steps: readonly WarpingStep[], phase: 'loops' | 'holes'): number {
  const last = steps.findLast((step) => step.phase === phase);
  return last?.phase === 'loops' || last?.phase === 'holes' ? last.to : 0;
}

/** The ends of a slot before any of them goes to a hole or to a neighbour. */
function endsInSlot({ loops, ties, single }: SlotPlan): readonly Letter[] {
  const alone = single === null ? [] : [single];
  return [...loops.flatMap((yarn) => [yarn, yarn]), ...ties.flat(), ...alone];
}

function whileThreading(list: WarpingList, done: number): readonly Opening[] {
  const openings: { kind: Opening['kind']; index: number; ends: HeddleEnd[] }[] = [];
  for (const end of endsAfter(list, done)) {
    const { place } = end;
    if (place.kind === 'shaft') continue;
    const last = openings[openings.length - 1];
    if (last?.kind === place.kind && last.index === place.index) last.ends.push(end);
    else openings.push({ kind: place.kind, index: place.index, ends: [end] });
  }
  return openings.map(({ kind, index, ends }) => ({
    kind,
    index,
    holds: ends.filter((end) => end.laid).map((end) => end.yarn),
    willHold: ends.map((end) => end.yarn),
    now: ends.some((end) => end.now),
  }));
}

/** An end of a warp that is threaded end by end. */
export interface HeddleEnd {
  readonly yarn: Letter;
  readonly place: WarpingList['threads'][number]['place'];
  /** Threaded, or to be threaded by the step to do next. */
  readonly laid: boolean;
  readonly now: boolean;
}

/** Every end after `done` steps of threading, in the list's order. */
export function endsAfter(list: WarpingList, done: number): readonly HeddleEnd[] {
  const reached = list.steps.slice(0, done + 1).findLast((step) => step.kind === 'thread');
  const to = reached?.kind === 'thread' ? reached.to : 0;
  const step = list.steps[done];
  return list.threads.map(({ yarn, place }, end) => {
    const now = step?.kind === 'thread' && end >= step.from && end < step.to;
    return { yarn, place, laid: end < to, now };
  });
}
