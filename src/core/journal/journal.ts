/**
 * The story of a warp, read from its log: when it was woven, how fast, and what else happened. What
 * was undone never happened; what was taken out of the cloth did.
 */

import { freeAtFell, settled } from '../bench/byEye/throwing.ts';
import type { Due } from '../bench/dues.ts';
import type { EventId, Happening, LogEvent } from '../bench/events.ts';
import { folded } from '../bench/happened.ts';
import { pieceAt } from '../bench/pickAt.ts';
import { type Progress, startOf } from '../bench/progress.ts';
import { countedEvents, placeOf } from '../bench/undo.ts';
import type { Plan } from '../plan/plan.ts';

export interface Journal {
  /** In the order they happened. */
  readonly sittings: readonly Sitting[];
  /** One a piece of the plan. */
  readonly pieces: readonly PieceStory[];
  readonly total: Work;
}

/** Picks in the cloth and the time they took. */
export interface Work {
  /** Thrown less taken out. */
  readonly picks: number;
  readonly minutes: number;
}

/** What happened without a longer pause. */
export interface Sitting extends Work {
  readonly id: string;
  /** ISO 8601, UTC: of its first and its last event. */
  readonly from: string;
  readonly to: string;
  /** Picks an hour; null where it was too short to tell, or nothing was woven. */
  readonly pace: number | null;
  /** Pieces woven on, in their order. */
  readonly pieces: readonly number[];
  readonly advances: number;
  readonly entries: readonly Entry[];
}

export interface PieceStory extends Work {
  readonly piece: number;
  /** When its first and its last pick were thrown; null where none was. */
  readonly from: string | null;
  readonly to: string | null;
}

/** One thing worth telling; picks thrown and advances are told in sum. */
export interface Entry {
  /** Unique in the journal; `event` is the event it tells of. */
  readonly id: string;
  readonly event: EventId;
  readonly at: string;
  readonly piece: number;
  /** Picks of that piece in the cloth then. */
  readonly pick: number;
  readonly what: Told;
}

export type Told =
  | { readonly kind: 'pieceWoven' }
  | { readonly kind: 'due'; readonly due: Due; readonly outcome: 'done' | 'deferred' }
  | { readonly kind: 'takenOut'; readonly picks: number }
  | { readonly kind: 'woveLength'; readonly loomLength: number; readonly picks: number }
  | { readonly kind: 'warped'; readonly steps: number }
  | AsLogged;

/** What is told as the log has it. */
const AS_LOGGED = [
  'otherShed',
  'placed',
  'blockSet',
  'cutOff',
  'measured',
  'readingStruck',
  'blockKept',
  'aimRefused',
  'mirrorKept',
  'revised',
  'weighed',
  'bobbinChanged',
  'clothRead',
  'warpRead',
  'endRavelled',
  'noted',
  'photographed',
] as const;

function isAsLogged(event: LogEvent): event is LogEvent & AsLogged {
  return AS_LOGGED.some((kind) => kind === event.kind);
}
type AsLogged = Extract<Happening, { readonly kind: (typeof AS_LOGGED)[number] }>;

/** A pause longer than this ends a sitting (ours): a cup of tea does not. */
export const PAUSE_MINUTES = 30;
/** Shorter than this nobody can tell a pace (ours). */
const LEAST_MINUTES = 5;

/** The journal of one warp, from the plan it was put on the loom with; linear in its log. */
export function journalOf(plan: Plan, log: readonly LogEvent[]): Journal {
  const steps = stepsOf(plan, log);
  const sittings = splitAtPauses(steps).map(sittingOf);
  // A plan changed at the loom may have other pieces than it was put on with.
  const { course } = settled(steps.at(-1)?.after ?? startOf(plan));
  const pieces = course.pieces.map(({ index }) => pieceStory(index, steps));
  return { sittings, pieces, total: workOf(steps) };
}

/** One event with what it did to the cloth. */
interface Step {
  readonly event: LogEvent;
  readonly before: Progress;
  readonly after: Progress;
  /** The piece it belongs to. */
  readonly piece: number;
  /** Picks more in the cloth; fewer when below nought. */
  readonly picks: number;
  /** Minutes at the loom since the step before it; 0 after a pause. */
  readonly minutes: number;
  readonly begins: boolean;
}

function stepsOf(plan: Plan, log: readonly LogEvent[]): readonly Step[] {
  const steps: Step[] = [];
  let before = startOf(plan);
  let last: LogEvent | null = null;
  for (const event of countedEvents(log)) {
    const after = folded(before, event);
    const since = last === null ? 0 : minutesBetween(last.at, event.at);
    const begins = last === null || since > PAUSE_MINUTES;
    const atLoom = placeOf(event, log) === 'weaving';
    steps.push({
      event,
      before,
      after,
      piece: pieceOfStep(before, event),
      picks: after.pick - before.pick,
      minutes: begins || !atLoom ? 0 : since,
      begins,
    });
    before = after;
    last = event;
  }
  return steps;
}

/** A clock that was set back makes no time. */
function minutesBetween(from: string, to: string): number {
  const minutes = (Date.parse(to) - Date.parse(from)) / 60_000;
  return Number.isFinite(minutes) ? Math.max(0, minutes) : 0;
}

