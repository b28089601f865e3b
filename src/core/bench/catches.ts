/** Which resting yarns are caught round the working one, and with which pick. */
import type { Side } from '../plan/plan.ts';
import { fromSideOf } from './atStripe.ts';
import type { Course, CoursePiece } from './course.ts';
import { lastOfYarn } from './milestones.ts';
import type { PickPlace } from './parked.ts';
import { sideOf } from './stripes.ts';

/**
 * Yarns resting in `catch` mode to be caught with this pick: the working shuttle leaves from the side
 * they rest on, for the first time since another k picks were up.
 */
export function catchesAt(
  course: Course,
  piece: CoursePiece,
  { pick, stripe, from }: PickPlace,
): readonly number[] {
  const { stripes } = course;
  const caught: number[] = [];
  for (let yarn = 0; yarn < stripes.yarns; yarn++) {
    const last = lastOfYarn(stripes, yarn, stripe);
    if (last < piece.firstStripe || last === stripe) continue;
    const every = stripes.catchEvery[last] ?? 0;
    if (every === 0) continue;
    const left = stripes.firstPick[last + 1] ?? 0;
    const side = sideOf(stripes.restSide[last] ?? 0);
    if (side !== from) continue;
    const passed = lastPassOf(course, side, stripe, pick, left);
    if (Math.floor((pick - left) / every) > Math.floor((passed - left) / every)) caught.push(yarn);
  }
  return caught;
}

/** The latest pick before `pick`, but not before `first`, thrown from `side`; `first` if there is none. */
function lastPassOf(
  course: Course,
  side: Side,
  stripe: number,
  pick: number,
  first: number,
): number {
  let at = stripe;
  for (let back = pick - 1; back > first; back--) {
    if (back < (course.stripes.firstPick[at] ?? 0)) at--;
    if (fromSideOf(course.stripes, at, back) === side) return back;
  }
  return first;
}
