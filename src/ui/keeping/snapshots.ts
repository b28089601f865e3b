/** Snapshots as the screens see them. */
import { signal } from '@preact/signals';
import type { SnapshotNote, SnapshotReason } from '../../core/backup/snapshots.ts';
import { listSnapshots, readSnapshot, takeSnapshot } from '../../store/snapshots/ask.ts';
import { newId, now } from '../actions.ts';
import { APP_VERSION } from './everything.ts';

/** Newest first; null until they were looked for. */
export const snapshots = signal<readonly SnapshotNote[] | null>(null);

export async function loadSnapshots(): Promise<void> {
  // An old list would offer under a finger what is no longer the newest.
  snapshots.value = null;
  snapshots.value = await listSnapshots().catch(() => []);
}

/** Where a state went before it was changed: a snapshot, nowhere as there was none, or it could not be kept. */
export type Kept =
  | { readonly kind: 'kept'; readonly id: string }
  | { readonly kind: 'nothing' }
  | { readonly kind: 'failed' };

/** Takes what is on the disk down before it is changed. */
export async function keepFirst(reason: SnapshotReason, about?: string): Promise<Kept> {
  const what = about === undefined ? {} : { about };
  const order = { id: newId(), madeAt: now(), reason, app: APP_VERSION, ...what };
  try {
    const note = await takeSnapshot(order);
    return note === null ? { kind: 'nothing' } : { kind: 'kept', id: note.id };
  } catch {
    return { kind: 'failed' };
  }
}

/** The text of a snapshot; null when it is gone or damaged. */
export async function textOf(id: string): Promise<string | null> {
  try {
    return await readSnapshot(id);
  } catch {
    return null;
  }
}
