/** The lengths of one piece in every state of cloth. */
import { offLength, washedLength } from '../measure/clothState.ts';
import type { Mm } from '../measure/length.ts';
import { sharesOf, turnedUnder } from './geometry.ts';
import type { Piece, Plan, Wish } from './plan.ts';

/** The lengths of one piece in every state that a wish can name. */
export type PieceLengths = { readonly [state in Wish['state']]: Mm };

/** Lengths in every state of a piece woven to a loom length; finished is without both allowances. */
export function pieceLengths(plan: Plan, piece: Piece, loom: Mm): PieceLengths {
  const shares = sharesOf(plan);
  const washed = washedLength(loom, shares);
  const finished = washed - turnedUnder(piece.beginning) - turnedUnder(piece.ending);
  return { loom, off: offLength(loom, shares), washed, finished };
}
