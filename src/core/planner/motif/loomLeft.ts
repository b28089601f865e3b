/** How much of a piece is still to be woven. */
import type { Course } from '../../bench/course.ts';
import { partsOf } from '../../bench/endings/woven/parts.ts';
import { pieceAt } from '../../bench/pickAt.ts';
import { lengthOfPiece } from '../../bench/tape.ts';
import type { Mm } from '../../measure/length.ts';
import { weftRoom } from './intoPlan.ts';

/**
 * Loom length from the fell to the end of the weft of its piece, hem not included: as the course has
 * it, or for a part by eye without a length up to the wish; 0 where nothing is left.
 */
export function loomLeft(course: Course, pick: number): Mm {
  const piece = pieceAt(course, pick);
  const { beginning, ending } = partsOf(course, piece.index);
  const at = (n: number) => lengthOfPiece(course, piece, n);
  const last = piece.firstPick + piece.picks;
  const [open] = course.open.filter((it) => it >= piece.firstPick && it < last);
  // The pick that stands for the next one by eye is no length to weave.
  const standIn = open === undefined || piece.unseen > 0 ? 0 : at(open + 1) - at(open);
  const end = piece.loomLength - (ending?.loomLength ?? 0) - standIn;
  const wished = (beginning?.loomLength ?? 0) + weftRoom(course.plan, piece.index);
  const isWished = course.plan.pieces[piece.index]?.wish !== undefined;
  const isByWish = open !== undefined && piece.unseen === 0 && isWished;
  return Math.max(0, (isByWish ? wished : end) - at(pick));
}
