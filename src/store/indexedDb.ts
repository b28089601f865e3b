/** The store in the database alone: for tests and measurements. The app keeps a second copy. */
import { openDatabaseCopy } from './database.ts';
import { openDurable } from './durable.ts';
import { DATABASE_NAME } from './schema.ts';
import { type Store, StoreError } from './store.ts';
import { noWitness } from './witness.ts';

export interface IndexedDbOptions {
  readonly name?: string;
  readonly indexedDB?: IDBFactory;
}

/**
 * Opens the store, making the database if there is none.
 *
 * Rejects with `StoreError`: `newer-data` when a newer app wrote it (nothing is touched), `refused`
 * when the browser keeps nothing for this page.
 *
 * @example const store = await openIndexedDbStore();
 */
export async function openIndexedDbStore(options: IndexedDbOptions = {}): Promise<Store> {
  const factory = options.indexedDB ?? globalThis.indexedDB;
  if (factory === undefined) throw new StoreError('refused', 'got a browser without IndexedDB');
  return openDurable({
    database: await openDatabaseCopy(factory, options.name ?? DATABASE_NAME),
    journal: null,
    witness: noWitness,
    windows: null,
    by: 'alone',
    newStore: 'alone',
    finishing: async () => undefined,
  });
}
