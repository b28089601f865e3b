/** One piece more on the warp that is left, woven by eye. */
import { LIMITS } from '../../plan/limits.ts';
import type { Piece } from '../../plan/plan.ts';
import type { Progress } from '../progress.ts';

/**
 * A piece to follow the last one, as long as it comes, with the edges of the last; null as long as
 * the plan says what comes next, or where a warp holds no more.
 */
export function onePieceMore({ course, pick, cutOff }: Progress): Piece | null {
  const { pieces } = course.plan;
  const last = pieces[pieces.length - 1];
  if (last === undefined || cutOff || pick < course.picks || pieces.length >= LIMITS.pieces)
    return null;
  const { wish: _, ...like } = last;
  return { ...like, name: freeName(pieces), weft: [{ kind: 'free' }] };
}

function freeName(pieces: readonly Piece[]): string {
  const taken = new Set(pieces.map((piece) => piece.name));
  let n = pieces.length + 1;
  while (taken.has(`Piece ${n}`)) n++;
  return `Piece ${n}`;
}
