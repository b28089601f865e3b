/** Where snapshots lie. Two houses keep them, away from the database of the warps. */
import type { SnapshotNote } from '../../core/backup/snapshots.ts';

/** Bytes that a view of shared memory never is: what files and databases take. */
export type Bytes = Uint8Array<ArrayBuffer>;

export interface SnapshotHouse {
  /** Whole ones only, in no order. */
  readonly list: () => Promise<readonly SnapshotNote[]>;
  /** Rejects when it could not be kept; nothing of it is listed then. */
  readonly put: (note: SnapshotNote, bytes: Bytes) => Promise<void>;
  /** Undefined when it is not there. */
  readonly get: (id: string) => Promise<Bytes | undefined>;
  /** Without such a snapshot, does nothing. */
  readonly remove: (id: string) => Promise<void>;
}
