/** Takes snapshots and keeps as many as the rule says, in whichever house takes them. */
import type { Contents } from '../../core/backup/contents.ts';
import { holdsOf, writeBackup } from '../../core/backup/file/backupFile.ts';
import {
  type SnapshotNote,
  type SnapshotReason,
  snapshotsToDrop,
} from '../../core/backup/snapshots.ts';
import { databaseHouse } from './database.ts';
import { openFileHouse } from './files.ts';
import type { SnapshotHouse } from './house.ts';
import { packed, unpacked } from './pack.ts';

/** What is to be taken down with a snapshot; id and time come from outside, as everywhere. */
export interface SnapshotOrder {
  readonly id: string;
  readonly madeAt: string;
  readonly reason: SnapshotReason;
  /** The warp or the file it is about, by name. */
  readonly about?: string;
  readonly app: string;
}

export interface SnapshotKeeper {
  /** Newest first. What one house cannot tell does not hide what the other has. */
  readonly list: () => Promise<readonly SnapshotNote[]>;
  /** Resolves when it is kept and reads back; rejects when no house could keep it. */
  readonly take: (contents: Contents, order: SnapshotOrder) => Promise<SnapshotNote>;
  /** The text of a backup file; rejects when it is not there or damaged. */
  readonly read: (id: string) => Promise<string>;
  readonly remove: (id: string) => Promise<void>;
}

/** The houses this browser has, the safest first. */
export async function openSnapshotKeeper(): Promise<SnapshotKeeper> {
  const files = await openFileHouse(globalThis.navigator?.storage);
  const { indexedDB } = globalThis;
  const database = indexedDB === undefined ? null : databaseHouse(indexedDB);
  return keeperOf([files, database].flatMap((house) => house ?? []));
}

/**
 * Keeps each snapshot in the first of these houses that can, and looks for one in all of them. What is
 * to go after each (`snapshotsToDrop`) is asked of all houses together.
 */
export function keeperOf(houses: readonly SnapshotHouse[]): SnapshotKeeper {
  const list = async () => {
    const lists = await Promise.all(houses.map((house) => house.list().catch(() => [])));
    return lists.flat().sort((a, b) => Date.parse(b.madeAt) - Date.parse(a.madeAt));
  };
  const remove = async (id: string) => {
    await Promise.all(houses.map((house) => house.remove(id)));
  };
  const tidy = async (now: string) => {
    for (const { id } of snapshotsToDrop(await list(), now)) await remove(id);
  };
  return {
    list,
    remove,
    take: async (contents, order) => {
      const note = await keepIn(houses, contents, order);
      // What cannot be tidied away now is next time.
      await tidy(order.madeAt).catch(() => undefined);
      return note;
    },
    read: async (id) => {
      for (const house of houses) {
        const bytes = await house.get(id).catch(() => undefined);
        if (bytes !== undefined) return unpacked(bytes);
      }
      throw new Error(`got snapshot ${id}, wanted one that is kept`);
    },
  };
}

async function keepIn(
  houses: readonly SnapshotHouse[],
  contents: Contents,
  order: SnapshotOrder,
): Promise<SnapshotNote> {
  const { madeAt, app } = order;
  const bytes = await packed(writeBackup({ madeAt, app, ...contents }));
  const note = { ...order, holds: holdsOf(contents), bytes: bytes.length };
  let trouble: unknown = new Error('got a browser that keeps no snapshots');
  for (const house of houses) {
    try {
      await house.put(note, bytes);
      // Only what reads back is kept: some systems say yes to a file and have no room for it.
      if ((await house.get(note.id))?.length === bytes.length) return note;
    } catch (error) {
      trouble = error;
    }
    await house.remove(note.id).catch(() => undefined);
  }
  throw trouble;
}
