/** The store of the app, with all that this browser has to keep it in. */
import { createBus } from './bus.ts';
import { type DatabaseCopy, openDatabaseCopy } from './database.ts';
import type { DeskOptions } from './desk.ts';
import { type DurableStore, type OpenOptions, openDurable } from './durable.ts';
import { createWorkerJournal, type Journal } from './journal/journal.ts';
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
  options: Pick<OpenOptions, 'by' | 'newStore' | 'finishing' | 'onReadable'>,
): Promise<DurableStore> {
  const { indexedDB } = globalThis;
  if (indexedDB === undefined) throw new StoreError('refused', 'got a browser without IndexedDB');
  // The worker starts while the database opens; what it opens, it opens when asked.
  const journal = createWorkerJournal();
  const database = await openMended(indexedDB, journal);
  const witness = createWitness(() => localStorage);
  return openDurable({ ...options, database, journal, witness, windows: windowsHere() });
}

/** A database that lost a room never opens again by itself. */
async function openMended(factory: IDBFactory, journal: Journal | null): Promise<DatabaseCopy> {
  const open = () => openDatabaseCopy(factory, DATABASE_NAME);
  return open().catch(async (why: StoreError) => {
    if (journal === null || why.trouble !== 'lost-connection') throw why;
    const mending = import('./mendRooms.ts').then((it) =>
      it.mendRooms(factory, DATABASE_NAME, journal),
    );
    if (await mending.catch(() => false)) return open();
    throw why;
  });
}

function windowsHere(): DeskOptions['windows'] {
  const { locks } = navigator;
  if (locks === undefined || typeof BroadcastChannel !== 'function') return null;
  return { locks, bus: createBus(new BroadcastChannel(CHANNEL)) };
}
