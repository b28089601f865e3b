/** The running check: how many ends and loops of every yarn there must be after each step. */
import type { Run } from '../../measure/runs.ts';
import type { Letter } from '../plan.ts';
import type { SlotPlan, StepWork, WarpingPhase, WarpingStep, YarnSoFar } from './list.ts';

/** Steps with their ids and counts. Counts begin anew with each phase: every end is touched in each. */
export function withTallies(
  work: readonly StepWork[],
  yarns: readonly Letter[],
  slots: readonly SlotPlan[],
): readonly WarpingStep[] {
  const none = yarns.map((yarn): YarnSoFar => ({ yarn, ends: 0, loops: 0 }));
  let phase: WarpingPhase = 'setup';
  let soFar: readonly YarnSoFar[] = none;
  return work.map((step, i) => {
    if (step.phase !== phase) soFar = none;
    phase = step.phase;
    soFar = added(soFar, addedBy(step, slots));
    return { ...step, id: `${i}-${step.kind}`, soFar };
  });
}

interface Addition {
  readonly yarn: Letter;
  readonly ends: number;
  readonly loops: number;
}

function added(soFar: readonly YarnSoFar[], more: readonly Addition[]): readonly YarnSoFar[] {
  const ends = new Map<Letter, number>();
  const loops = new Map<Letter, number>();
  for (const it of more) {
    ends.set(it.yarn, (ends.get(it.yarn) ?? 0) + it.ends);
    loops.set(it.yarn, (loops.get(it.yarn) ?? 0) + it.loops);
  }
  return soFar.map((it) => ({
    yarn: it.yarn,
    ends: it.ends + (ends.get(it.yarn) ?? 0),
    loops: it.loops + (loops.get(it.yarn) ?? 0),
  }));
}

function addedBy(step: StepWork, slots: readonly SlotPlan[]): readonly Addition[] {
  switch (step.kind) {
    case 'setup':
    case 'wind':
    case 'floating':
      return [];
    case 'loops':
      return step.round.map(({ of, count }) => {
        const loops = count * step.times;
        return { yarn: of, ends: 2 * loops, loops };
      });
    case 'tie':
      return step.yarns.map(oneEnd);
    case 'single':
      return [oneEnd(step.yarn)];
    case 'thread':
      return step.runs.map(endsIn);
    case 'move':
    case 'choose':
    case 'swap':
      return slots
        .slice(step.from, step.to)
        .flatMap(({ stays, moves }) => [...stays, ...moves].map(oneEnd));
  }
}

function oneEnd(yarn: Letter): Addition {
  return { yarn, ends: 1, loops: 0 };
}

function endsIn({ of, count }: Run<Letter>): Addition {
  return { yarn: of, ends: count, loops: 0 };
}
