/**
 * A long log taken up where it was kept folded: only what came after is read before the bench stands,
 * the rest behind it. Whatever does not fit is no use, and the log is read and folded whole.
 */

import type { LogEvent } from '../core/bench/events.ts';
import { goOn, type Kept, type PlainProgress, progressFrom } from '../core/bench/kept.ts';
import type { Plan } from '../core/plan/plan.ts';
import { readFold } from '../store/folds.ts';
import type { Store, WarpRecord } from '../store/store.ts';
import { once } from './once.ts';
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

/** What was kept of a log. */
export interface AtHand {
  readonly fold: StoredFold;
  /** It with its course laid, the first time that is asked for; null where that cannot be. */
  readonly kept: () => Kept | null;
}

/**
 * Null where nothing is kept that this version could go on from, or only of another warp than the one
 * that is wanted. Asks nothing of the store, which is being opened meanwhile.
 */
export async function foldAtHand(wanted?: string): Promise<AtHand | null> {
  try {
    const fold = (await readFold()) as StoredFold | undefined;
    if (fold?.version !== FOLD_VERSION || fold.warp !== (wanted ?? fold.warp)) return null;
    return { fold, kept: once(() => laid(fold)) };
  } catch {
    return null;
  }
}

function laid({ events, progress }: StoredFold): Kept | null {
  try {
    return { events, progress: progressFrom(progress) };
  } catch {
    return null;
  }
}

/** What was kept of a log, and what came after it, from its last event on. */
export interface Tail extends AtHand {
  readonly log: LogEvent[];
}

/** Null where nothing is kept of this warp. */
export async function tailOf(
  store: Pick<Store, 'eventsOf'>,
  warp: string,
  atHand: Promise<AtHand | null>,
): Promise<Tail | null> {
  const found = await atHand;
  if (found?.fold.warp !== warp) return null;
  const reading = store.eventsOf(warp, found.fold.events - 1);
  // Whoever waits for it hears of what goes wrong.
  reading.catch(() => undefined);
  // The course is laid while the disk works: all that is to be read has been asked for by the next turn.
  await new Promise((resolve) => setTimeout(resolve));
  found.kept();
  return { ...found, log: [...(await reading)] };
}

/** Null where what was kept does not fit the log: nothing was changed. */
export function resumed(
  store: Store,
  warp: WarpRecord,
  base: Plan,
  { fold, kept: keptOf, log }: Tail,
): Session | null {
  const kept = keptOf();
  if (kept === null || fold.base !== JSON.stringify(base) || log[0]?.id !== fold.last) return null;
  const progress = goneOn(kept, log);
  if (progress === null) return null;
  coming = behind(store, { warp: warp.id, log, fold });
  return { warp, plan: progress.course.plan, base, log, kept, progress };
}

function goneOn({ progress }: Kept, log: readonly LogEvent[]) {
  try {
    return goOn(progress, log.slice(1));
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
