/** A piece to weave once more as it was woven, not as it was meant. */
import { thrownOnly } from '../../bench/byEye/record.ts';
import type { Course } from '../../bench/course.ts';
import { pieceAsWoven, pieceOf } from '../../bench/endings/woven/asWoven.ts';
import { partsOf } from '../../bench/endings/woven/parts.ts';
import { type LaidBlock, picksOf, withPicks } from '../../plan/blocks.ts';
import type { Piece } from '../../plan/plan.ts';

/**
 * The piece with the picks it has in the cloth, the fell lying before `pick`; of one that is not done
 * what is woven of it. Null where nothing of its weft is woven yet.
 */
export function asWoven(course: Course, piece: number, pick: number): Piece | null {
  const it = course.pieces[piece];
  const planned = course.plan.pieces[piece];
  if (it === undefined || planned === undefined) return null;
  const { beginning, weft, ending } = partsOf(course, piece);
  if (!weft.some((block) => picksOf(block.laid) > 0 && block.firstPick < pick)) return null;
  if (pick >= it.firstPick + it.picks) return pieceAsWoven(course, piece);
  const far = (laid: LaidBlock, firstPick: number, picks: number) =>
    pick >= firstPick + picks ? laid : withPicks(thrownOnly(laid), Math.max(0, pick - firstPick));
  const begun = ending !== null && pick > ending.firstPick ? ending.laid : null;
  return pieceOf(course.plan, planned, {
    beginning: beginning?.laid ?? null,
    weft: weft.map(({ laid, firstPick, picks }) => far(laid, firstPick, picks)),
    ending: begun,
  });
}
