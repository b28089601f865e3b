/**
 * Everything the app keeps, as one value: what a backup file holds, what a snapshot holds, and what
 * the store reads and writes at one go.
 *
 * Plans, bodies and settings are `unknown` here as they are in the store: whoever uses one checks it
 * first, so one that this version cannot read is carried along instead of being lost.
 */
import type { EventId, LogEvent } from '../bench/events.ts';

export interface Contents {
  readonly warps: readonly WarpContents[];
  readonly records: readonly RecordCopy[];
  readonly settings: readonly SettingCopy[];
}

export interface WarpContents {
  readonly warp: WarpHead;
  /** In the order of their numbers. */
  readonly plans: readonly PlanCopy[];
  /** In the order it was woven. */
  readonly log: readonly LogEvent[];
}

/** A warp without its plans and its log. Times are ISO 8601, UTC. */
export interface WarpHead {
  readonly id: string;
  readonly name: string;
  readonly demo: boolean;
  readonly madeAt: string;
  readonly wovenAt: string | null;
  /** Where this is one of two copies of a warp that were both woven on. */
  readonly branchOf?: BranchOrigin;
  /**
   * It came from a file with a plan this version cannot read: unlike those the app itself has stored,
   * its plans are checked before each use.
   */
  readonly plansUnread?: true;
}

/** Of a warp that was woven on in two places: the warp both copies were, and where they part. */
export interface BranchOrigin {
  readonly warp: string;
  /** The first event that only this branch has. */
  readonly from: EventId;
  /** The weaver looked and wants both. */
  readonly settled?: true;
}

export interface PlanCopy {
  readonly revision: number;
  readonly madeAt: string;
  readonly plan: unknown;
}

/** A draft, a yarn, a heddle, or a kind that only a newer version knows. */
export interface RecordCopy {
  readonly kind: string;
  readonly id: string;
  readonly changedAt: string;
  readonly body: unknown;
}

export interface SettingCopy {
  readonly name: string;
  readonly value: unknown;
}

export const NOTHING: Contents = { warps: [], records: [], settings: [] };

/** The state with events in it that the disk has not yet; one whose warp is not there is left out. */
export function withEvents(contents: Contents, events: readonly LogEvent[]): Contents {
  if (events.length === 0) return contents;
  const warps = contents.warps.map((it) => {
    const ids = new Set(it.log.map(({ id }) => id));
    const more = events.filter(({ id, warp }) => warp === it.warp.id && !ids.has(id));
    return more.length === 0 ? it : { ...it, log: [...it.log, ...more] };
  });
  return { ...contents, warps };
}

/** Settings that are about the device and not about what is woven on it. */
const OF_DEVICE: readonly string[] = ['weaving', 'bench', 'exported'];

/** What is kept when `there` takes the place of `here`: all of it, but this device stays this device. */
export function inPlaceOf(here: Contents, there: Contents): Contents {
  const ours = here.settings.filter(({ name }) => OF_DEVICE.includes(name));
  const theirs = there.settings.filter(({ name }) => !OF_DEVICE.includes(name));
  return { ...there, settings: [...theirs, ...ours] };
}
