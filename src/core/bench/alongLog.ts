/** A log looked back on, event by event. */
import type { Plan } from '../plan/plan.ts';
import type { EventId, LogEvent } from './events.ts';
import { folded } from './happened.ts';
import { type Progress, startOf } from './progress.ts';
import { needsRefold } from './undo.ts';

/**
 * The pick at the fell after each event, as the bench showed it then: after the k-th what
 * `progressOf` says of the first k. An undo folds again only from the event it names, so a long log
 * with a slip now and then takes hardly longer than one fold.
 */
export function picksAlong(plan: Plan, log: readonly LogEvent[]): readonly number[] {
  const past: Past = {
    states: [startOf(plan)],
    log: [],
    places: new Map(),
    cancelled: new Set(),
  };
  return log.map((event) => oneMore(past, event).pick);
}

interface Past {
  /** The state after the first k events, what is undone by now left out. */
  readonly states: Progress[];
  readonly log: LogEvent[];
  /** Where each event first stands. */
  readonly places: Map<EventId, number>;
  readonly cancelled: Set<EventId>;
}

function oneMore(past: Past, event: LogEvent): Progress {
  const { log, places, cancelled } = past;
  const place = log.push(event) - 1;
  const isFirst = !places.has(event.id);
  if (isFirst) places.set(event.id, place);
  if (isFirst && event.kind === 'undone') cancelled.add(event.event);
  if (isFirst && event.kind === 'redone') cancelled.delete(event.event);
  const from = isFirst && 'event' in event ? places.get(event.event) : undefined;
  return foldFrom(past, Math.min(place, from ?? place), place);
}

function foldFrom({ states, log, places, cancelled }: Past, from: number, to: number): Progress {
  let state = states[from];
  if (state === undefined) throw new Error(`foldFrom: got ${from}, wanted a place in the log`);
  for (let n = from; n <= to; n++) {
    const event = log[n];
    if (event === undefined) break;
    const counts = places.get(event.id) === n && !cancelled.has(event.id) && !needsRefold(event);
    if (counts) state = folded(state, event);
    states[n + 1] = state;
  }
  return state;
}
