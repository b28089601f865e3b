/** Picks counted into the cloth and out of it, and the place found again. */
import { isCount } from '../measure/isCount.ts';
import type { Mm } from '../measure/length.ts';
import { yarnIndex } from '../plan/blockTurns.ts';
import type { Plan } from '../plan/plan.ts';
import { type Adjustments, adjustmentsUpTo, type SideFound } from './adjustments.ts';
import { type FreeRecord, withoutPicksAfter } from './byEye/record.ts';
import { takenOutGathered } from './byEye/throwing.ts';
import { type Course, layCourse, shedAgain, shedIndex } from './course.ts';
import { duesAgain, duesOf } from './dues.ts';
import type { Sides } from './events.ts';
import { countByLength, forgetBeyond } from './measuring.ts';
import { loomLengthAt, pieceAt, shedAt } from './pickAt.ts';
import type { Progress } from './progress.ts';

/** The course laid again with other adjustments, its lengths believed as before. */
function laidAgain({ course }: Progress, adjustments: Adjustments) {
  const next = layCourse(course.plan, adjustments, course.belief);
  return { course: next, dues: duesOf(next) };
}

/** The same where only sheds are others: what the picks are, and whose, stays. */
function shedsAgain({ course: before, dues }: Progress, shedFlips: readonly number[]) {
  const { course, pieces } = shedAgain(before, shedFlips);
  return { course, dues: duesAgain(dues, course, pieces) };
}

/** Laid again as far as it must be, where some adjustments no longer hold and the others stay. */
function laidWithout(progress: Progress, adjustments: Adjustments) {
  const { sides, free, shedFlips } = progress.course.adjustments;
  const samePicks =
    adjustments.sides.length === sides.length &&
    adjustments.free.length === free.length &&
    adjustments.free.every((it, i) => it === free[i]);
  if (!samePicks) return laidAgain(progress, adjustments);
  if (adjustments.shedFlips.length === shedFlips.length) return {};
  return shedsAgain(progress, adjustments.shedFlips);
}

/** Picks thrown as planned, never beyond the last of the warp nor into a part to weave by eye. */
export function thrown(progress: Progress, picks: number): Progress {
  return thrownInTurn(progress, [picks]);
}

/** So many picks at a time, one after the other: what they may reach is the same for all of them. */
export function thrownInTurn(progress: Progress, run: readonly number[]): Progress {
  if (progress.gathered !== null) return progress;
  const reach = reachFrom(progress);
  let { pick } = progress;
  for (const picks of run) if (isCount(picks)) pick = Math.min(reach, pick + picks);
  return pick === progress.pick ? progress : { ...progress, pick };
}

/** How far the plan says what to throw: to the part to weave by eye, or to the end of the warp. */
function reachFrom({ course, pick }: Progress): number {
  return course.open.find((at) => at >= pick) ?? course.picks;
}

/** Picks taken out of the cloth, the last ones first. */
export function takenOut(progress: Progress, picks: number): Progress {
  if (!isCount(picks) || picks === 0) return progress;
  if (picks <= (progress.gathered?.picks ?? 0)) return takenOutGathered(progress, picks);
  return takenBackTo(progress, Math.max(0, progress.pick - picks));
}

/** Picks taken out of the cloth: what was adjusted later than here goes with them. */
function takenBackTo(before: Progress, pick: number): Progress {
  const progress = forgetBeyond(before, pick);
  const { course } = progress;
  const adjustments = {
    ...adjustmentsUpTo(course.adjustments, pick),
    free: withoutPicksAfter(course.adjustments.free, (it) => pick - firstPickOf(course, it)),
  };
  const estimated = progress.estimated
    .filter((it) => it.from < pick)
    .map((it) => ({ from: it.from, to: Math.min(it.to, pick) }));
  return {
    ...progress,
    ...laidWithout(progress, adjustments),
    pick,
    estimated,
    // With everything worked out taken out again, what is left was counted.
    placeUnsure: progress.placeUnsure && estimated.length > 0,
    cutOff: false,
  };
}

function firstPickOf({ pieces, blocks }: Course, { piece, block }: FreeRecord): number {
  return blocks[(pieces[piece]?.firstBlock ?? 0) + block]?.firstPick ?? 0;
}

/** Picks of a length at the planned beat, up to the end of the piece; marked as estimated. */
export function woveLength(progress: Progress, loomLength: Mm): Progress {
  const { course, pick } = progress;
  const to = Math.min(reachFrom(progress), pickAfterLength(course, pick, loomLength));
  if (to <= pick) return progress;
  const counted: Progress = {
    ...progress,
    pick: to,
    placeUnsure: true,
    estimated: [...progress.estimated, { from: pick, to }],
  };
  return countByLength(counted, pick, loomLength);
}

/** The pick of this piece nearest to `loomLength` beyond pick `from`. */
export function pickAfterLength(course: Course, from: number, loomLength: Mm): number {
  const piece = pieceAt(course, from);
  const end = piece.firstPick + piece.picks;
  const target = loomLengthAt(course, from) + loomLength;
  let low = from;
  let high = end;
  const lengthAt = (pick: number) => (pick === end ? piece.loomLength : loomLengthAt(course, pick));
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (lengthAt(middle) < target) low = middle + 1;
    else high = middle;
  }
  const below = Math.max(from, low - 1);
  return target - lengthAt(below) <= lengthAt(low) - target ? below : low;
}

/** The shed is turned round from this pick to the end of the piece; a second tap takes that back. */
export function otherShed(progress: Progress): Progress {
  const { course, pick } = progress;
  if (pick >= course.picks) return progress;
  const { shedFlips } = course.adjustments;
  const flipped = shedFlips.includes(pick)
    ? shedFlips.filter((at) => at !== pick)
    : [...shedFlips, pick].sort((a, b) => a - b);
  return { ...progress, ...shedsAgain(progress, flipped) };
}

/** The weaver looked: the fell lies before this pick, in this shed, with shuttles on these sides. */
export function placed(progress: Progress, at: number, shed: string, sides: Sides): Progress {
  const { plan, picks } = progress.course;
  if (!isCount(at)) return progress;
  const pick = Math.min(reachFrom(progress), at);
  const before = takenBackTo(progress, pick);
  const found = sidesFound(plan, pick, sides);
  const earlier = before.course.adjustments.sides.filter((it) => it.pick < pick);
  const adjustments = { ...before.course.adjustments, sides: [...earlier, ...found] };
  const settled = { ...before, ...laidAgain(before, adjustments), pick, placeUnsure: false };
  const wanted = shedIndex(plan.loom.kind, shed);
  if (pick >= picks || wanted < 0) return settled;
  return shedAt(settled.course, pieceAt(settled.course, pick), pick) === wanted
    ? settled
    : otherShed(settled);
}

function sidesFound(plan: Plan, pick: number, sides: Sides): readonly SideFound[] {
  return Object.entries(sides)
    .filter(([letter]) => plan.yarns.some((yarn) => yarn.letter === letter))
    .map(([letter, side]) => ({ pick, yarn: yarnIndex(plan, letter), side }));
}
