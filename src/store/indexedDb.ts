/**
 * The store in IndexedDB. Writes go one after the other, each in a strict transaction of its own.
 *
 * A try may have been committed although its handle was lost before it could say so. Every write
 * can therefore be repeated: on a second try, finding its own record there counts as written.
 */
import type { LogEvent } from '../core/bench/events.ts';
import type { Plan } from '../core/plan/plan.ts';
import { addContents, readContents, replaceContents } from './bulk.ts';
import { type Connection, createConnection } from './connection.ts';
import { withoutRepeats, wovenOn } from './log.ts';
import { plainCopy } from './plain.ts';
import { createQueue } from './queue.ts';
import {
  DATABASE_NAME,
  type EventRecord,
  keysOfKind,
  keysOfWarp,
  type ReadTransaction,
  ROOM_NAMES,
  type RoomName,
  type WriteTransaction,
} from './schema.ts';
import {
  type PlanRevision,
  type Store,
  type StoredRevision,
  StoreError,
  type WarpRecord,
} from './store.ts';
import { reading, writing } from './transaction.ts';
import { closedByUs, noSuchWarp, revisionAlreadyThere, warpAlreadyThere } from './trouble.ts';

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
  const connection = createConnection(factory, options.name ?? DATABASE_NAME);
  await connection.use(async () => undefined);
  return storeOver(connection);
}

type Write = (
  rooms: RoomName[],
  work: (transaction: WriteTransaction, attempt: number) => Promise<void>,
) => Promise<void>;

type Read = <T>(
  room: RoomName | RoomName[],
  work: (transaction: ReadTransaction) => Promise<T>,
) => Promise<T>;

type LogWriters = Pick<
  Store,
  'addWarp' | 'addRevision' | 'removeWarp' | 'append' | 'appendAll' | 'setSetting'
>;
type RecordWriters = Pick<Store, 'putRecord' | 'removeRecord'>;
type BulkWriters = Pick<Store, 'addContents' | 'replaceContents'>;
type Writers = LogWriters & RecordWriters & BulkWriters;

function storeOver(connection: Connection): Store {
  const queue = createQueue();
  let closed = false;
  const write: Write = async (rooms, work) => {
    if (closed) throw closedByUs();
    return queue(() =>
      connection.use((database, attempt) =>
        writing(database, rooms, (transaction) => work(transaction, attempt)),
      ),
    );
  };
  const read: Read = async (rooms, work) => {
    if (closed) throw closedByUs();
    return connection.use((database) => reading(database, [rooms].flat(), work));
  };
  const close = (): void => {
    closed = true;
    // Behind the writes already asked for: they were promised an answer.
    void queue(async () => connection.close());
  };
  return {
    ...writersBy(write),
    ...recordWritersBy(write),
    ...bulkWritersBy(write),
    ...readersBy(read),
    close,
  };
}

/** Each copies what it is given before anything is awaited: its caller may go on with it. */
function writersBy(write: Write): LogWriters {
  return {
    addWarp: async (warp, plan) => {
      const record = plainCopy(warp, 'warp');
      const first = firstRevision(record, plainCopy(plan, 'plan'));
      await write(['warps', 'revisions'], (tx, attempt) => addWarp(tx, record, first, attempt));
    },
    addRevision: async (revision) => {
      const record = plainCopy(revision, 'revision');
      await write(['warps', 'revisions'], (tx, attempt) => addRevision(tx, record, attempt));
    },
    removeWarp: (id) => write(['warps', 'revisions', 'events'], (tx) => removeWarp(tx, id)),
    append: async (event) => {
      const copy = plainCopy(event, 'event');
      await write(['warps', 'events'], (tx) => appendAll(tx, [copy]));
    },
    appendAll: async (events) => {
      const copies = plainCopy(events, 'events');
      await write(['warps', 'events'], (tx) => appendAll(tx, copies));
    },
    setSetting: async (name, value) => {
      const record = { name, value: plainCopy(value, name) };
      await write(['settings'], async (tx) => {
        await tx.objectStore('settings').put(record);
      });
    },
  };
}

function recordWritersBy(write: Write): RecordWriters {
  return {
    putRecord: async (record) => {
      const copy = plainCopy(record, 'record');
      await write(['records'], async (tx) => {
        await tx.objectStore('records').put(copy);
      });
    },
    removeRecord: (kind, id) =>
      write(['records'], (tx) => tx.objectStore('records').delete([kind, id])),
  };
}

