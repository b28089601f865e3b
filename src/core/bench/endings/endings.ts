/** Every sensible way to end a piece from here (design §4, "Endings"). Loaded when asked for, never with the bench. */
import { checkPlan } from '../../plan/checkPlan.ts';
import type { Plan } from '../../plan/plan.ts';
import type { Course } from '../course.ts';
import type { EndingContext } from './context.ts';
import type { Endings, Stop } from './ending.ts';
import { fitsOf } from './fits/fits.ts';
import { reckoningOf } from './reckoning.ts';
import { planWith } from './revision.ts';
import { stopsOf } from './stops.ts';

/**
 * Stops and fits of the piece `context.piece`, the fell lying before `pick` of the course. Each can
 * be taken as it stands: its revision makes a sound plan in which no woven pick is another. Throws
 * when the course has no such piece.
 */
export function endingsOf(course: Course, pick: number, context: EndingContext): Endings {
  const reckoning = reckoningOf(course, pick, context);
  return { stops: soundStops(course.plan, stopsOf(reckoning)), fits: fitsOf(reckoning) };
}

/**
 * A stop is the beginning of every later one, and whatever a plan may not have it has too much of: so
 * the last one that makes a sound plan says that all before it do.
 */
function soundStops(plan: Plan, stops: readonly Stop[]): readonly Stop[] {
  const last = stops.findLastIndex((stop) => checkPlan(planWith(plan, stop.revision())).ok);
  return stops.slice(0, last + 1);
}
