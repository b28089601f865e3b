/** The tape: the marked ribbon of one piece, in loom length from its start. */
import type { Mm } from '../measure/length.ts';
import { type Course, type CourseBlock, type CoursePiece, openIn } from './course.ts';
import type { Due } from './dues.ts';
import { loomLengthAt } from './pickAt.ts';

export interface TapeBand {
  readonly from: Mm;
  readonly to: Mm;
  readonly yarn: number;
}

export type TapeMark =
  | { readonly kind: 'block'; readonly at: Mm; readonly block: CourseBlock }
  | { readonly kind: 'due'; readonly at: Mm; readonly due: Due }
  | { readonly kind: 'pin'; readonly at: Mm; readonly number: number }
  | { readonly kind: 'end'; readonly at: Mm };

/** Bands of weft colour that lie within a window of the piece, as far as its weft is known. */
export function tapeBands(
  course: Course,
  piece: CoursePiece,
  from: Mm,
  to: Mm,
): readonly TapeBand[] {
  const { stripes } = course;
  const range = stripes.ofPieces[piece.index] ?? { firstStripe: 0, stripes: 0 };
  const known = (openIn(course, piece) ?? Number.POSITIVE_INFINITY) + 1;
  const bands: TapeBand[] = [];
  for (let r = range.firstStripe; r < range.firstStripe + range.stripes; r++) {
    const first = stripes.firstPick[r] ?? 0;
    const start = lengthOfPiece(course, piece, first);
    if (start >= to || first >= known) break;
    const end = lengthOfPiece(course, piece, Math.min(known, stripes.firstPick[r + 1] ?? 0));
    if (end > from) bands.push({ from: start, to: end, yarn: stripes.yarn[r] ?? 0 });
  }
  return bands;
}

/**
 * Block starts, dues and the end of one piece in the order of the tape. Where some of it is to be
 * woven by eye, none beyond that, and an end only where one is meant.
 */
export function tapeMarks(
  course: Course,
  dues: readonly Due[],
  piece: CoursePiece,
): readonly TapeMark[] {
  const open = openIn(course, piece);
  const known = open ?? Number.POSITIVE_INFINITY;
  const blocks = course.blocks
    .slice(piece.firstBlock, piece.firstBlock + piece.blocks)
    .filter((block) => block.firstPick <= known)
    .map((block): TapeMark => ({ kind: 'block', at: block.loomStart, block }));
  const due = dues
    .filter(({ kind }) => kind === 'hemstitch' || kind === 'lockEdge')
    .filter((it) => it.piece === piece.index && it.at <= known)
    .map((it): TapeMark => ({ kind: 'due', at: lengthOfPiece(course, piece, it.at), due: it }));
  const isMeant = open === null || piece.unseen > 0;
  const end: readonly TapeMark[] = isMeant ? [{ kind: 'end', at: piece.loomLength }] : [];
  return [...blocks, ...due, ...end].sort((a, b) => a.at - b.at);
}

/** Loom length of one piece before a pick; the pick after its last is its whole length. */
export function lengthOfPiece(course: Course, piece: CoursePiece, pick: number): Mm {
  if (pick >= piece.firstPick + piece.picks) return piece.loomLength - piece.unseen;
  return pick <= piece.firstPick ? 0 : loomLengthAt(course, pick);
}
