/** Takes a snapshot of what is on the disk, in a worker, so that the next tap is painted at once. */
import type { SnapshotNote } from '../../core/backup/snapshots.ts';
import type { SnapshotOrder } from './keeper.ts';

/** What the worker says. */
export type Answer =
  | { readonly kind: 'taken'; readonly note: SnapshotNote | null }
  | { readonly kind: 'failed'; readonly why: string };

/** Past this a worker is taken for stuck: another window may hold the database. */
const PATIENCE_MS = 60_000;

/**
 * Null when there is nothing on the disk yet. Rejects when it could not be kept: then nothing that
 * would need it should be done.
 */
export async function takeSnapshot(order: SnapshotOrder): Promise<SnapshotNote | null> {
  const worker = startWorker();
  if (worker === null) return here(order);
  try {
    const answer = await answerOf(worker, order);
    if (answer === null) return await here(order);
    if (answer.kind === 'failed') throw new Error(answer.why);
    return answer.note;
  } finally {
    worker.terminate();
  }
}

function startWorker(): Worker | null {
  try {
    return new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' });
  } catch {
    return null;
  }
}

/** Null when the worker does not even start: its file may be gone with an older version. */
function answerOf(worker: Worker, order: SnapshotOrder): Promise<Answer | null> {
  return new Promise((resolve, reject) => {
    const stuck = () => reject(new Error('got no snapshot in a minute'));
    const timer = setTimeout(stuck, PATIENCE_MS);
    const settle = (answer: Answer | null) => {
      clearTimeout(timer);
      resolve(answer);
    };
    worker.onmessage = ({ data }: MessageEvent<Answer>) => settle(data);
    worker.onerror = () => settle(null);
    worker.postMessage(order);
  });
}

async function here(order: SnapshotOrder): Promise<SnapshotNote | null> {
  const { takeFromDisk } = await import('./takeFromDisk.ts');
  return takeFromDisk(order);
}
