/** From any screen to what can be printed of its warp, and back. */
import { batch } from '@preact/signals';
import { NO_ADJUSTMENTS } from '../core/bench/adjustments.ts';
import { layCourse } from '../core/bench/course.ts';
import { duesOf } from '../core/bench/dues.ts';
import type { Progress } from '../core/bench/progress.ts';
import type { Plan } from '../core/plan/plan.ts';
import { showWarps } from './actions.ts';
import { notice, type PaperJob, screen } from './state.ts';

/** A warp as it stands: with what was changed and measured at the loom. */
export function printWarp({ course, dues, warpingWay }: Progress): void {
  show({ course, dues, way: warpingWay, back: screen.peek() });
}

/** A plan that is not on the loom yet. */
export function printPlan(plan: Plan): void {
  const course = layCourse(plan, NO_ADJUSTMENTS);
  show({ course, dues: duesOf(course), way: null, back: screen.peek() });
}

function show(job: PaperJob): void {
  batch(() => {
    notice.value = null;
    screen.value = { kind: 'paper', job };
  });
}

export function leavePaper({ back }: PaperJob): void {
  if (back.kind === 'warps') void showWarps();
  else screen.value = back;
}
