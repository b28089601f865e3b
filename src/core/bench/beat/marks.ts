import type { Mm } from '../../measure/length.ts';
import type { ReadFrom, Tension } from '../events.ts';
import type { Branch } from './branches.ts';
import type { Move } from './kalman.ts';
import { type ByYarn, growing, pinning, weaving } from './quantities.ts';

/** Planned loom lengths, by yarn, of the picks [from, to) of one piece. */
export type Ruler = (from: number, to: number) => ByYarn;

export interface Place {
  readonly piece: number;
  /** First pick of the piece, as `pick` counts. */
  readonly firstPick: number;
  readonly pick: number;
}

export interface Reading {
  readonly reading: string;
  readonly mm: Mm;
  readonly from: ReadFrom;
  readonly tension: Tension;
}

/** A moment the estimator remembers, in weaving order; every piece begins with one. */
export interface BeatMark {
  readonly what: /** With what was believed when the piece before it was left: that is not looked at anew. */
    | { readonly kind: 'begun'; readonly before: readonly Branch[] }
    | { readonly kind: 'pinned'; readonly pin: string }
    | ({ readonly kind: 'measured' } & Reading)
    | { readonly kind: 'told' }
    | { readonly kind: 'takenBack' };
  readonly piece: number;
  /** Picks of the piece before it. */
  readonly pick: number;
  readonly since: Stretch;
}

/** Cloth woven since the mark before: planned lengths of picks counted, or a length the weaver told. */
export type Stretch =
  | { readonly kind: 'counted'; readonly planned: ByYarn }
  | { readonly kind: 'told'; readonly mm: Mm; readonly variance: number };

/**
 * How a stretch makes the piece longer, as a move of `n` quantities: a told length says nothing of the beat,
 * picks counted go by the factor and their yarns.
 */
export function growth(n: number, stretch: Stretch): Move {
  return stretch.kind === 'told' ? growing(n, stretch.mm) : weaving(n, stretch.planned);
}

/** How the quantities move over the rest of the stretch before a mark, and at the mark. */
export function movesTo({ what }: BeatMark, n: number, rest: Stretch): readonly Move[] {
  return what.kind === 'pinned' ? [growth(n, rest), pinning(n)] : [growth(n, rest)];
}
