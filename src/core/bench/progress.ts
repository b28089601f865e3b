/**
 * Progress = fold(plan, events). Events are taps in the order they happened; an event undone is left
 * out as if it had never been, so throw and undo together change nothing.
 */
import type { Mm } from '../measure/length.ts';
import { yarnIndex } from '../plan/blocks.ts';
import { LIMITS } from '../plan/limits.ts';
import type { Plan } from '../plan/plan.ts';
import type { WarpingWay } from '../plan/warping/list.ts';
import {
  type Adjustments,
  adjustmentsUpTo,
  NO_ADJUSTMENTS,
  type SideFound,
} from './adjustments.ts';
import { type Course, type CourseBlock, layCourse, shedIndex } from './course.ts';
import { type Due, duesOf } from './dues.ts';
import type { EventId, Happening, LogEvent, Sides } from './events.ts';
import { loomLengthAt, loomTravelAt, pieceAt, shedAt } from './pickAt.ts';

export interface Progress {
  readonly course: Course;
  readonly dues: readonly Due[];
  /** Picks in the cloth: the pick to throw next has this index. */
  readonly pick: number;
  readonly done: ReadonlySet<string>;
  readonly deferred: ReadonlySet<string>;
  /** Picks whose number was worked out from a length. Ascending, half-open. */
  readonly estimated: readonly Stretch[];
  /** After estimated picks nobody knows the shed and the sides until the weaver has looked. */
  readonly placeUnsure: boolean;
  /** Loom travel at which the warp was last advanced, and how often it was. */
  readonly advancedAt: Mm;
  readonly advances: number;
  readonly cutOff: boolean;
  /** Steps of the warping list done so far. */
  readonly warped: number;
  /** The list those steps are of; null as long as the weaver has not begun one. */
  readonly warpingWay: WarpingWay | null;
}

export interface Stretch {
  readonly from: number;
  readonly to: number;
}

export function startOf(plan: Plan): Progress {
  return {
    ...laid(plan, NO_ADJUSTMENTS),
    pick: 0,
    done: new Set(),
    deferred: new Set(),
    estimated: [],
    placeUnsure: false,
    advancedAt: 0,
    advances: 0,
    cutOff: false,
    warped: 0,
    warpingWay: null,
  };
}

function laid(plan: Plan, adjustments: Adjustments): Pick<Progress, 'course' | 'dues'> {
  const course = layCourse(plan, adjustments);
  return { course, dues: duesOf(course) };
}

/** The whole log of one warp, folded. The same event twice counts once. */
export function progressOf(plan: Plan, log: readonly LogEvent[]): Progress {
  const left = cancelledBy(log);
  const seen = new Set<EventId>();
  let progress = startOf(plan);
  for (const event of log) {
    if (seen.has(event.id)) continue;
    seen.add(event.id);
    if (!left.has(event.id)) progress = happened(progress, event);
  }
  return progress;
}

/** Events taken back by undo and not given back by redo. */
export function cancelledBy(log: readonly LogEvent[]): ReadonlySet<EventId> {
  const cancelled = new Set<EventId>();
  const seen = new Set<EventId>();
  for (const event of log) {
    if (seen.has(event.id)) continue;
    seen.add(event.id);
    if (event.kind === 'undone') cancelled.add(event.event);
    if (event.kind === 'redone') cancelled.delete(event.event);
  }
  return cancelled;
}

/** Whether one more event needs the whole log folded again, or only `happened`. */
export function needsRefold(event: Happening): boolean {
  return event.kind === 'undone' || event.kind === 'redone';
}

/** The event the next undo takes back, or null at the beginning. */
export function undoTarget(log: readonly LogEvent[]): EventId | null {
  const cancelled = cancelledBy(log);
  return log.findLast((event) => !needsRefold(event) && !cancelled.has(event.id))?.id ?? null;
}

/** The event the next redo gives back; null as soon as something new was done. */
export function redoTarget(log: readonly LogEvent[]): EventId | null {
  const last = log[log.length - 1];
  if (last === undefined || !needsRefold(last)) return null;
  const cancelled = cancelledBy(log);
  for (const event of [...log].reverse()) {
    if (!needsRefold(event)) return null;
    if (event.kind === 'undone' && cancelled.has(event.event)) return event.event;
  }
  return null;
}

/** One event more. Total: what makes no sense here changes nothing. */
export function happened(progress: Progress, event: Happening): Progress {
  switch (event.kind) {
    case 'thrown':
      return thrown(progress, event.picks);
    case 'takenOut':
      return takenOut(progress, event.picks);
    case 'woveLength':
      return woveLength(progress, event.loomLength);
    case 'otherShed':
      return otherShed(progress);
    case 'placed':
      return placed(progress, event.pick, event.shed, event.sides);
    case 'blockSet':
      return blockSet(progress, event.piece, event.block, event.picks);
    case 'dueDone':
      return { ...progress, done: new Set([...progress.done, event.due]) };
    case 'dueDeferred':
      return { ...progress, deferred: new Set([...progress.deferred, event.due]) };
    case 'advanced':
      return {
        ...progress,
        advances: progress.advances + 1,
        advancedAt: loomTravelAt(progress.course, progress.pick),
      };
    case 'warped':
      return {
        ...progress,
        warped: Math.max(0, progress.warped + event.steps),
        warpingWay: event.way ?? progress.warpingWay,
      };
    case 'cutOff':
      return { ...progress, cutOff: true };
    case 'undone':
    case 'redone':
    case 'pinned':
    case 'measured':
    case 'readingStruck':
    case 'blockKept':
    case 'mirrorKept':
    case 'revised':
    case 'weighed':
    case 'bobbinChanged':
      return progress;
  }
}

