/**
 * Fills the app's own database with a woven warp, all at once: a tap at a time would take minutes.
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

/** Fetches the warp (JSON of `WovenWarp`) and puts it on the bench; the next load shows it. */
export async function seed(url: string): Promise<void> {
  const { warp, plan, log }: WovenWarp = await (await fetch(url)).json();
  const database = await openDB<FellmarkSchema>(DATABASE_NAME, DATABASE_VERSION, { upgrade });
  const rooms = ['warps', 'revisions', 'events', 'settings'] as const;
  const transaction = database.transaction(rooms, 'readwrite', { durability: 'strict' });
  const { madeAt } = warp;
  void transaction.objectStore('warps').put(warp);
  void transaction.objectStore('revisions').put({ warp: warp.id, revision: 0, madeAt, plan });
  for (const [seq, event] of log.entries()) {
    void transaction.objectStore('events').put({ ...event, seq });
  }
  void transaction.objectStore('settings').put({ name: 'weaving', value: warp.id });
  await transaction.done;
  database.close();
}
