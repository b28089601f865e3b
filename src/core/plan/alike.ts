/** Pieces woven alike: what follows from one of them follows from all, and need be worked out only once. */
import type { Piece } from './plan.ts';
import { remembering } from './remembering.ts';

/** For each piece the first one that is woven just like it, itself where none is. */
export function firstAlike(pieces: readonly Piece[]): readonly Piece[] {
  const first = new Map<string, Piece>();
  return pieces.map((piece) => {
    const text = wovenText(piece);
    const like = first.get(text) ?? piece;
    first.set(text, like);
    return like;
  });
}

/** For each piece what `of` says of the first one woven like it, asked once for all of them. */
export function onceAlike<T>(
  pieces: readonly Piece[],
  of: (first: Piece, at: number) => T,
): readonly T[] {
  const known = new Map<Piece, { readonly said: T }>();
  return firstAlike(pieces).map((first, at) => {
    const found = known.get(first) ?? { said: of(first, at) };
    known.set(first, found);
    return found.said;
  });
}

/** All of a piece but its name and what is wished of it, which change nothing in the cloth. */
const wovenText = remembering((piece: Piece) => JSON.stringify({ ...piece, name: '', wish: '' }));
