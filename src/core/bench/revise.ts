/** A plan changed while weaving: the pieces from one on are others, and what is woven stays. */
import { countLaidBlocks, countPicks } from '../plan/count.ts';
import { LIMITS } from '../plan/limits.ts';
import type { Piece, Plan } from '../plan/plan.ts';
import { type Course, layCourse } from './course.ts';
import { pieceAt, yarnAt } from './pickAt.ts';

/**
 * The course with its pieces from `from` on replaced; null where they cannot be laid, or where they
 * would change a pick that is woven. Whoever writes the event has checked the plan; a log from
 * elsewhere is checked when it is read.
 */
export function revisedCourse(
  course: Course,
  pick: number,
  from: number,
  pieces: readonly Piece[],
): Course | null {
  if (!Number.isSafeInteger(from) || from < 0 || from > course.plan.pieces.length) return null;
  try {
    const plan = { ...course.plan, pieces: [...course.plan.pieces.slice(0, from), ...pieces] };
    if (isBeyondLimits(plan)) return null;
    const blocks = course.adjustments.blocks.filter((it) => it.piece < from);
    const free = course.adjustments.free.filter((it) => it.piece < from);
    const next = layCourse(plan, { ...course.adjustments, blocks, free }, course.belief);
    return wovenIsSame(course, next, pick) ? next : null;
  } catch {
    return null;
  }
}

/** What would take too long to lay is no plan. */
function isBeyondLimits(plan: Plan): boolean {
  const picks = plan.pieces.reduce((sum, piece) => sum + countPicks(plan, piece), 0);
  const blocks = plan.pieces.reduce((sum, piece) => sum + countLaidBlocks(piece.weft), 0);
  return !(plan.pieces.length > 0 && picks <= LIMITS.totalPicks && blocks <= LIMITS.laidBlocks);
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
