/**
 * What the app asks of its storage. Three houses keep it: `durable.ts` in both copies, which is the
 * app's; `memory.ts` for a browser that refuses storage; and `indexedDb.ts` in the database alone,
 * for tests and measurements. One contract suite runs on all.
 *
 * A promise that resolves means committed to disk (strict durability), nothing less.
 */
import type { Contents, WarpHead } from '../core/backup/contents.ts';
import type { LogEvent } from '../core/bench/events.ts';
import type { Plan } from '../core/plan/plan.ts';

/** One warp: a plan opened anew is a new warp with its own id and its own log. A backup has the same. */
export type WarpRecord = WarpHead;

/** Plans are never overwritten: a plan changed while weaving is one revision more. */
export interface PlanRevision {
  readonly warp: string;
  readonly revision: number;
  readonly madeAt: string;
  readonly plan: Plan;
}

/** A stored plan as read back: the caller checks it again before use. */
export interface StoredRevision extends Omit<PlanRevision, 'plan'> {
  readonly plan: unknown;
}

/**
 * What is kept beside the warps, each written whole: plans in the making, the shelf, the motifs,
 * what measured warps taught, and photos.
 */
export const RECORD_KINDS = ['draft', 'yarn', 'heddle', 'motif', 'learnt', 'photo'] as const;
export type RecordKind = (typeof RECORD_KINDS)[number];

/** One draft, yarn, heddle and so on. The store does not read the body: its reader checks it. */
export interface StoredRecord {
  readonly kind: RecordKind;
  /** Unique within its kind. */
  readonly id: string;
  /** ISO 8601, UTC. */
  readonly changedAt: string;
  readonly body: unknown;
}

export interface Store {
  readonly warps: () => Promise<readonly WarpRecord[]>;
  /**
   * Warp and first plan (revision 0) in one transaction: both or neither. Rejects when the id
   * exists.
   */
  readonly addWarp: (warp: WarpRecord, plan: Plan) => Promise<void>;
  /** Rejects when the warp is not there or already has a plan of this number. */
  readonly addRevision: (revision: PlanRevision) => Promise<void>;
  /** In the order of their numbers; empty for a warp that is not there. */
  readonly revisionsOf: (warp: string) => Promise<readonly StoredRevision[]>;
  /** Takes the warp, its plans and its log away, all or nothing. Without the warp, does nothing. */
  readonly removeWarp: (id: string) => Promise<void>;
  /**
   * Appends one event and marks the warp as woven at `event.at`, unless it was woven on later.
   * Calls are kept in their order, also when not awaited. An event whose id the warp already has
   * changes nothing; another warp may have the same event. Rejects when the warp is not there.
   */
  readonly append: (event: LogEvent) => Promise<void>;
  /**
   * Appends events of one or more warps, in their order, in one transaction: all or none, each as
   * `append` would. Rejects when one of the warps is not there.
   */
  readonly appendAll: (events: readonly LogEvent[]) => Promise<void>;
  /** The log of one warp in the order it was appended, or of it the events `from` up to before `to`. */
  readonly eventsOf: (warp: string, from?: number, to?: number) => Promise<readonly LogEvent[]>;
  /** Undefined when never set. */
  readonly setting: (name: string) => Promise<unknown>;
  readonly setSetting: (name: string, value: unknown) => Promise<void>;
  /** All records of one kind, by id. */
  readonly records: (kind: RecordKind) => Promise<readonly StoredRecord[]>;
  /** Undefined when not there. */
  readonly record: (kind: RecordKind, id: string) => Promise<StoredRecord | undefined>;
  /** Writes a record, in place of the one of its kind and id if there is one. */
  readonly putRecord: (record: StoredRecord) => Promise<void>;
  /** Without such a record, does nothing. */
  readonly removeRecord: (kind: RecordKind, id: string) => Promise<void>;
  /** All that is kept, read at one moment: warps by id, records by kind and id, settings by name. */
  readonly contents: () => Promise<Contents>;
  /**
   * Adds to what is kept, in one transaction: all or nothing. A warp that is there takes the new
   * head, the plans of numbers it has not and the events it has not, in their order; records and
   * settings are put. Takes nothing away.
   */
  readonly addContents: (more: Contents) => Promise<void>;
  /** Puts this in the place of everything that is kept, in one transaction: all or nothing. */
  readonly replaceContents: (contents: Contents) => Promise<void>;
  /** Writes already asked for still finish; every later call rejects. */
  readonly close: () => void;
}

/**
 * - `quota`: the disk or the page's share of it is full; nothing of the write was kept.
 * - `lost-connection`: no answer in three tries, the database is gone, or the store was closed.
 * - `newer-data`: a newer version of the app wrote the database; nothing was touched.
 * - `blocked`: a window with an older version of the app does not let go of the database.
 * - `refused`: the browser keeps nothing for this page.
 * - `unknown`: anything else, also a call that may not be (an id twice, a warp that is not there,
 *   something other than plain data): see the message.
 */
export type StoreTrouble =
  | 'quota'
  | 'lost-connection'
  | 'newer-data'
  | 'blocked'
  | 'refused'
  | 'unknown';

/** What a failed store operation rejects with. */
export class StoreError extends Error {
  readonly trouble: StoreTrouble;
  constructor(trouble: StoreTrouble, message: string, cause?: unknown) {
    super(message, { cause });
    this.name = 'StoreError';
    this.trouble = trouble;
  }
}
