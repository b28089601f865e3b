/**
 * A long log taken up where it was kept folded: only what came after is read before the bench stands,
 * the rest behind it. Whatever does not fit is no use, and the log is read and folded whole.
 */

import type { LogEvent } from '../core/bench/events.ts';
import { goOn, type Kept, type PlainProgress, progressFrom } from '../core/bench/kept.ts';
import type { Plan } from '../core/plan/plan.ts';
import { readFold } from '../store/folds.ts';
import type { Store, WarpRecord } from '../store/store.ts';
import type { Session } from './state.ts';

export interface StoredFold {
  readonly version: string;
  readonly warp: string;
  /** The plan the log is folded over, as JSON. */
  readonly base: string;
  readonly events: number;
  /** The last of them. */
  readonly last: string;
  readonly sum: number;
  readonly progress: PlainProgress;
}

/** By another version of the app a log may have been folded otherwise. */
export const FOLD_VERSION = import.meta.env.FOLD_VERSION;

/** While the beginning of the log is being read. */
let coming: Promise<void> | null = null;
let isWaitedFor = false;

/** Does the work as soon as the whole log is there. */
export function whenWhole(work: () => void): void {
  if (coming === null) work();
  else {
    isWaitedFor = true;
    void coming.then(work);
  }
}

/** At once, unless something tapped before it waits for the whole log. */
export function inTurn(work: () => void): void {
  if (isWaitedFor) whenWhole(work);
  else work();
}

export const wholeLog = (): Promise<void> => coming ?? Promise.resolve();

/** What was kept of a log, undefined where there is nothing; not to be waited for before it is wanted. */
export const foldAtHand = (): Promise<StoredFold | undefined> =>
  readFold().catch(() => undefined) as Promise<StoredFold | undefined>;

/** Null where nothing kept fits the log: nothing was changed. */
export async function resumed(
  store: Store,
  warp: WarpRecord,
  base: Plan,
  fold: StoredFold | undefined,
): Promise<Session | null> {
  if (fold?.version !== FOLD_VERSION || fold.warp !== warp.id) return null;
  if (fold.base !== JSON.stringify(base)) return null;
  const log = [...(await store.eventsOf(warp.id, fold.events - 1))];
  const folded = log[0]?.id === fold.last ? foldFrom(fold, log) : null;
  if (folded === null) return null;
  const { kept, progress } = folded;
  coming = behind(store, { warp: warp.id, log, fold });
  return { warp, plan: progress.course.plan, base, log, kept, progress };
}

function foldFrom({ events, progress }: StoredFold, log: readonly LogEvent[]) {
  try {
    const kept: Kept = { events, progress: progressFrom(progress) };
    const now = goOn(kept.progress, log.slice(1));
    return now === null ? null : { kept, progress: now };
  } catch {
    return null;
  }
}

/** What of the log is there by now, and the fold that holds the rest. */
export interface Bringing {
  readonly warp: string;
  readonly log: LogEvent[];
  readonly fold: StoredFold;
}

async function behind(store: Store, what: Bringing): Promise<void> {
  await (await import('./keepingFold.ts')).bring(store, what);
  coming = null;
  isWaitedFor = false;
}
