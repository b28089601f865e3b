/** The tape: the marked ribbon of one piece, in loom length from its start. */
import type { Mm } from '../measure/length.ts';
import type { Course, CourseBlock, CoursePiece } from './course.ts';
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

/** Bands of weft colour that lie within a window of the piece. */
export function tapeBands(
  course: Course,
  piece: CoursePiece,
  from: Mm,
  to: Mm,
): readonly TapeBand[] {
  const { stripes } = course;
  const range = stripes.ofPieces[piece.index] ?? { firstStripe: 0, stripes: 0 };
  const bands: TapeBand[] = [];
  for (let r = range.firstStripe; r < range.firstStripe + range.stripes; r++) {
    const start = lengthOfPiece(course, piece, stripes.firstPick[r] ?? 0);
    if (start >= to) break;
    const end = lengthOfPiece(course, piece, stripes.firstPick[r + 1] ?? 0);
    if (end > from) bands.push({ from: start, to: end, yarn: stripes.yarn[r] ?? 0 });
  }
  return bands;
}

/** Block starts, dues and the end of one piece in the order of the tape. */
export function tapeMarks(
  course: Course,
  dues: readonly Due[],
  piece: CoursePiece,
): readonly TapeMark[] {
  const blocks = course.blocks
    .slice(piece.firstBlock, piece.firstBlock + piece.blocks)
    .map((block): TapeMark => ({ kind: 'block', at: block.loomStart, block }));
  const due = dues
    .filter((it) => it.piece === piece.index && (it.kind === 'hemstitch' || it.kind === 'lockEdge'))
    .map((it): TapeMark => ({ kind: 'due', at: lengthOfPiece(course, piece, it.at), due: it }));
  const end: TapeMark = { kind: 'end', at: piece.loomLength };
  return [...blocks, ...due, end].sort((a, b) => a.at - b.at);
}

/** Loom length of one piece before a pick; the pick after its last is its whole length. */
export function lengthOfPiece(course: Course, piece: CoursePiece, pick: number): Mm {
  if (pick >= piece.firstPick + piece.picks) return piece.loomLength - piece.unseen;
  return pick <= piece.firstPick ? 0 : loomLengthAt(course, pick);
}
