/**
 * Pieces woven alike: the stripes of one are those of an earlier one, only farther along. A set of
 * towels is laid as fast as one of them.
 */
import { firstAlike } from '../plan/alike.ts';
import type { Piece, Plan } from '../plan/plan.ts';
import { type Adjustments, isAdjusted } from './adjustments.ts';
import type { CourseBlock, CoursePiece } from './course.ts';
import { openBlock } from './rests.ts';
import type { Stripes } from './stripes.ts';

interface Ground {
  readonly plan: Plan;
  readonly blocks: readonly CourseBlock[];
  readonly adjustments: Adjustments;
}

/**
 * For each piece an earlier one with the same turns and nothing changed or left open by the weaver in
 * either; undefined where there is none.
 */
export function likesOf(
  { plan, blocks, adjustments }: Ground,
  pieces: readonly CoursePiece[],
): readonly (CoursePiece | undefined)[] {
  const first = firstAlike(plan.pieces);
  const isAsPlanned = (piece: CoursePiece) =>
    !isAdjusted(adjustments, piece) && openBlock({ blocks }, piece) === undefined;
  return pieces.map((piece) => {
    const like = pieces[plan.pieces.indexOf(first[piece.index] as Piece)];
    if (like === undefined || like === piece) return undefined;
    return isAsPlanned(like) && isAsPlanned(piece) ? like : undefined;
  });
}

type Settled = Pick<
  Stripes,
  | 'fromSide'
  | 'restSide'
  | 'entry'
  | 'rest'
  | 'catchEvery'
  | 'edge'
  | 'previous'
  | 'next'
  | 'ofPieces'
>;

/** Fills in what follows from the turns of `piece`, whose stripes have their places, from those of `like`. */
export function settleLike(stripes: Settled, like: CoursePiece, piece: CoursePiece): void {
  const from = stripes.ofPieces[like.index];
  const to = stripes.ofPieces[piece.index];
  if (from === undefined || to === undefined || from.stripes !== to.stripes)
    throw new Error(`settleLike: got pieces ${like.index} and ${piece.index}, wanted two alike`);
  const { fromSide, restSide, entry, rest, catchEvery, edge, previous, next } = stripes;
  const [start, end] = [from.firstStripe, from.firstStripe + from.stripes];
  for (const each of [fromSide, restSide, entry, rest, catchEvery, edge, previous, next])
    each.copyWithin(to.firstStripe, start, end);
  const along = to.firstStripe - start;
  for (const each of [previous, next]) {
    for (let r = to.firstStripe; r < to.firstStripe + to.stripes; r++) {
      const other = each[r] ?? -1;
      if (other >= 0) each[r] = other + along;
    }
  }
}
