/**
 * Snapshots in a database of their own, for browsers without a private file system. What goes wrong
 * in the database of the warps (a bad import, an upgrade that fails, data of a newer app) leaves it
 * alone.
 */
import type { DBSchema, IDBPDatabase } from 'idb';
import { wrap } from 'idb';
import { decodeNote, type SnapshotNote } from '../../core/backup/snapshots.ts';
import type { Bytes, SnapshotHouse } from './house.ts';

const SNAPSHOT_DATABASE = 'fellmark-snapshots';
const VERSION = 1;

interface SnapshotSchema extends DBSchema {
  notes: { key: string; value: SnapshotNote };
  bytes: { key: string; value: Bytes };
}
type Database = IDBPDatabase<SnapshotSchema>;

/** Opened anew for each use: it is used every half hour, and tablets close handles left open. */
export function databaseHouse(factory: IDBFactory): SnapshotHouse {
  return {
    list: () =>
      using(factory, 'existing', [], async (database) => {
        const notes: readonly unknown[] = await database.getAll('notes');
        return notes.flatMap((note) => decodeNote(note) ?? []);
      }),
    put: (note, bytes) =>
      using(factory, 'any', undefined, async (database) => {
        const tx = database.transaction(['notes', 'bytes'], 'readwrite', { durability: 'strict' });
        await Promise.all([
          tx.objectStore('notes').put(note, note.id),
          tx.objectStore('bytes').put(bytes, note.id),
          tx.done,
        ]);
      }),
    get: (id) => using(factory, 'existing', undefined, (database) => database.get('bytes', id)),
    remove: (id) =>
      using(factory, 'existing', undefined, async (database) => {
        const tx = database.transaction(['notes', 'bytes'], 'readwrite');
        await Promise.all([
          tx.objectStore('notes').delete(id),
          tx.objectStore('bytes').delete(id),
          tx.done,
        ]);
      }),
  };
}

/** Uses the database; who only wants an `existing` one gets `without` where there is none, and none is made. */
async function using<T>(
  factory: IDBFactory,
  want: 'any' | 'existing',
  without: T,
  work: (database: Database) => Promise<T>,
): Promise<T> {
  const request = factory.open(SNAPSHOT_DATABASE, VERSION);
  let isMissing = false;
  request.addEventListener('upgradeneeded', () => {
    isMissing = want === 'existing';
    if (isMissing) request.transaction?.abort();
    else for (const room of ['notes', 'bytes']) request.result.createObjectStore(room);
  });
  const database = await (wrap(request) as unknown as Promise<Database>).catch((error: unknown) => {
    if (isMissing) return null;
    throw error;
  });
  if (database === null) return without;
  try {
    return await work(database);
  } finally {
    database.close();
  }
}
