/** When it is time to put a backup outside this device again: by work done, not by the calendar alone. */
import type { LogEvent } from '../bench/events.ts';

/** Over so many picks, or after so many days, since the last export (ours). */
const REMIND_PICKS = 500;
const REMIND_DAYS = 7;

/** What was woven since a time. */
export interface Work {
  readonly picks: number;
  /** When the first of it happened; null when nothing did. ISO 8601, UTC. */
  readonly since: string | null;
}

export const NO_WORK: Work = { picks: 0, since: null };

/** What a log gained after `exportedAt`; all of it when that is null. */
export function workSince(log: readonly LogEvent[], exportedAt: string | null): Work {
  let picks = 0;
  let since: string | null = null;
  for (const event of log) {
    if (exportedAt !== null && event.at <= exportedAt) continue;
    if (event.kind === 'thrown' || event.kind === 'thrownOf') picks += event.picks;
    if (since === null || event.at < since) since = event.at;
  }
  return { picks, since };
}

/** The work of several warps as one: their picks, since the first of it on any of them. */
export function workTogether(works: readonly Work[]): Work {
  const times = works.flatMap(({ since }) => since ?? []).toSorted();
  return { picks: works.reduce((sum, work) => sum + work.picks, 0), since: times[0] ?? null };
}

/** What to remind of: whichever of the two limits was passed. */
export interface Reminder {
  readonly picks: number;
  /** Whole days since the last export, or since the first work when there was none. */
  readonly days: number;
}

/** Null as long as nothing was woven since, or little and lately. */
export function reminderOf(work: Work, exportedAt: string | null, now: string): Reminder | null {
  if (work.since === null) return null;
  const days = daysBetween(exportedAt ?? work.since, now);
  return work.picks > REMIND_PICKS || days >= REMIND_DAYS ? { picks: work.picks, days } : null;
}

const DAY_MS = 86_400_000;

/** Whole days from one time to another, never below nought. */
export function daysBetween(from: string, to: string): number {
  return Math.max(0, Math.floor((Date.parse(to) - Date.parse(from)) / DAY_MS));
}
