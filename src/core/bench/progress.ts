/**
 * Progress = fold(plan, events). Events are taps in the order they happened; an event undone is left
 * out as if it had never been, so throw and undo together change nothing.
 */
import type { Plan } from '../plan/plan.ts';
import type { WarpingWay } from '../plan/warping/list.ts';
import { warpLengthFor } from '../plan/warpLength.ts';
import { NO_ADJUSTMENTS } from './adjustments.ts';
import type { Keeping } from './aims.ts';
import type { Beat } from './beat/beat.ts';
import { type Gathered, settled } from './byEye/throwing.ts';
import { type Course, layCourse } from './course.ts';
import { type Due, duesOf } from './dues.ts';
import type { LogEvent } from './events.ts';
import { foldedAll } from './happened.ts';
import type { BobbinChange, TiedOn, YarnWeighing } from './left/left.ts';
import { asWound } from './left/spreads.ts';
import { type AimReport, type Mark, newBeat } from './measuring.ts';
import { countedEvents } from './undo.ts';

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
  /** Picks in the cloth when the warp was last advanced, and how often it was. */
  readonly advancedAt: number;
  readonly advances: number;
  readonly cutOff: boolean;
  /** Steps of the warping list done so far. */
  readonly warped: number;
  /** The list those steps are of; null as long as the weaver has not begun one. */
  readonly warpingWay: WarpingWay | null;
  /** What the readings taught about the beat, and what was measured, in its order. */
  readonly beat: Beat;
  readonly marks: readonly Mark[];
  /** What blocks keep as the beat becomes known. */
  readonly keeping: Keeping;
  /** What the last reading changed; null when it changed nothing, or its change is refused. */
  readonly aim: AimReport | null;
  readonly weighings: readonly YarnWeighing[];
  readonly bobbins: readonly BobbinChange[];
  /** The warp as it was put on the loom, whatever became of the plan since. */
  readonly tiedOn: TiedOn;
  /** How often the plan was changed since it was put on the loom. */
  readonly revision: number;
  /** Picks thrown by eye that the course has not got yet; only while a log is being folded. */
  readonly gathered: Gathered | null;
}

export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** `course`: laid from this plan as it is, where it is at hand; one is a megabyte. */
export function startOf(plan: Plan, course: Course = layCourse(plan, NO_ADJUSTMENTS)): Progress {
  return {
    course,
    dues: duesOf(course),
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
    beat: newBeat(course),
    marks: [],
    keeping: { blocks: new Map(), mirrors: new Map() },
    aim: null,
    weighings: [],
    bobbins: [],
    tiedOn: asWound(
      warpLengthFor(
        plan,
        course.pieces.map((piece) => piece.loomLength),
      ).wound,
    ),
    revision: 0,
    gathered: null,
  };
}

/** The whole log of one warp, folded. The same event twice counts once. */
export function progressOf(plan: Plan, log: readonly LogEvent[]): Progress {
  return settled(foldedAll(countedEvents(log), startOf(plan)));
}
