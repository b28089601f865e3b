/** Snapshots: states kept inside the app, to go back to. Which of them stay is decided here. */
import type { LogEvent } from '../bench/events.ts';
import type { Holds } from './file/backupFile.ts';
import { daysBetween } from './reminder.ts';

/**
 * Why one was taken: after half an hour of weaving, or before what could go wrong. `replace` is the
 * state that gave way to another one whole.
 */
export const SNAPSHOT_REASONS = [
  'weaving',
  'import',
  'restore',
  'replace',
  'removal',
  'migration',
] as const;
export type SnapshotReason = (typeof SNAPSHOT_REASONS)[number];

export interface SnapshotNote {
  readonly id: string;
  /** ISO 8601, UTC. */
  readonly madeAt: string;
  readonly reason: SnapshotReason;
  /** The warp or the file it was about, by name. */
  readonly about?: string;
  readonly app: string;
  readonly holds: Holds;
  /** As kept, compressed or not. */
  readonly bytes: number;
}

/** Null for anything that is no note. Checked by hand: a worker reads notes, and a library would be most of it. */
export function decodeNote(input: unknown): SnapshotNote | null {
  if (typeof input !== 'object' || input === null) return null;
  const note = input as { readonly [field in keyof SnapshotNote]?: unknown };
  const isNote =
    [note.id, note.madeAt, note.app].every((it) => typeof it === 'string') &&
    !Number.isNaN(Date.parse(String(note.madeAt))) &&
    SNAPSHOT_REASONS.some((reason) => reason === note.reason) &&
    ['string', 'undefined'].includes(typeof note.about) &&
    isCount(note.bytes) &&
    isHolds(note.holds);
  return isNote ? (input as SnapshotNote) : null;
}

function isHolds(input: unknown): boolean {
  if (typeof input !== 'object' || input === null) return false;
  const { warps, plans, events, records, settings } = input as { readonly [name: string]: unknown };
  return [warps, plans, events, records, settings].every(isCount);
}

function isCount(input: unknown): boolean {
  return Number.isSafeInteger(input) && Number(input) >= 0;
}

/** The rule (ours). */
export const SNAPSHOT_RULE = {
  /** Of those taken while weaving: so many of the newest, and the last of each day for so many days. */
  newest: 8,
  days: 14,
  /** Of the others: so many, for so many days. A replaced state stays that long whatever else there is. */
  others: 20,
  keptDays: 30,
  /** Of all together; the oldest go first, the newest never. */
  bytes: 100_000_000,
  /** Of weaving between two. */
  weavingMs: 30 * 60_000,
} as const;

/** Which snapshots have done their service. */
export function snapshotsToDrop(
  notes: readonly SnapshotNote[],
  now: string,
): readonly SnapshotNote[] {
  const newestFirst = notes.toSorted((a, b) => Date.parse(b.madeAt) - Date.parse(a.madeAt));
  const weaving = newestFirst.filter(({ reason }) => reason === 'weaving');
  const others = newestFirst.filter(({ reason }) => reason !== 'weaving');
  const kept = new Set([
    ...weaving.slice(0, SNAPSHOT_RULE.newest),
    ...lastOfEachDay(weaving).filter((it) => ageOf(it, now) < SNAPSHOT_RULE.days),
    ...others
      .slice(0, SNAPSHOT_RULE.others)
      .filter((it) => ageOf(it, now) < SNAPSHOT_RULE.keptDays),
    ...others.filter((it) => isHeld(it, now)),
    ...newestFirst.slice(0, 1),
  ]);
  for (const it of overweight(
    newestFirst.filter((it) => kept.has(it)),
    now,
  ))
    kept.delete(it);
  return newestFirst.filter((it) => !kept.has(it));
}

function ageOf({ madeAt }: SnapshotNote, now: string): number {
  return daysBetween(madeAt, now);
}

function isHeld(it: SnapshotNote, now: string): boolean {
  return it.reason === 'replace' && ageOf(it, now) < SNAPSHOT_RULE.keptDays;
}

function lastOfEachDay(newestFirst: readonly SnapshotNote[]): readonly SnapshotNote[] {
  const days = new Set<string>();
  return newestFirst.filter(({ madeAt }) => {
    const day = madeAt.slice(0, 10);
    return !days.has(day) && days.add(day);
  });
}

/** What goes so that the rest fits: oldest first, those of weaving before the others. */
function overweight(newestFirst: readonly SnapshotNote[], now: string): readonly SnapshotNote[] {
  const mayGo = newestFirst
    .slice(1)
    .filter((it) => !isHeld(it, now))
    .toReversed();
  const inOrder = [
    ...mayGo.filter(({ reason }) => reason === 'weaving'),
    ...mayGo.filter(({ reason }) => reason !== 'weaving'),
  ];
  let over = newestFirst.reduce((sum, { bytes }) => sum + bytes, 0) - SNAPSHOT_RULE.bytes;
  return inOrder.filter(({ bytes }) => {
    if (over <= 0) return false;
    over -= bytes;
    return true;
  });
}

/**
 * Whether weaving has gone on long enough since the last snapshot (null: there is none): half an hour
 * between the first event after it and the newest. A tea break counts as weaving.
 */
export function isSnapshotDue(log: readonly LogEvent[], last: string | null): boolean {
  const newest = log[log.length - 1];
  const first = firstAfter(log, last);
  if (newest === undefined || first === undefined) return false;
  return Date.parse(newest.at) - Date.parse(first.at) >= SNAPSHOT_RULE.weavingMs;
}

/** From the end: the log is long, and asked with every tap. */
function firstAfter(log: readonly LogEvent[], time: string | null): LogEvent | undefined {
  if (time === null) return log[0];
  const before = log.findLastIndex((event) => event.at <= time);
  return log[before + 1];
}