const THROWING: readonly string[] = ['thrown', 'thrownOf', 'woveLength', 'woveLengthOf'];

/** The piece an event names, else the one the fell was in. */
function pieceOfStep({ course, pick, gathered }: Progress, event: LogEvent): number {
  if ('piece' in event && event.piece !== undefined) return event.piece;
  const laid = pick - (gathered?.picks ?? 0);
  const throws = THROWING.includes(event.kind);
  const free = throws || gathered !== null ? freeAtFell(course, laid) : null;
  if (free !== null) return free.piece;
  // What is done between two pieces still belongs to the one just woven.
  const at = throws ? Math.min(laid, course.picks - 1) : laid - 1;
  return pieceAt(course, Math.max(0, at)).index;
}

function splitAtPauses(steps: readonly Step[]): readonly (readonly Step[])[] {
  const groups: Step[][] = [];
  for (const step of steps) {
    if (step.begins) groups.push([step]);
    else groups.at(-1)?.push(step);
  }
  return groups;
}

function workOf(steps: readonly Step[]): Work {
  return {
    picks: steps.reduce((sum, it) => sum + it.picks, 0),
    minutes: steps.reduce((sum, it) => sum + it.minutes, 0),
  };
}

function sittingOf(steps: readonly Step[]): Sitting {
  const [first, last] = [steps[0], steps.at(-1)];
  if (first === undefined || last === undefined) throw new Error('sittingOf: got no step');
  const work = workOf(steps);
  const woven = steps.filter((it) => it.picks > 0).map((it) => it.piece);
  return {
    ...work,
    id: first.event.id,
    from: first.event.at,
    to: last.event.at,
    pace: work.minutes < LEAST_MINUTES || work.picks <= 0 ? null : (work.picks * 60) / work.minutes,
    pieces: [...new Set(woven)].sort((a, b) => a - b),
    advances: steps.filter((it) => it.event.kind === 'advanced').length,
    entries: entriesOf(steps),
  };
}

function pieceStory(piece: number, steps: readonly Step[]): PieceStory {
  const own = steps.filter((it) => it.piece === piece);
  const thrown = own.filter((it) => it.picks > 0);
  return {
    ...workOf(own),
    piece,
    from: thrown[0]?.event.at ?? null,
    to: thrown.at(-1)?.event.at ?? null,
  };
}

function entriesOf(steps: readonly Step[]): readonly Entry[] {
  const entries: Entry[] = [];
  for (const step of steps) {
    for (const what of toldOf(step)) {
      const entry = entryOf(step, what);
      const last = entries.at(-1);
      // A list of forty steps ticked off is one thing to tell.
      if (what.kind === 'warped' && last?.what.kind === 'warped') {
        const sum = { kind: 'warped' as const, steps: last.what.steps + what.steps };
        entries[entries.length - 1] = { ...entry, id: last.id, what: sum };
      } else entries.push(entry);
    }
  }
  return entries;
}

function entryOf({ event, after, piece }: Step, what: Told): Entry {
  const { firstPick = 0, picks = 0 } = after.course.pieces[piece] ?? {};
  const most = isOpen(after, piece) ? Number.POSITIVE_INFINITY : picks;
  const pick = Math.max(0, Math.min(most, after.pick - firstPick));
  return { id: `${event.id}/${what.kind}`, event: event.id, at: event.at, piece, pick, what };
}

/** Whether a piece is woven by eye at the fell and not ended: then nobody knows how long it gets. */
function isOpen({ course, pick, gathered }: Progress, piece: number): boolean {
  return gathered !== null || freeAtFell(course, pick)?.piece === piece;
}

function toldOf(step: Step): readonly Told[] {
  const told = toldByKind(step);
  const { firstPick = 0, picks = 0 } = step.after.course.pieces[step.piece] ?? {};
  const goesOn = step.picks > 0 || step.event.kind === 'freeEnded';
  const ends = goesOn && !isOpen(step.after, step.piece) && step.after.pick >= firstPick + picks;
  return ends ? [...told, { kind: 'pieceWoven' }] : told;
}

function toldByKind({ event, before, picks }: Step): readonly Told[] {
  switch (event.kind) {
    case 'dueDone':
      return dueTold(before, event.due, 'done');
    case 'dueDeferred':
      return dueTold(before, event.due, 'deferred');
    case 'takenOut':
      return picks < 0 ? [{ kind: 'takenOut', picks: -picks }] : [];
    case 'woveLength':
    case 'woveLengthOf':
      return [{ kind: 'woveLength', loomLength: event.loomLength, picks }];
    case 'warped':
      return [{ kind: 'warped', steps: event.steps }];
    default:
      return isAsLogged(event) ? [event] : [];
  }
}

/** What was put off of an advance, or asked beside the weaving, is no part of the story. */
function dueTold({ dues }: Progress, id: string, outcome: 'done' | 'deferred'): readonly Told[] {
  const due = dues.find((it) => it.id === id);
  return due === undefined ? [] : [{ kind: 'due', due, outcome }];
}
