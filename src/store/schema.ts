/**
 * What lies in the database. Older code cannot open a newer database, so the schema only ever
 * grows, by one step a version; a change of meaning goes into the events instead.
 */
import type { DBSchema, IDBPDatabase, IDBPTransaction, StoreNames } from 'idb';
import type { EventId, LogEvent } from '../core/bench/events.ts';
import type { Ledger } from './op.ts';
import type { RecordKind, StoredRecord, StoredRevision, WarpRecord } from './store.ts';

export const DATABASE_NAME = 'fellmark';
export const DATABASE_VERSION = 3;

/** An event and its place in the log of its warp, counted from 0. */
export type EventRecord = LogEvent & { readonly seq: number };

export interface SettingRecord {
  readonly name: string;
  readonly value: unknown;
}

/** The one ledger, under its one name. */
export type LedgerRecord = Ledger & { readonly name: typeof LEDGER };
export const LEDGER = 'ledger';

export interface FellmarkSchema extends DBSchema {
  warps: { key: string; value: WarpRecord };
  revisions: { key: [warp: string, revision: number]; value: StoredRevision };
  events: {
    key: [warp: string, seq: number];
    value: EventRecord;
    indexes: { id: [warp: string, id: EventId] };
  };
  settings: { key: string; value: SettingRecord };
  records: { key: [kind: RecordKind, id: string]; value: StoredRecord };
  ledger: { key: string; value: LedgerRecord };
}

export type Database = IDBPDatabase<FellmarkSchema>;
export type RoomName = StoreNames<FellmarkSchema>;
/** What holds what the weaver made; the ledger only tells of it. */
export const ROOM_NAMES = [
  'warps',
  'revisions',
  'events',
  'settings',
  'records',
] as const satisfies readonly RoomName[];
/** All rooms, in the order of their names, as the database lists them. */
export const ROOMS = [
  'events',
  'ledger',
  'records',
  'revisions',
  'settings',
  'warps',
] as const satisfies readonly RoomName[];
export type ReadTransaction = IDBPTransaction<FellmarkSchema, RoomName[], 'readonly'>;
export type WriteTransaction = IDBPTransaction<FellmarkSchema, RoomName[], 'readwrite'>;

/** The nth brings a database of version n on by one. */
const STEPS: readonly ((database: Database) => void)[] = [
  (database) => {
    database.createObjectStore('warps', { keyPath: 'id' });
    database.createObjectStore('revisions', { keyPath: ['warp', 'revision'] });
    // Within its warp only: a branch of a warp holds the same events under another warp's id.
    database
      .createObjectStore('events', { keyPath: ['warp', 'seq'] })
      .createIndex('id', ['warp', 'id'], { unique: true });
    database.createObjectStore('settings', { keyPath: 'name' });
  },
  (database) => {
    database.createObjectStore('records', { keyPath: ['kind', 'id'] });
  },
  (database) => {
    // Empty at first: what an older version wrote is not in the journal yet, which begins from it.
    database.createObjectStore('ledger', { keyPath: 'name' });
  },
];

/** Brings a database of version `from` (0: new) up to `DATABASE_VERSION`. Awaits nothing. */
export function upgrade(database: Database, from: number): void {
  for (const step of STEPS.slice(from)) step(database);
}

/** The keys `[warp, n]` of one warp, n from `from` up to before `to`: an array sorts after every number. */
export function keysOfWarp(warp: string, from?: number, to?: number): IDBKeyRange {
  if (from === undefined) return keysUnder(warp);
  return IDBKeyRange.bound([warp, from], [warp, to ?? []], false, true);
}

/** All keys `[kind, id]` of one kind of record: an array sorts after every text. */
export function keysOfKind(kind: RecordKind): IDBKeyRange {
  return keysUnder(kind);
}

function keysUnder(first: string): IDBKeyRange {
  return IDBKeyRange.bound([first], [first, []]);
}
