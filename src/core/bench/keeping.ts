/** What of a folded log is kept for later, and how it is known again. The bench starts without. */
import type { Plan } from '../plan/plan.ts';
import { NO_ADJUSTMENTS } from './adjustments.ts';
import type { Course } from './course.ts';
import type { LogEvent } from './events.ts';
import { AS_PLANNED } from './gauge.ts';
import { type Kept, keptNear, type PlainProgress } from './kept.ts';
import type { Progress } from './progress.ts';

/** Events after what is kept beyond which it is worth to keep more. */
const FAR = 400;

/** What to keep of a log that has grown: the same until it lies far back. */
export function keptOn(
  plan: Plan,
  log: readonly LogEvent[],
  kept: Kept | null,
  { course }: Progress,
): Kept | null {
  if (log.length - (kept?.events ?? 0) < FAR) return kept;
  const near = keptNear(plan, log, kept, isAsPlanned(course, plan) ? course : undefined);
  return near === null || near.events === kept?.events ? kept : near;
}

/** Whether the weaver and the readings have changed nothing yet. */
function isAsPlanned(course: Course, plan: Plan): boolean {
  return (
    course.plan === plan && course.adjustments === NO_ADJUSTMENTS && course.belief === AS_PLANNED
  );
}

/** What must be stored of a progress whose log is folded to the end; `progressFrom` lays the rest anew. */
export function plainOf({ course, dues: _, gathered: __, ...rest }: Progress): PlainProgress {
  const { plan, adjustments, belief } = course;
  return { ...rest, plan, adjustments, belief };
}

/** A check value of the ids of the first events: two logs that share them have been folded alike. */
export function sumOfIds(log: readonly LogEvent[], events: number): number {
  let sum = 0x811c9dc5;
  for (let n = 0; n < events; n++) {
    const id = log[n]?.id ?? '';
    for (let i = 0; i < id.length; i++) sum = Math.imul(sum ^ id.charCodeAt(i), 0x01000193);
    sum = Math.imul(sum ^ 0xff, 0x01000193);
  }
  return sum >>> 0;
}
