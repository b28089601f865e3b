/** Which events of a log still stand, and which the next undo takes back or redo gives back. */
import type { EventId, Happening, LogEvent } from './events.ts';

/** The events that happened, in order: each once, and none that was undone and not redone. */
export function countedEvents(log: readonly LogEvent[]): readonly LogEvent[] {
  const once = eachOnce(log);
  const cancelled = cancelledIn(once);
  return once.filter((event) => !cancelled.has(event.id));
}

/** Events taken back by undo and not given back by redo. */
export function cancelledBy(log: readonly LogEvent[]): ReadonlySet<EventId> {
  return cancelledIn(eachOnce(log));
}

/** Where an event is there twice, as it first stood. */
function eachOnce(log: readonly LogEvent[]): readonly LogEvent[] {
  if (isOneChain(log)) return log;
  const ids = new Set<EventId>();
  for (const { id } of log) ids.add(id);
  if (ids.size === log.length) return log;
  return log.filter(({ id }) => ids.delete(id));
}

/** Every event after the one it names: then none stands twice, for each names only one before it. */
function isOneChain(log: readonly LogEvent[]): boolean {
  let before: EventId | null = null;
  for (const { id, after } of log) {
    if (after !== before) return false;
    before = id;
  }
  return true;
}

function cancelledIn(once: readonly LogEvent[]): ReadonlySet<EventId> {
  const cancelled = new Set<EventId>();
  for (const event of once) {
    if (event.kind === 'undone') cancelled.add(event.event);
    if (event.kind === 'redone') cancelled.delete(event.event);
  }
  return cancelled;
}

/** Whether one more event needs the whole log folded again, or only `happened`. */
export function needsRefold(event: Happening): boolean {
  return event.kind === 'undone' || event.kind === 'redone';
}

/** Where an event is made, and so where undo takes it back: nothing is undone out of sight. */
export const PLACES = ['warping', 'weaving', 'measuring', 'journal'] as const;
export type Place = (typeof PLACES)[number];

/** What is told of the warp and its cloth beside the weaving; it changes nothing at the loom. */
export const TOLD = [
  'clothRead',
  'warpRead',
  'endRavelled',
  'learntFrom',
  'noted',
  'photographed',
] as const;
export type Telling = Extract<Happening, { kind: (typeof TOLD)[number] }>;

/** Whether an event only tells of the warp and its cloth, so that it changes nothing at the loom. */
export function isTold(event: Happening): event is Telling {
  return TOLD.some((kind) => kind === event.kind);
}

/** The place of an event; of a struck reading it is that of the reading, so the log is wanted. */
export function placeOf(event: Happening, log: readonly LogEvent[]): Place {
  if (event.kind === 'noted' || event.kind === 'photographed') return 'journal';
  if (isTold(event)) return 'measuring';
  if (event.kind === 'warped') return 'warping';
  if (event.kind !== 'readingStruck') return 'weaving';
  return log.some((it) => it.kind === 'measured' && it.reading === event.reading)
    ? 'weaving'
    : 'measuring';
}

type Wanted = (event: LogEvent) => boolean;
const ANY: Wanted = () => true;

/** The event the next undo takes back, of those `wanted`; null at the beginning. */
export function undoTarget(log: readonly LogEvent[], wanted: Wanted = ANY): EventId | null {
  const cancelled = cancelledBy(log);
  const stands = (event: LogEvent) => !needsRefold(event) && !cancelled.has(event.id);
  return log.findLast((event) => stands(event) && wanted(event))?.id ?? null;
}

/** The event the next redo gives back, if `wanted`; null as soon as something new was done. */
export function redoTarget(log: readonly LogEvent[], wanted: Wanted = ANY): EventId | null {
  const last = log[log.length - 1];
  if (last === undefined || !needsRefold(last)) return null;
  const cancelled = cancelledBy(log);
  for (const event of [...log].reverse()) {
    if (!needsRefold(event)) return null;
    if (event.kind !== 'undone' || !cancelled.has(event.event)) continue;
    const undone = log.find((it) => it.id === event.event);
    if (undone !== undefined && wanted(undone)) return event.event;
  }
  return null;
}
