/**
 * The database of the warps, read past the store and whatever its version: what a snapshot is taken
 * of, in a worker beside the bench or before an upgrade. Writes nothing and makes nothing.
 */
import { wrap } from 'idb';
import type { Contents } from '../../core/backup/contents.ts';
import { readContents } from '../bulk.ts';
import { DATABASE_NAME, type Database, ROOM_NAMES } from '../schema.ts';
import { reading } from '../transaction.ts';

/** Null when there is no such database; rooms it has not yet are empty. */
export async function readDatabase(
  factory: IDBFactory,
  name: string = DATABASE_NAME,
): Promise<Contents | null> {
  const database = await openExisting(factory, name);
  if (database === null) return null;
  try {
    const rooms = ROOM_NAMES.filter((room) => database.objectStoreNames.contains(room));
    return await reading(database, rooms, readContents);
  } finally {
    database.close();
  }
}

async function openExisting(factory: IDBFactory, name: string): Promise<Database | null> {
  const request = factory.open(name);
  let isNew = false;
  request.addEventListener('upgradeneeded', () => {
    isNew = true;
    request.transaction?.abort();
  });
  try {
    return (await wrap(request)) as unknown as Database;
  } catch (error) {
    if (isNew) return null;
    throw error;
  }
}
