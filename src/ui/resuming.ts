/**
 * A long log taken up where it was kept folded: only what came after is read before the bench stands,
 * the rest behind it. Whatever does not fit is no use, and the log is read and folded whole.
 */

import type { LogEvent } from '../core/bench/events.ts';
import { goOn, type Kept, type PlainProgress, progressFrom, sumOfIds } from '../core/bench/kept.ts';
import type { Plan } from '../core/plan/plan.ts';
import { keepFold, readFold } from '../store/folds.ts';
import type { Store, WarpRecord } from '../store/store.ts';
import { type Session, session } from './state.ts';

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

/** Events read at a time behind the bench, so that no tap waits for them. */
const AT_ONCE = 3_000;

/** Milliseconds after which what could not be read is tried again: without it there is no undo. */
const AGAIN_MS = 1_000;

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

/** Null where nothing kept fits the log: nothing was changed. */
export async function resumed(store: Store, warp: WarpRecord, base: Plan): Promise<Session | null> {
  const fold = (await readFold().catch(() => undefined)) as StoredFold | undefined;
  if (fold?.version !== FOLD_VERSION || fold.warp !== warp.id) return null;
  if (fold.base !== JSON.stringify(base)) return null;
  const log = [...(await store.eventsOf(warp.id, fold.events - 1))];
  const folded = log[0]?.id === fold.last ? foldFrom(fold, log) : null;
  if (folded === null) return null;
  const { kept, progress } = folded;
  coming = bring(store, { warp: warp.id, log, fold }).finally(() => {
    coming = null;
    isWaitedFor = false;
  });
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

interface Bringing {
  readonly warp: string;
  /** Of the whole log what is there by now. */
  readonly log: LogEvent[];
  readonly fold: StoredFold;
}

/** Puts what is in the fold before the rest; if it is not that, the fold was of no use. */
async function bring(store: Store, { warp, log, fold }: Bringing): Promise<void> {
  const isWanted = () => session.peek()?.log === log;
  const end = fold.events - 1;
  const head: LogEvent[] = [];
  while (head.length < end) {
    // The screen is painted, and taps are heard, between two parts.
    await pause(0);
    if (!isWanted()) return;
    const to = Math.min(end, head.length + AT_ONCE);
    const part = await store.eventsOf(warp, head.length, to).catch(() => null);
    if (part === null) await pause(AGAIN_MS);
    else if (part.length === 0) break;
    else head.push(...part);
  }
  const at = session.peek();
  if (at?.log !== log) return;
  const rest = log.splice(0);
  for (const event of head) log.push(event);
  for (const event of rest) log.push(event);
  const isRight = head.length === end && sumOfIds(log, fold.events) === fold.sum;
  session.value = isRight ? { ...at } : (await import('./keepingFold.ts')).refolded(at);
  if (!isRight) await keepFold(undefined).catch(() => undefined);
}

const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));