function bulkWritersBy(write: Write): BulkWriters {
  return {
    addContents: async (more) => {
      const copy = plainCopy(more, 'contents');
      await write([...ROOM_NAMES], (tx) => addContents(tx, copy));
    },
    replaceContents: async (contents) => {
      const copy = plainCopy(contents, 'contents');
      await write([...ROOM_NAMES], (tx) => replaceContents(tx, copy));
    },
  };
}

function readersBy(read: Read): Omit<Store, keyof Writers | 'close'> {
  return {
    warps: () => read('warps', (tx) => tx.objectStore('warps').getAll()),
    revisionsOf: (warp) =>
      read('revisions', (tx) => tx.objectStore('revisions').getAll(keysOfWarp(warp))),
    eventsOf: async (warp) => {
      const records = await read('events', (tx) =>
        tx.objectStore('events').getAll(keysOfWarp(warp)),
      );
      return records.map(withoutPlace);
    },
    setting: async (name) =>
      (await read('settings', (tx) => tx.objectStore('settings').get(name)))?.value,
    records: (kind) => read('records', (tx) => tx.objectStore('records').getAll(keysOfKind(kind))),
    record: (kind, id) => read('records', (tx) => tx.objectStore('records').get([kind, id])),
    contents: () => read([...ROOM_NAMES], readContents),
  };
}

async function addWarp(
  tx: WriteTransaction,
  warp: WarpRecord,
  first: StoredRevision,
  attempt: number,
): Promise<void> {
  const warps = tx.objectStore('warps');
  const existing = await warps.get(warp.id);
  if (existing === undefined) {
    await Promise.all([warps.add(warp), tx.objectStore('revisions').add(first)]);
    return;
  }
  if (attempt === 0 || !isSame(existing, warp)) throw warpAlreadyThere(warp.id);
}

async function addRevision(
  tx: WriteTransaction,
  revision: PlanRevision,
  attempt: number,
): Promise<void> {
  const revisions = tx.objectStore('revisions');
  const [warp, existing] = await Promise.all([
    tx.objectStore('warps').getKey(revision.warp),
    revisions.get([revision.warp, revision.revision]),
  ]);
  if (warp === undefined) throw noSuchWarp(revision.warp);
  if (existing === undefined) {
    await revisions.add(revision);
    return;
  }
  if (attempt > 0 && isSame(existing, revision)) return;
  throw revisionAlreadyThere(revision.warp, revision.revision);
}

async function removeWarp(tx: WriteTransaction, id: string): Promise<void> {
  await Promise.all([
    tx.objectStore('warps').delete(id),
    tx.objectStore('revisions').delete(keysOfWarp(id)),
    tx.objectStore('events').delete(keysOfWarp(id)),
  ]);
}

async function appendAll(tx: WriteTransaction, events: readonly LogEvent[]): Promise<void> {
  for (const warp of new Set(events.map((event) => event.warp))) {
    await appendTo(
      tx,
      warp,
      events.filter((event) => event.warp === warp),
    );
  }
}

/**
 * The place is read from the end of the log each time instead of being remembered: one seek, and
 * right whoever else has written meanwhile.
 */
async function appendTo(
  tx: WriteTransaction,
  id: string,
  events: readonly LogEvent[],
): Promise<void> {
  const [warps, log] = [tx.objectStore('warps'), tx.objectStore('events')];
  const [warp, last, ...known] = await Promise.all([
    warps.get(id),
    log.openKeyCursor(keysOfWarp(id), 'prev'),
    ...events.map((event) => log.index('id').getKey([id, event.id])),
  ]);
  if (warp === undefined) throw noSuchWarp(id);
  const fresh = withoutRepeats(events.filter((_, n) => known[n] === undefined));
  if (fresh.length === 0) return;
  const seq = last === null ? 0 : last.primaryKey[1] + 1;
  await Promise.all([
    ...fresh.map((event, n) => log.add({ ...event, seq: seq + n })),
    warps.put(wovenOn(warp, fresh)),
  ]);
}

function firstRevision(warp: WarpRecord, plan: Plan): StoredRevision {
  return { warp: warp.id, revision: 0, madeAt: warp.madeAt, plan };
}

function withoutPlace({ seq, ...event }: EventRecord): LogEvent {
  return event;
}

/** Structured clone keeps the order of keys, so the same record reads back as the same text. */
function isSame(stored: unknown, given: unknown): boolean {
  return JSON.stringify(stored) === JSON.stringify(given);
}
