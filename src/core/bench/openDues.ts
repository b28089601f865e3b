/** What is due at this moment: the course's dues less what is done, and the warp to be advanced. */
import type { Mm } from '../measure/length.ts';
import { jumpAt } from './beat/jump.ts';
import type { Due } from './dues.ts';
import type { AimReport } from './measuring.ts';
import { loomTravelAt, pieceAt } from './pickAt.ts';
import type { Progress } from './progress.ts';

export type OpenDue =
  | { readonly kind: 'course'; readonly id: string; readonly due: Due; readonly deferred: boolean }
  | {
      readonly kind: 'advance';
      readonly id: string;
      readonly why: AdvanceReason;
      readonly deferred: boolean;
    }
  | { readonly kind: 'look'; readonly id: string; readonly deferred: boolean }
  /** The last reading gave some blocks other picks. */
  | {
      readonly kind: 'aimed';
      readonly id: string;
      readonly report: AimReport;
      readonly deferred: boolean;
    }
  /** The beat has changed all at once: `ratio` is the spacing of picks after over before. */
  | {
      readonly kind: 'jump';
      readonly id: string;
      readonly ratio: number;
      readonly deferred: boolean;
    };

/** `depth`: the fell has come to the heddle. `stitch-first`: it has, and hemstitching still waits.
 * `room-to-stitch`: it would before the new piece can be stitched. */
export type AdvanceReason = 'depth' | 'stitch-first' | 'room-to-stitch';

/**
 * All that is due before the next pick is thrown, in the order it is told. What was put off stays in it as
 * `deferred`, but for a word about a reading, which is then over.
 */
export function openDues(progress: Progress): readonly OpenDue[] {
  const { pick, done, deferred } = progress;
  const fromCourse = progress.dues
    .filter((due) => due.at <= pick && pick < due.until && !done.has(due.id))
    .map((due) => ({ kind: 'course' as const, id: due.id, due, deferred: deferred.has(due.id) }));
  const look = progress.placeUnsure
    ? [{ kind: 'look' as const, id: `look/${pick}`, deferred: false }]
    : [];
  return [...look, ...fromCourse, ...advanceDue(progress), ...beatDues(progress)];
}

/** A word about what a reading changed need not wait longer than a few picks. */
const TOLD_FOR = 12;

/** What the last reading said about the beat, once. */
function beatDues({ aim, beat, marks, pick, done, deferred }: Progress): readonly OpenDue[] {
  const last = marks.at(-1);
  if (last?.kind !== 'reading' || pick > last.pick + TOLD_FOR) return [];
  const { reading } = last.reading;
  const jump = jumpAt(beat);
  const jumped: readonly OpenDue[] =
    jump === null
      ? []
      : [{ kind: 'jump', id: `jump/${reading}`, ratio: jump.ratio, deferred: false }];
  const aimed: readonly OpenDue[] =
    aim === null || aim.reading !== reading
      ? []
      : [{ kind: 'aimed', id: `aim/${reading}`, report: aim, deferred: false }];
  return [...jumped, ...aimed].filter((it) => !done.has(it.id) && !deferred.has(it.id));
}

function advanceDue(progress: Progress): readonly OpenDue[] {
  const why = reasonToAdvance(progress);
  if (why === null) return [];
  const id = `advance/${progress.advances}`;
  return [{ kind: 'advance', id, why, deferred: progress.deferred.has(id) }];
}

function reasonToAdvance(progress: Progress): AdvanceReason | null {
  const { course, pick } = progress;
  if (progress.cutOff || pick >= course.picks) return null;
  const room = roomBeforeAdvance(progress);
  const piece = pieceAt(course, pick);
  const stitched = course.plan.pieces[piece.index]?.beginning.kind === 'hemstitch';
  const waiting = stitched && !progress.done.has(`${piece.index}/hemstitch-beginning`);
  if (room <= SLACK) return waiting && pick > piece.firstPick ? 'stitch-first' : 'depth';
  const { picksBeforeStitching, pickSpacing } = course.plan.weaving;
  const needed = picksBeforeStitching * pickSpacing + ROOM_TO_STITCH;
  return waiting &&
    pick === piece.firstPick &&
    (progress.advances === 0 || progress.advancedAt < pick) &&
    room < needed
    ? 'room-to-stitch'
    : null;
}

/** Space for needle and hand between the fell and the heddle: about an inch (common practice, no source). */
const ROOM_TO_STITCH: Mm = 25;

/** A spacing of 2.54 mm fifty times over is a hair less than 127 mm in binary. */
const SLACK: Mm = 1e-6;

/** How far the fell can still travel before the warp must be advanced; 0 or less when it must. */
export function roomBeforeAdvance(progress: Progress): Mm {
  const { course, pick, advancedAt, advances } = progress;
  const from = advances === 0 ? 0 : loomTravelAt(course, advancedAt);
  return course.plan.loom.weavingDepth - (loomTravelAt(course, pick) - from);
}

/** The next thing that falls due after this pick, if any. */
export function nextDue(progress: Progress): Due | null {
  const later = progress.dues.filter((due) => due.at > progress.pick && !progress.done.has(due.id));
  return later.reduce<Due | null>(
    (next, due) => (next === null || due.at < next.at ? due : next),
    null,
  );
}
