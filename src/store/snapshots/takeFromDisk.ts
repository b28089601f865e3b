import type { SnapshotNote } from '../../core/backup/snapshots.ts';
import { openSnapshotKeeper, type SnapshotOrder } from './keeper.ts';
import { readDatabase } from './readDatabase.ts';

/** Takes a snapshot of what is on the disk now; null when there is nothing yet. Rejects when it could not be kept. */
export async function takeFromDisk(order: SnapshotOrder): Promise<SnapshotNote | null> {
  const contents = await readDatabase(globalThis.indexedDB);
  if (contents === null) return null;
  return (await openSnapshotKeeper()).take(contents, order);
}
