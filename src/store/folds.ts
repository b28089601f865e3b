/**
 * What a log came to, kept from one start to the next in a database of its own: whatever goes wrong
 * with it cannot touch the log, from which it can be made anew at any time. Of one warp only, the last.
 */
import { type IDBPDatabase, openDB } from 'idb';

const NAME = 'fellmark-fold';
const ROOM = 'fold';
const KEY = 'last';

declare global {
  /** What `wake.js` read of it, where it has run: for the first who asks. */
  var fellmarkFold: Promise<unknown> | undefined;
}

/** Undefined where nothing is kept. Its reader checks it. */
export async function readFold(): Promise<unknown> {
  const woken = globalThis.fellmarkFold;
  globalThis.fellmarkFold = undefined;
  const read = () => using((database) => database.get(ROOM, KEY));
  return woken === undefined ? read() : woken.catch(read);
}

/** In the place of the one before; nothing at all for undefined. */
export const keepFold = (fold: object | undefined): Promise<unknown> =>
  using<unknown>((database) =>
    fold === undefined ? database.delete(ROOM, KEY) : database.put(ROOM, fold, KEY),
  );

async function using<T>(work: (database: IDBPDatabase) => Promise<T>): Promise<T> {
  const database = await openDB(NAME, 1, {
    upgrade: (made) => {
      made.createObjectStore(ROOM);
    },
  });
  try {
    return await work(database);
  } finally {
    database.close();
  }
}
