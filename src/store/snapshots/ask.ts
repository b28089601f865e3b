/**
 * Snapshots, asked of a worker of their own: with years of weaving in it, one takes a second to make,
 * and the next tap must be painted at once.
 */
import type { SnapshotNote } from '../../core/backup/snapshots.ts';
import type { SnapshotOrder } from './keeper.ts';

export type Ask =
  | { readonly kind: 'take'; readonly order: SnapshotOrder }
  | { readonly kind: 'list' }
  | { readonly kind: 'read'; readonly id: string };

/** What the worker says: what was asked for, or why there is none. */
export type Answer =
  | { readonly ok: true; readonly value: SnapshotNote | readonly SnapshotNote[] | string | null }
  | { readonly ok: false; readonly value: string };

/** Past this a worker is taken for stuck: another window may hold the database. */
const PATIENCE_MS = 60_000;

/**
 * Takes down what is on the disk. Null when there is nothing on it yet. Rejects when it could not be
 * kept: then nothing that would need it should be done.
 */
export function takeSnapshot(order: SnapshotOrder): Promise<SnapshotNote | null> {
  return asked({ kind: 'take', order }) as Promise<SnapshotNote | null>;
}

/** Newest first. */
export function listSnapshots(): Promise<readonly SnapshotNote[]> {
  return asked({ kind: 'list' }) as Promise<readonly SnapshotNote[]>;
}

/** The text of a backup file; rejects when the snapshot is not there or damaged. */
export function readSnapshot(id: string): Promise<string> {
  return asked({ kind: 'read', id }) as Promise<string>;
}

async function asked(ask: Ask): Promise<Answer['value']> {
  const worker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' });
  try {
    const answer = await answerOf(worker, ask);
    if (!answer.ok) throw new Error(answer.value);
    return answer.value;
  } finally {
    worker.terminate();
  }
}

function answerOf(worker: Worker, ask: Ask): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const fail = (why: string) => () => reject(new Error(why));
    const timer = setTimeout(fail('got no answer about snapshots in a minute'), PATIENCE_MS);
    worker.onmessage = ({ data }: MessageEvent<Answer>) => {
      clearTimeout(timer);
      resolve(data);
    };
    worker.onerror = fail('got no worker for snapshots');
    worker.postMessage(ask);
  });
}
