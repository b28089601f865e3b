/** The yarns one may throw by eye: for each what its shuttle would do if it were the next. */
import type { Mm } from '../../measure/length.ts';
import type { Side } from '../../plan/plan.ts';
import { fromSideOf } from '../atStripe.ts';
import type { Course, CoursePiece } from '../course.ts';
import { lastOfYarn } from '../milestones.ts';
import { loomLengthAt, pieceAt, shedAt, stripeIndexAt, turnIndexAt } from '../pickAt.ts';
import { type EdgeEnd, type Entry, REST_KINDS, sideOf } from '../stripes.ts';

export interface YarnToThrow {
  readonly yarn: number;
  /** The side it would be thrown from. */
  readonly from: Side;
  /** `again`: it was thrown last. */
  readonly entry: 'again' | Entry;
  /** It lay too long and is cut: it would start anew. */
  readonly wasCut: boolean;
  readonly edge: EdgeEnd;
  /** Picks of others since it last worked, and the float they make; 0 when new or thrown last. */
  readonly overPicks: number;
  readonly overLength: Mm;
}

/** Every yarn of the plan, in its order, before a pick to throw by eye. */
export function yarnsToThrow(course: Course, pick: number): readonly YarnToThrow[] {
  const piece = pieceAt(course, pick);
  const stripe = stripeIndexAt(course, pick);
  return course.plan.yarns.map((_, yarn) => yarnToThrow(course, piece, pick, stripe, yarn));
}

const PLAIN = { wasCut: false, edge: 'none', overPicks: 0, overLength: 0 } as const;

function yarnToThrow(
  course: Course,
  piece: CoursePiece,
  pick: number,
  stripe: number,
  yarn: number,
): YarnToThrow {
  const { stripes } = course;
  const isFirst = pick === piece.firstPick;
  if (yarn === stripes.yarn[stripe] && !isFirst) {
    return { ...PLAIN, yarn, from: fromSideOf(course.stripes, stripe, pick), entry: 'again' };
  }
  const last = isFirst ? -1 : lastStripeOf(course, piece, stripe, yarn);
  const rest = REST_KINDS[stripes.rest[last] ?? 0];
  if (last >= 0 && (rest === 'float' || rest === 'catch')) {
    const entry = rest === 'float' ? 'floated' : 'caught';
    const from = sideOf(stripes.restSide[last] ?? 0);
    return { yarn, from, entry, wasCut: false, ...returning(course, piece, pick, last) };
  }
  const from = startingSide(course, piece, pick, stripe, yarn);
  return { ...PLAIN, yarn, from, entry: 'new', wasCut: last >= 0 };
}

function lastStripeOf(course: Course, piece: CoursePiece, stripe: number, yarn: number): number {
  const last = lastOfYarn(course.stripes, yarn, stripe);
  return last >= piece.firstStripe ? last : -1;
}

/** A shuttle that lies at the edge comes in over what was woven meanwhile. */
function returning(course: Course, piece: CoursePiece, pick: number, last: number) {
  const left = course.stripes.firstPick[last + 1] ?? 0;
  const sameShed = shedAt(course, piece, left - 1) === shedAt(course, piece, pick);
  return {
    edge: sameShed ? ('not-caught' as const) : ('caught' as const),
    overPicks: pick - left,
    overLength: loomLengthAt(course, pick) - loomLengthAt(course, left),
  };
}

/** Where it was found to lie, else the side chosen for it, else the side of the yarns at work. */
function startingSide(
  course: Course,
  piece: CoursePiece,
  pick: number,
  stripe: number,
  yarn: number,
): Side {
  const last = lastStripeOf(course, piece, stripe, yarn);
  const since = pick === piece.firstPick ? pick : (course.stripes.firstPick[last + 1] ?? 0);
  const found = course.adjustments.sides.findLast(
    (it) => it.yarn === yarn && it.pick <= pick && it.pick >= Math.max(since, piece.firstPick),
  );
  if (found !== undefined) return found.side;
  const { yarns, pieces } = course.plan;
  const block = course.blocks[course.turns.block[turnIndexAt(course, pick)] ?? -1];
  const chosen = block?.laid.block?.starts?.[yarns[yarn]?.letter ?? ''];
  if (pick > piece.firstPick) return chosen ?? fromSideOf(course.stripes, stripe, pick);
  const isStitched = pieces[piece.index]?.beginning.kind === 'hemstitch';
  return (isStitched ? undefined : chosen) ?? piece.startSide;
}
