/**
 * What the store can be asked to write. The same words stand in the journal, line by line, so that
 * a repair performs again what was asked for; a new kind of write is one kind more here.
 */
import type { Contents } from '../core/backup/contents.ts';
import type { LogEvent } from '../core/bench/events.ts';
import type { RecordKind, StoredRecord, StoredRevision, WarpRecord } from './store.ts';

export type Op =
  /** A warp with its first plan. */
  | { readonly kind: 'warp'; readonly warp: WarpRecord; readonly plan: unknown }
  | { readonly kind: 'revision'; readonly revision: StoredRevision }
  | { readonly kind: 'events'; readonly events: readonly LogEvent[] }
  | { readonly kind: 'setting'; readonly name: string; readonly value: unknown }
  | { readonly kind: 'record'; readonly record: StoredRecord }
  /** A warp taken away with its plans and its log. */
  | { readonly kind: 'noWarp'; readonly id: string }
  | { readonly kind: 'noRecord'; readonly of: RecordKind; readonly id: string }
  /** Added to what is there, as `addContents` does. */
  | { readonly kind: 'more'; readonly contents: Contents }
  /** In the place of everything there was. */
  | { readonly kind: 'all'; readonly contents: Contents };

/** A place in the history of a store: the number of a write and the window that made it. */
export interface Place {
  readonly n: number;
  readonly by: string;
}

/** One write as the journal keeps it. */
export interface Entry extends Place {
  /**
   * The number of the write the database had kept before this one. What lies between the two was
   * written down here and then refused by the database: it does not count.
   */
  readonly after: number;
  readonly op: Op;
}

/** What the database knows of its own place, written in the same transaction as every change. */
export interface Ledger extends Place {
  /** Tells one store from another made later in its place. */
  readonly store: string;
  /** The last write known to be in the journal too. */
  readonly flushed: number;
  /** How many there are in all. */
  readonly events: number;
  readonly warps: number;
}

/** Whether both are the same write of the same window; two that are nowhere are the same too. */
export function isSamePlace(a: Place | null, b: Place | null): boolean {
  return a?.n === b?.n && a?.by === b?.by;
}
