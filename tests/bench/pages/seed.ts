/**
 * Fills the app's own database with a woven warp, many events at once: a tap at a time would take minutes.
 * It goes through the app's schema, so that a change of the schema is an error of types here.
 */
import { openDB } from 'idb';
import {
  DATABASE_NAME,
  DATABASE_VERSION,
  type FellmarkSchema,
  upgrade,
} from '../../../src/store/schema.ts';
import type { WovenWarp } from '../samples.ts';

/** Events in a transaction. */
const AT_ONCE = 200;

/** Fetches the warp (JSON of `WovenWarp`) and puts it on the bench; the next load shows it. */
export async function seed(url: string): Promise<void> {
  const { warp, plan, log }: WovenWarp = await (await fetch(url)).json();
  const database = await openDB<FellmarkSchema>(DATABASE_NAME, DATABASE_VERSION, { upgrade });
  const rooms = ['warps', 'revisions', 'events', 'settings'] as const;
  const transaction = database.transaction(rooms, 'readwrite', { durability: 'strict' });
  const { madeAt } = warp;
  void transaction.objectStore('warps').put(warp);
  void transaction.objectStore('revisions').put({ warp: warp.id, revision: 0, madeAt, plan });
  void transaction.objectStore('settings').put({ name: 'weaving', value: warp.id });
  await transaction.done;
  // A little at a time, as taps leave it: one transaction as large as the log would leave so much to
  // clear away in the browser's own files that it shows at every start until they are next rewritten.
  for (let from = 0; from < log.length; from += AT_ONCE) {
    const part = database.transaction('events', 'readwrite', { durability: 'relaxed' });
    for (const [n, event] of log.slice(from, from + AT_ONCE).entries()) {
      void part.store.put({ ...event, seq: from + n });
    }
    await part.done;
  }
  database.close();
}