function thrown(progress: Progress, picks: number): Progress {
  if (!isCount(picks)) return progress;
  return { ...progress, pick: Math.min(progress.course.picks, progress.pick + picks) };
}

function takenOut(progress: Progress, picks: number): Progress {
  if (!isCount(picks) || picks === 0) return progress;
  return takenBackTo(progress, Math.max(0, progress.pick - picks));
}

/** Picks taken out of the cloth: what was adjusted later than here goes with them. */
function takenBackTo(progress: Progress, pick: number): Progress {
  const { course } = progress;
  const adjustments = adjustmentsUpTo(course.adjustments, pick);
  const same =
    adjustments.sides.length === course.adjustments.sides.length &&
    adjustments.shedFlips.length === course.adjustments.shedFlips.length;
  const estimated = progress.estimated
    .filter((it) => it.from < pick)
    .map((it) => ({ from: it.from, to: Math.min(it.to, pick) }));
  return {
    ...progress,
    ...(same ? {} : laid(course.plan, adjustments)),
    pick,
    estimated,
    // With everything worked out taken out again, what is left was counted.
    placeUnsure: progress.placeUnsure && estimated.length > 0,
    cutOff: false,
  };
}

/** Picks of a length at the planned beat, up to the end of the piece; marked as estimated. */
function woveLength(progress: Progress, loomLength: Mm): Progress {
  const { course, pick } = progress;
  const to = pickAfterLength(course, pick, loomLength);
  if (to <= pick) return progress;
  return {
    ...progress,
    pick: to,
    placeUnsure: true,
    estimated: [...progress.estimated, { from: pick, to }],
  };
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
function otherShed(progress: Progress): Progress {
  const { course, pick } = progress;
  if (pick >= course.picks) return progress;
  const { shedFlips } = course.adjustments;
  const flipped = shedFlips.includes(pick)
    ? shedFlips.filter((at) => at !== pick)
    : [...shedFlips, pick].sort((a, b) => a - b);
  return { ...progress, ...laid(course.plan, { ...course.adjustments, shedFlips: flipped }) };
}

/** The weaver looked: the fell lies before this pick, in this shed, with shuttles on these sides. */
function placed(progress: Progress, at: number, shed: string, sides: Sides): Progress {
  const { plan, picks } = progress.course;
  if (!isCount(at)) return progress;
  const pick = Math.min(picks, at);
  const before = takenBackTo(progress, pick);
  const found = sidesFound(plan, pick, sides);
  const earlier = before.course.adjustments.sides.filter((it) => it.pick < pick);
  const adjustments = { ...before.course.adjustments, sides: [...earlier, ...found] };
  const settled = { ...before, ...laid(plan, adjustments), pick, placeUnsure: false };
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

/** A block gets another number of picks; what is woven never changes. */
function blockSet(progress: Progress, piece: number, block: number, picks: number): Progress {
  const { course, pick } = progress;
  const it = course.blocks[(course.pieces[piece]?.firstBlock ?? -1) + block];
  if (it === undefined || it.ofPiece !== block || it.piece !== piece) return progress;
  if (!isCount(picks) || pick > it.firstPick + it.picks) return progress;
  const woven = Math.max(0, pick - it.firstPick);
  const wanted = Math.max(woven, Math.min(picks, LIMITS.picks));
  const from = sameYarnFrom(progress, it, woven, wanted);
  const change = { piece, block, picks: wanted, ...(from === null ? {} : { sameYarnFrom: from }) };
  const blocks = [...course.adjustments.blocks, change];
  return { ...progress, ...laid(course.plan, { ...course.adjustments, blocks }) };
}

/**
 * From which pick on a block keeps the yarn of its last turn. One pick more where the closing tail
 * falls on the wrong side brings that shuttle back, and so must not begin another colour's turn.
 */
function sameYarnFrom(
  progress: Progress,
  block: CourseBlock,
  woven: number,
  picks: number,
): number | null {
  const { course, dues } = progress;
  const earlier = course.adjustments.blocks.findLast(
    (it) => it.piece === block.piece && it.block === block.ofPiece,
  )?.sameYarnFrom;
  if (earlier !== undefined && woven > earlier) return earlier;
  const isLast = block.ofPiece === (course.pieces[block.piece]?.blocks ?? 0) - 1;
  const wrong = dues.some(
    (it) => it.kind === 'endTail' && it.piece === block.piece && it.wrongSide,
  );
  return isLast && wrong && picks === block.picks + 1 ? block.picks : null;
}

/** What a log from elsewhere holds may be no count at all; then nothing happened. */
function isCount(picks: number): boolean {
  return Number.isSafeInteger(picks) && picks >= 0;
}
