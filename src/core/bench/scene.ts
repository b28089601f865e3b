/** What lies at the fell: the last picks and the next ones, as the cloth picture wants them. */
import type { Side } from '../plan/plan.ts';
import { fromSideOf } from './atStripe.ts';
import { type Course, type CoursePiece, openIn, type Shed } from './course.ts';
import { stripeIndexAt } from './pickAt.ts';
import { shedsOf } from './stripes.ts';

export interface PickRow {
  /** Yarn index; null where a pick's height of warp lies bare, as in a gap. */
  readonly yarn: number | null;
  readonly shed: Shed;
  readonly from: Side;
}

export interface Scene {
  /** Oldest first, the pick at the fell last; the piece before it and its gap where there is room. */
  readonly woven: readonly PickRow[];
  /** The pick to throw next first; never beyond the piece, nor beyond the one to be thrown by eye. */
  readonly coming: readonly PickRow[];
  /** Rows woven before these. */
  readonly before: number;
}

/** At most `back` rows below the fell and `ahead` coming picks above it. */
export function sceneAt(
  course: Course,
  piece: CoursePiece,
  pick: number,
  back: number,
  ahead: number,
): Scene {
  const end = (openIn(course, piece) ?? piece.firstPick + piece.picks - 1) + 1;
  const from = Math.max(piece.firstPick, pick - back);
  const here = pickRows(course, piece, from, pick);
  const below = rowsBelow(course, piece, back - here.length);
  return {
    woven: [...below, ...here],
    coming: pickRows(course, piece, pick, Math.min(end, pick + ahead)),
    before: from - below.length,
  };
}

/** The rows of picks `from` to `to` of one piece. */
export function pickRows(
  course: Course,
  piece: CoursePiece,
  from: number,
  to: number,
): readonly PickRow[] {
  const { stripes, adjustments } = course;
  const sheds = shedsOf(piece, adjustments);
  const rows: PickRow[] = [];
  // One search: neighbouring picks lie in the same stripe or the next.
  let stripe = stripeIndexAt(course, from);
  for (let pick = from; pick < to; pick++) {
    while (pick >= (stripes.firstPick[stripe + 1] ?? Number.POSITIVE_INFINITY)) stripe++;
    const yarn = stripes.yarn[stripe] ?? 0;
    rows.push({ yarn, shed: sheds(pick), from: fromSideOf(course.stripes, stripe, pick) });
  }
  return rows;
}

/** The gap below a piece, and what can be seen of the piece before it. */
function rowsBelow(course: Course, piece: CoursePiece, room: number): readonly PickRow[] {
  const before = course.pieces[piece.index - 1];
  if (before === undefined || room <= 0) return [];
  const gap = Math.min(room, Math.round(before.gapAfter / course.plan.weaving.pickSpacing));
  const bare = Array.from({ length: gap }, (): PickRow => ({ yarn: null, shed: 0, from: 'left' }));
  const end = before.firstPick + before.picks;
  return [
    ...pickRows(course, before, Math.max(before.firstPick, end - (room - gap)), end),
    ...bare,
  ];
}
