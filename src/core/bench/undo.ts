/** Undo and redo are events too: which event the next one takes back or gives back. */
import type { EventId, Happening, LogEvent } from './events.ts';

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
