/**
 * The first copy: the database, and in it a ledger of how far it has come. Every write is one
 * strict transaction, the ledger in it.
 */
import type { LogEvent } from '../core/bench/events.ts';
import { readContents } from './bulk.ts';
import { type Connection, createConnection } from './connection.ts';
import type { Entry, Ledger, Op } from './op.ts';
import { perform } from './perform.ts';
import {
  type EventRecord,
  keysOfKind,
  keysOfWarp,
  LEDGER,
  type LedgerRecord,
  type ReadTransaction,
  ROOM_NAMES,
  ROOMS,
  type RoomName,
  type WriteTransaction,
} from './schema.ts';
import type { Store } from './store.ts';
import { asked, reading, writing } from './transaction.ts';
import { OutOfStep } from './trouble.ts';

/** Who writes, and what is known of the database. */
export interface Step {
  readonly by: string;
  /** The id of the store, should this be its first write. */
  readonly store: string;
  /** The last write known to be in the journal. */
  readonly flushed: number;
  /** The highest number this window ever wrote into the journal: it is not given again. */
  readonly posted: number;
  /** Whether the write may follow what the database holds; otherwise it is not made. */
  readonly mayFollow: (before: Ledger | null) => boolean;
  /** Called once the write is known to be one that may follow, before the commit. */
  readonly onTaken: (entry: Entry) => void;
}

export type Readers = Pick<
  Store,
  'warps' | 'revisionsOf' | 'eventsOf' | 'setting' | 'records' | 'record' | 'contents'
>;

export interface DatabaseCopy extends Readers {
  /** Null in a database that was never written to, and in one of an older version. */
  readonly ledger: () => Promise<Ledger | null>;
  /** Makes one write. Rejects with `OutOfStep` when it may not follow. */
  readonly commit: (op: Op, step: Step) => Promise<Ledger>;
  /** Work in one strict transaction over all rooms. */
  readonly repair: <T>(work: (tx: WriteTransaction) => Promise<T>) => Promise<T>;
  /** One consistent look at all rooms. */
  readonly survey: <T>(work: (tx: ReadTransaction) => Promise<T>) => Promise<T>;
  readonly close: () => void;
}

/**
 * Opens the database, making it if there is none. Rejects with `StoreError`. `blockedMs`: what an
 * older window has to let go of it.
 */
export async function openDatabaseCopy(
  factory: IDBFactory,
  name: string,
  blockedMs?: number,
): Promise<DatabaseCopy> {
  const connection = createConnection(factory, name, blockedMs);
  await connection.use(async () => undefined);
  const survey: DatabaseCopy['survey'] = (work) =>
    connection.use((database) => reading(database, EVERY_ROOM, work));
  return {
    ...readersOf(connection),
    ledger: () => connection.use((database) => reading(database, ['ledger'], readLedger)),
    commit: (op, step) => commit(connection, op, step),
    repair: (work) => connection.use((database) => writing(database, EVERY_ROOM, work)),
    survey,
    close: connection.close,
  };
}

const EVERY_ROOM: RoomName[] = [...ROOMS];

const ROOMS_OF: { readonly [kind in Op['kind']]: RoomName[] } = {
  warp: ['warps', 'revisions'],
  revision: ['warps', 'revisions'],
  events: ['warps', 'events'],
  setting: ['settings'],
  record: ['records'],
  noWarp: ['warps', 'revisions', 'events'],
  noRecord: ['records'],
  more: [...ROOM_NAMES],
  all: [...ROOM_NAMES],
};

/**
 * A try may have been committed although its handle was lost before it could say so. The ledger
 * tells: a second try that finds its own number there has nothing left to do.
 */
function commit(connection: Connection, op: Op, step: Step): Promise<Ledger> {
  let given: number | null = null;
  return connection.use((database) =>
    writing(database, [...ROOMS_OF[op.kind], 'ledger'], async (tx) => {
      const earlier = given === null ? null : await readLedger(tx);
      if (earlier !== null && earlier.n === given && earlier.by === step.by) return earlier;
      const [before, tally] = await Promise.all([readLedger(tx), perform(tx, op)]);
      if (!step.mayFollow(before)) throw new OutOfStep(before?.n ?? 0);
      const after = before?.n ?? 0;
      given = Math.max(after, step.posted) + 1;
      const ledger: Ledger = {
        store: before?.store ?? step.store,
        n: given,
        by: step.by,
        flushed: step.flushed,
        events: (before?.events ?? 0) + tally.events,
        warps: (before?.warps ?? 0) + tally.warps,
      };
      asked(putLedger(tx, ledger));
      step.onTaken({ n: given, by: step.by, after, op });
      return ledger;
    }),
  );
}

/** How far the database has come; null where nobody wrote yet, or only an older version. */
export async function readLedger(tx: ReadTransaction | WriteTransaction): Promise<Ledger | null> {
  const record = await tx.objectStore('ledger').get(LEDGER);
  if (record === undefined) return null;
  const { name, ...ledger } = record;
  return ledger;
}

/** Says how far the database has come, in the very transaction that brings it there. */
export async function putLedger(tx: WriteTransaction, ledger: Ledger): Promise<void> {
  const record: LedgerRecord = { name: LEDGER, ...ledger };
  await tx.objectStore('ledger').put(record);
}

function readersOf(connection: Connection): Readers {
  const read = <T>(room: RoomName, work: (tx: ReadTransaction) => Promise<T>): Promise<T> =>
    connection.use((database) => reading(database, [room], work));
  return {
    warps: () => read('warps', (tx) => tx.objectStore('warps').getAll()),
    revisionsOf: (warp) =>
      read('revisions', (tx) => tx.objectStore('revisions').getAll(keysOfWarp(warp))),
    eventsOf: async (warp, from, to) => {
      const records = await read('events', (tx) =>
        tx.objectStore('events').getAll(keysOfWarp(warp, from, to)),
      );
      return records.map(withoutPlace);
    },
    setting: async (name) =>
      (await read('settings', (tx) => tx.objectStore('settings').get(name)))?.value,
    records: (kind) => read('records', (tx) => tx.objectStore('records').getAll(keysOfKind(kind))),
    record: (kind, id) => read('records', (tx) => tx.objectStore('records').get([kind, id])),
    contents: () => connection.use((database) => reading(database, [...ROOM_NAMES], readContents)),
  };
}

/** The event as it was logged: its place among those of its warp is the database's own. */
export function withoutPlace({ seq, ...event }: EventRecord): LogEvent {
  return event;
}
