/** Everything at one go: read at one moment, or written in one transaction. */
import type { Contents, WarpContents } from '../core/backup/contents.ts';
import { keysOfWarp, type ReadTransaction, ROOM_NAMES, type WriteTransaction } from './schema.ts';
import type { StoredRecord, WarpRecord } from './store.ts';

/**
 * Plans and events of a warp that is not there are no part of it: nothing could show them. Rooms that
 * an older database has not yet are empty.
 */
export async function readContents(tx: ReadTransaction): Promise<Contents> {
  const [warps, records, settings] = await Promise.all([
    tx.objectStore('warps').getAll(),
    tx.objectStoreNames.contains('records') ? tx.objectStore('records').getAll() : [],
    tx.objectStore('settings').getAll(),
  ]);
  return { warps: await Promise.all(warps.map((warp) => contentsOf(tx, warp))), records, settings };
}

async function contentsOf(tx: ReadTransaction, warp: WarpRecord): Promise<WarpContents> {
  const [revisions, events] = await Promise.all([
    tx.objectStore('revisions').getAll(keysOfWarp(warp.id)),
    tx.objectStore('events').getAll(keysOfWarp(warp.id)),
  ]);
  return {
    warp,
    plans: revisions.map(({ warp: _, ...plan }) => plan),
    log: events.map(({ seq: _, ...event }) => event),
  };
}

/** Adds to what is there, as `Store.addContents` promises; the transaction is over all of `ROOM_NAMES`. */
export async function addContents(tx: WriteTransaction, more: Contents): Promise<void> {
  await Promise.all([
    ...more.warps.map((it) => addWarpContents(tx, it)),
    // A kind that only a newer version knows is kept with the rest, unread.
    ...more.records.map((record) => tx.objectStore('records').put(record as StoredRecord)),
    ...more.settings.map((setting) => tx.objectStore('settings').put(setting)),
  ]);
}

/** Empties every room but the ledger's, which the writer keeps, and puts these contents there. */
export async function replaceContents(tx: WriteTransaction, contents: Contents): Promise<void> {
  await Promise.all(ROOM_NAMES.map((room) => tx.objectStore(room).clear()));
  await addContents(tx, contents);
}

async function addWarpContents(tx: WriteTransaction, { warp, plans, log }: WarpContents) {
  const [revisions, events] = [tx.objectStore('revisions'), tx.objectStore('events')];
  const [numbers, known] = await Promise.all([
    revisions.getAllKeys(keysOfWarp(warp.id)),
    events.getAll(keysOfWarp(warp.id)),
  ]);
  const there = new Set(numbers.map(([, number]) => number));
  const freshPlans = plans.filter(({ revision }) => !there.has(revision) && there.add(revision));
  const ids = new Set(known.map(({ id }) => id));
  const fresh = log.filter(({ id }) => !ids.has(id) && ids.add(id));
  const seq = (known.at(-1)?.seq ?? -1) + 1;
  await Promise.all([
    tx.objectStore('warps').put(warp),
    ...freshPlans.map((plan) => revisions.add({ warp: warp.id, ...plan })),
    ...fresh.map((event, n) => events.add({ ...event, warp: warp.id, seq: seq + n })),
  ]);
}
