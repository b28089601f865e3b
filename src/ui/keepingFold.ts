/** Keeps a long log folded for the next start, in a moment when nobody taps. */
import { effect } from '@preact/signals';
import { foldedOn, keptOn, plainOf, sumOfIds } from '../core/bench/kept.ts';
import { keepFold } from '../store/folds.ts';
import { FOLD_VERSION, type StoredFold, wholeLog } from './resuming.ts';
import { type Session, session, unsaved } from './state.ts';

/** A shorter log is folded before anyone could see it. */
const LONG = 1_500;
/** So many events more, and it is worth keeping it anew. */
const MORE = 400;
/** Milliseconds without a tap. */
const QUIET_MS = 1_200;

/** From now on; `quietMs` without a tap. */
export function keepFolds(quietMs = QUIET_MS): () => void {
  let kept: { readonly warp: string; readonly events: number } | null = null;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const keep = async () => {
    await wholeLog();
    const at = session.peek();
    if (at === null || unsaved.peek() > 0) return;
    const more = { ...at, kept: keptOn(at.base, at.log, at.kept) };
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
export function refolded(at: Session): Session {
  const { kept, progress } = foldedOn(at.base, at.log);
  return { ...at, plan: progress.course.plan, kept, progress };
}
