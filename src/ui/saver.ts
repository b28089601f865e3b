/** Events on their way to the disk: painted at once, saved in their order, none left out. */
import type { LogEvent } from '../core/bench/events.ts';
import { savingSlowly, unsaved } from './state.ts';

/** Longer than this an event may not wait for the disk without a word (ours). */
const SLOW_MS = 2000;

export interface Saver {
  readonly save: (event: LogEvent) => void;
  /** Those of a warp that are painted and not saved yet, oldest first. */
  readonly unsavedOf: (warp: string) => readonly LogEvent[];
  /** The warp is gone: what waits for it is not wanted any more. */
  readonly forget: (warp: string) => void;
  /** Resolves when everything painted so far is saved, or could not be. */
  readonly settled: () => Promise<void>;
}

/** How many go into one write: a weaver's taps come alone, those of a fast hand or a slow disk together. */
const AT_ONCE = 64;

/** `append` answers whether the events were kept, all or none; `slowMs` after which waiting is said. */
export function createSaver(
  append: (events: readonly LogEvent[]) => Promise<boolean>,
  slowMs = SLOW_MS,
): Saver {
  let waiting: readonly LogEvent[] = [];
  let saving: Promise<void> = Promise.resolve();
  const setWaiting = (events: readonly LogEvent[]): void => {
    waiting = events;
    unsaved.value = events.length;
    if (events.length === 0) savingSlowly.value = false;
  };
  /** What failed stays at the head and is tried again with the next tap: the log has no holes. */
  const saveWaiting = async (): Promise<void> => {
    while (waiting.length > 0) {
      const next = waiting.slice(0, AT_ONCE);
      if (!(await append(next))) return;
      const kept = new Set(next);
      setWaiting(waiting.filter((it) => !kept.has(it)));
    }
  };
  return {
    save: (event) => {
      setWaiting([...waiting, event]);
      saving = saving.then(saveWaiting);
      setTimeout(() => {
        if (waiting.includes(event)) savingSlowly.value = true;
      }, slowMs);
    },
    unsavedOf: (id) => waiting.filter(({ warp }) => warp === id),
    forget: (id) => setWaiting(waiting.filter(({ warp }) => warp !== id)),
    settled: () => saving,
  };
}
