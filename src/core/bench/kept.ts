/**
 * A log folded up to some event, to go on from: what comes after is folded alone. It can always be
 * made anew from the log; where something reaches back beyond it, the whole log is folded.
 */
import type { Plan } from '../plan/plan.ts';
import type { Adjustments } from './adjustments.ts';
import { settled } from './byEye/throwing.ts';
import { type Course, layCourse } from './course.ts';
import { duesOf } from './dues.ts';
import type { EventId, LogEvent } from './events.ts';
import type { Belief } from './gauge.ts';
import { foldedAll } from './happened.ts';
import { type Progress, progressOf, startOf } from './progress.ts';
import { countedEvents } from './undo.ts';

export interface Kept {
  /** So many events of the log are in it, from the first on. */
  readonly events: number;
  readonly progress: Progress;
}

/** Events left out at the end of a log, so that undoing the last taps does not reach back beyond it. */
const SPARE = 40;
/** Farther back no place is looked for where the log can be cut. */
const LOOK_BACK = 400;

/** The whole log folded, and what to keep of it. */
export interface FoldedLog {
  readonly kept: Kept | null;
  readonly progress: Progress;
}

/** The whole log folded, from what is kept of it where nothing reaches back beyond that. */
export function foldedOn(
  plan: Plan,
  log: readonly LogEvent[],
  kept: Kept | null = null,
): FoldedLog {
  const progress = kept === null ? null : goOn(kept.progress, log.slice(kept.events));
  if (progress !== null) return { kept, progress };
  const near = keptNear(plan, log);
  if (near === null) return { kept: null, progress: progressOf(plan, log) };
  const whole = goOn(near.progress, log.slice(near.events)) ?? progressOf(plan, log);
  return { kept: near, progress: whole };
}

/** What follows folded alone; null where it undoes or redoes something that came before it. */
export function goOn(from: Progress, tail: readonly LogEvent[]): Progress | null {
  if (!standsAlone(tail)) return null;
  return settled(foldedAll(countedEvents(tail), from));
}

/**
 * The log folded nearly up to its end, on from what was kept before; null where it is too short or
 * cannot be cut. Wants a log in which every event is there once, as the store keeps it. `course`: the
 * plan laid as it is, where it is at hand.
 */
export function keptNear(
  plan: Plan,
  log: readonly LogEvent[],
  before: Kept | null = null,
  course?: Course,
): Kept | null {
  const events = placeToCut(log);
  if (events === null || (before !== null && events < before.events)) return null;
  const head = log.slice(before?.events ?? 0, events);
  const progress = goOn(before?.progress ?? startOf(plan, course), head);
  return progress === null ? null : { events, progress };
}

/** Where nothing after it reaches back beyond it: so many events from the start. */
function placeToCut(log: readonly LogEvent[]): number | null {
  const places = new Map<EventId, number>();
  const first = Math.max(1, log.length - SPARE - LOOK_BACK);
  for (let n = first; n < log.length; n++) places.set(log[n]?.id ?? '', n);
  let reach = log.length - SPARE;
  for (let n = log.length - 1; n >= Math.max(reach, first); n--) {
    const event = log[n];
    if (event === undefined || !('event' in event)) continue;
    const place = places.get(event.event);
    if (place === undefined) return null;
    // Who undoes so far back often goes on doing so.
    if (place < reach) reach = Math.max(0, place - SPARE);
  }
  return reach < first ? null : reach;
}

/** Whether every event undone or redone here also happened here, before that. */
function standsAlone(events: readonly LogEvent[]): boolean {
  const here = new Set<EventId>();
  return events.every((event) => {
    here.add(event.id);
    return !('event' in event) || here.has(event.event);
  });
}

/** The part of a progress that cannot be laid anew from the rest, as plain data. */
export interface PlainProgress extends Omit<Progress, 'course' | 'dues' | 'gathered'> {
  readonly plan: Plan;
  readonly adjustments: Adjustments;
  readonly belief: Belief;
}

/** The progress that was made plain: its course laid anew from plan, adjustments and belief, and its dues. */
export function progressFrom({ plan, adjustments, belief, ...rest }: PlainProgress): Progress {
  const course = layCourse(plan, adjustments, belief);
  return { ...rest, course, dues: duesOf(course), gathered: null };
}
