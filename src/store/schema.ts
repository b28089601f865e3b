/**
 * What lies in the database. Older code cannot open a newer database, so the schema only ever
 * grows, by one `if (from < n)` step a version; a change of meaning goes into the events instead.
 */
import type { DBSchema, IDBPDatabase, IDBPTransaction, StoreNames } from 'idb';
import type { EventId, LogEvent } from '../core/bench/events.ts';
import type { StoredRevision, WarpRecord } from './store.ts';

export const DATABASE_NAME = 'fellmark';
export const DATABASE_VERSION = 1;

/** An event and its place in the log of its warp, counted from 0. */
export type EventRecord = LogEvent & { readonly seq: number };

export interface SettingRecord {
  readonly name: string;
  readonly value: unknown;
}

export interface FellmarkSchema extends DBSchema {
  warps: { key: string; value: WarpRecord };
  revisions: { key: [warp: string, revision: number]; value: StoredRevision };
  events: { key: [warp: string, seq: number]; value: EventRecord; indexes: { id: EventId } };
  settings: { key: string; value: SettingRecord };
}

export type Database = IDBPDatabase<FellmarkSchema>;
export type RoomName = StoreNames<FellmarkSchema>;
export type ReadTransaction = IDBPTransaction<FellmarkSchema, RoomName[], 'readonly'>;
export type WriteTransaction = IDBPTransaction<FellmarkSchema, RoomName[], 'readwrite'>;

/** Brings a database of version `from` (0: new) up to `DATABASE_VERSION`. Awaits nothing. */
export function upgrade(database: Database, from: number): void {
  if (from < 1) {
    database.createObjectStore('warps', { keyPath: 'id' });
    database.createObjectStore('revisions', { keyPath: ['warp', 'revision'] });
    database.createObjectStore('events', { keyPath: ['warp', 'seq'] }).createIndex('id', 'id', {
      unique: true,
    });
    database.createObjectStore('settings', { keyPath: 'name' });
  }
}

/** All keys `[warp, n]` of one warp: an array sorts after every number. */
export function keysOfWarp(warp: string): IDBKeyRange {
  return IDBKeyRange.bound([warp], [warp, []]);
}
