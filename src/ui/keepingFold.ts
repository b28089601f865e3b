/**
 * Keeps a long log folded for the next start, in a moment when nobody taps; and brings in, behind the
 * bench, the beginning of a log that was taken up so.
 */
import { effect } from '@preact/signals';
import type { LogEvent } from '../core/bench/events.ts';
import { keptOn, plainOf, sumOfIds } from '../core/bench/keeping.ts';
import { foldedOn } from '../core/bench/kept.ts';
import { keepFold } from '../store/folds.ts';
import type { Store } from '../store/store.ts';
import { quiet } from './device/quiet.ts';
import { type Bringing, FOLD_VERSION, type StoredFold, wholeLog } from './resuming.ts';
import { type Session, session, unsaved } from './state.ts';

/** A shorter log is folded before anyone could see it. */
const LONG = 1_500;
/** So many events more, and it is worth keeping it anew. */
const MORE = 400;
/** Milliseconds without a tap. */
const QUIET_MS = 1_200;

/** Events read at a time behind the bench, so that no tap waits for them. */
const AT_ONCE = 3_000;

/** Milliseconds after which what could not be read is tried again: without it there is no undo. */
const AGAIN_MS = 1_000;

/** From now on; `quietMs` without a tap. */
export function keepFolds(quietMs = QUIET_MS): () => void {
  let kept: { readonly warp: string; readonly events: number } | null = null;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const keep = async () => {
    await wholeLog();
    const at = session.peek();
    if (at === null || unsaved.peek() > 0) return;
    const more = { ...at, kept: keptOn(at.base, at.log, at.kept, at.progress) };
    if (more.kept !== at.kept) session.value = more;
    const fold = foldOf(more);
    const before = kept?.warp === at.warp.id ? kept.events : 0;
    if (fold === null || Math.abs(fold.events - before) < MORE) return;
    kept = { warp: fold.warp, events: fold.events };
    await keepFold(fold);
  };
  const stop = effect(() => {
    if (session.value === null) return;
    clearTimeout(timer);
    // Without it the next start is slower, and that is all.
    timer = setTimeout(() => void keep().catch(() => undefined), quietMs);
  });
  return () => {
    clearTimeout(timer);
    stop();
  };
}

/** Puts what is in the fold before the rest; if it is not that, the fold was of no use. */
export async function bring(store: Store, { warp, log, fold }: Bringing): Promise<void> {
  // Behind the first frame, and the cloth.
  await quiet();
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
  session.value = isRight ? { ...at } : refolded(at);
  if (!isRight) await keepFold(undefined).catch(() => undefined);
}

const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

/** Null where a log is shorter than `least`, or was never folded up to a place from which one can go on. */
export function foldOf({ warp, base, log, kept }: Session, least = LONG): StoredFold | null {
  const last = log[(kept?.events ?? 0) - 1];
  if (kept === null || last === undefined || kept.events < least) return null;
  return {
    version: FOLD_VERSION,
    warp: warp.id,
    base: JSON.stringify(base),
    events: kept.events,
    last: last.id,
    sum: sumOfIds(log, kept.events),
    progress: plainOf(kept.progress),
  };
}

/** The log of this warp folded from its beginning. */
function refolded(at: Session): Session {
  const { kept, progress } = foldedOn(at.base, at.log);
  return { ...at, plan: progress.course.plan, kept, progress };
}
