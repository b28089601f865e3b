/** A plan changed while weaving: the pieces from one on are others, and what is woven stays. */
import { checkPlan } from '../plan/checkPlan.ts';
import type { Piece } from '../plan/plan.ts';
import { type Course, layCourse } from './course.ts';
import { pieceAt, yarnAt } from './pickAt.ts';

/**
 * The course with its pieces from `from` on replaced; null where they do not make a plan, or where
 * they would change a pick that is woven.
 */
export function revisedCourse(
  course: Course,
  pick: number,
  from: number,
  pieces: readonly Piece[],
): Course | null {
  if (!Number.isSafeInteger(from) || from < 0 || from > course.plan.pieces.length) return null;
  if (!Array.isArray(pieces)) return null;
  const kept = course.plan.pieces.slice(0, from);
  const checked = checkPlan({ ...course.plan, pieces: [...kept, ...pieces] });
  if (!checked.ok) return null;
  const blocks = course.adjustments.blocks.filter((it) => it.piece < from);
  const next = layCourse(checked.value, { ...course.adjustments, blocks }, course.belief);
  return wovenIsSame(course, next, pick) ? next : null;
}

function wovenIsSame(course: Course, next: Course, pick: number): boolean {
  if (pick === 0) return true;
  if (next.picks < pick) return false;
  const [before, after] = [pieceAt(course, pick - 1), pieceAt(next, pick - 1)];
  const isSamePiece =
    before.index === after.index &&
    before.firstPick === after.firstPick &&
    before.startShed === after.startShed &&
    before.startSide === after.startSide;
  if (!isSamePiece) return false;
  for (let n = before.firstPick; n < pick; n++) {
    if (yarnAt(course, n) !== yarnAt(next, n)) return false;
  }
  return true;
}
