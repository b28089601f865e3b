/** The store of the app, with all that this browser has to keep it in. */
import { createBus } from './bus.ts';
import { openDatabaseCopy } from './database.ts';
import type { DeskOptions } from './desk.ts';
import { type DurableStore, openDurable } from './durable.ts';
import { createWorkerJournal } from './journal/journal.ts';
import { DATABASE_NAME } from './schema.ts';
import { StoreError } from './store.ts';
import { createWitness } from './witness.ts';

const CHANNEL = 'fellmark';

/**
 * Opens it, making it if there is none.
 *
 * Rejects with `StoreError`: `newer-data` when a newer app wrote it (nothing is touched), `blocked`
 * while an older one holds it, `refused` when the browser keeps nothing for this page.
 *
 * @example const store = await openStore({ by: newId(), newStore: newId(), finishing: allSaved });
 */
export async function openStore(
  options: Pick<DeskOptions, 'by' | 'newStore' | 'finishing'>,
): Promise<DurableStore> {
  const { indexedDB } = globalThis;
  if (indexedDB === undefined) throw new StoreError('refused', 'got a browser without IndexedDB');
  // The worker starts while the database opens; what it opens, it opens when asked.
  const journal = createWorkerJournal();
  const database = await openDatabaseCopy(indexedDB, DATABASE_NAME);
  const witness = createWitness(() => localStorage);
  return openDurable({ ...options, database, journal, witness, windows: windowsHere() });
}

function windowsHere(): DeskOptions['windows'] {
  const { locks } = navigator;
  if (locks === undefined || typeof BroadcastChannel !== 'function') return null;
  return { locks, bus: createBus(new BroadcastChannel(CHANNEL)) };
}
