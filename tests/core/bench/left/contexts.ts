/** What the accounts are asked with in tests: a warp as planned and a cloth known without a doubt. */
import { NO_ADJUSTMENTS } from '../../../../src/core/bench/adjustments.ts';
import { type Course, layCourse } from '../../../../src/core/bench/course.ts';
import type {
  BelievedLength,
  TiedOn,
  WarpContext,
  YarnContext,
} from '../../../../src/core/bench/left/left.ts';
import { startOf } from '../../../../src/core/bench/progress.ts';
import type { Plan } from '../../../../src/core/plan/plan.ts';

export const courseOf = (plan: Plan): Course => layCourse(plan, NO_ADJUSTMENTS);

/** The warp as wound for the plan. */
export const tiedOnAsPlanned = (plan: Plan): TiedOn => startOf(plan).tiedOn;

export const sure = (mm: number): BelievedLength => ({ mm, low: mm, high: mm, sd: 0 });

/** Woven lengths of all pieces when `pick` picks are thrown, summed up pick by pick. */
export function wovenByHand(course: Course, pick: number): readonly number[] {
  const { turns, pieces, blocks } = course;
  const lengths = pieces.map(() => 0);
  for (let turn = 0; turn < turns.count; turn++) {
    const piece = blocks[turns.block[turn] ?? 0]?.piece ?? 0;
    for (let n = turns.firstPick[turn] ?? 0; n < (turns.firstPick[turn + 1] ?? 0); n++) {
      if (n < pick) lengths[piece] = (lengths[piece] ?? 0) + (turns.spacing[turn] ?? 0);
    }
  }
  return lengths;
}

/** The warp as wound, the cloth woven exactly as the course has it. */
export function warpContext(
  course: Course,
  pick: number,
  changes: Partial<WarpContext> = {},
): WarpContext {
  return {
    tiedOn: tiedOnAsPlanned(course.plan),
    woven: wovenByHand(course, pick).map(sure),
    ahead: () => 0,
    ...changes,
  };
}

export function yarnContext(plan: Plan, changes: Partial<YarnContext> = {}): YarnContext {
  return { tiedOn: tiedOnAsPlanned(plan), weighings: [], bobbins: [], ...changes };
}
