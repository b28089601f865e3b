/** What appending means, the same in both houses. */
import type { EventId, LogEvent } from '../core/bench/events.ts';
import type { WarpRecord } from './store.ts';

/** Each event once, in the order of its first place. */
export function withoutRepeats(events: readonly LogEvent[]): readonly LogEvent[] {
  const seen = new Set<EventId>();
  return events.filter(({ id }) => !seen.has(id) && seen.add(id));
}

/** The warp as woven at the latest of the events; older ones taken in later do not turn it back. */
export function wovenOn(warp: WarpRecord, events: readonly LogEvent[]): WarpRecord {
  const before = warp.wovenAt === null ? [] : [warp.wovenAt];
  // ISO 8601 in UTC sorts as text.
  const times = [...before, ...events.map(({ at }) => at)].toSorted();
  return { ...warp, wovenAt: times.at(-1) ?? null };
}
