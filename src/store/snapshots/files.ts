/**
 * Snapshots as files in the origin's private file system, which fails otherwise than IndexedDB: where
 * the browser throws a damaged database away, these stay. Each file is its note in one line of JSON
 * and then the bytes.
 */
import { decodeNote, type SnapshotNote } from '../../core/backup/snapshots.ts';
import type { Bytes, SnapshotHouse } from './house.ts';

const FOLDER = 'snapshots';
const SUFFIX = '.snapshot';
/** Longer than any note. */
const HEAD = 8192;
const LINE_FEED = 10;

/** The house in the private file system; null where the browser has none or gives none. */
export async function openFileHouse(
  storage: StorageManager | undefined,
): Promise<SnapshotHouse | null> {
  try {
    const root = await storage?.getDirectory();
    if (root === undefined) return null;
    return houseIn(await root.getDirectoryHandle(FOLDER, { create: true }));
  } catch {
    return null;
  }
}

function houseIn(folder: FileSystemDirectoryHandle): SnapshotHouse {
  const find = async (id: string): Promise<Found | undefined> => {
    try {
      return await readNote(await folder.getFileHandle(`${id}${SUFFIX}`));
    } catch (error) {
      if (isNotFound(error)) return undefined;
      throw error;
    }
  };
  return {
    list: async () => {
      const notes: SnapshotNote[] = [];
      for await (const handle of folder.values()) {
        if (handle.kind !== 'file' || !handle.name.endsWith(SUFFIX)) continue;
        const found = await readNote(handle);
        if (found !== undefined) notes.push(found.note);
      }
      return notes;
    },
    put: async (note, bytes) => {
      const line = new TextEncoder().encode(`${JSON.stringify(note)}\n`);
      const handle = await folder.getFileHandle(`${note.id}${SUFFIX}`, { create: true });
      await writeFile(handle, [line, bytes]);
    },
    get: async (id) => {
      const found = await find(id);
      return found === undefined
        ? undefined
        : new Uint8Array(await found.file.slice(found.from).arrayBuffer());
    },
    remove: async (id) => {
      await folder.removeEntry(`${id}${SUFFIX}`).catch((error: unknown) => {
        if (!isNotFound(error)) throw error;
      });
    },
  };
}

interface Found {
  readonly note: SnapshotNote;
  readonly file: File;
  /** Where the bytes begin. */
  readonly from: number;
}

/** Undefined for a file cut short or not of ours: it is left for the rescue page. */
async function readNote(handle: FileSystemFileHandle): Promise<Found | undefined> {
  const file = await handle.getFile();
  const head = new Uint8Array(await file.slice(0, HEAD).arrayBuffer());
  const end = head.indexOf(LINE_FEED);
  if (end < 0) return undefined;
  const note = decodeNote(parsed(new TextDecoder().decode(head.subarray(0, end))));
  const from = end + 1;
  return note !== null && file.size === from + note.bytes ? { note, file, from } : undefined;
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

/** Older Safari writes such files only in a worker, and there at once instead of all or nothing. */
async function writeFile(handle: FileSystemFileHandle, parts: readonly Bytes[]): Promise<void> {
  if (typeof handle.createWritable !== 'function') return writeInWorker(handle, parts);
  const writable = await handle.createWritable();
  try {
    for (const part of parts) await writable.write(part);
    await writable.close();
  } catch (error) {
    await writable.abort().catch(() => undefined);
    throw error;
  }
}

interface AccessHandle {
  readonly write: (bytes: Bytes, options: { readonly at: number }) => number;
  readonly truncate: (size: number) => void;
  readonly flush: () => void;
  readonly close: () => void;
}

async function writeInWorker(handle: FileSystemFileHandle, parts: readonly Bytes[]): Promise<void> {
  const opening = (handle as { createSyncAccessHandle?: () => Promise<AccessHandle> })
    .createSyncAccessHandle;
  if (opening === undefined) throw new Error('got a file system that cannot be written here');
  const access = await opening.call(handle);
  try {
    access.truncate(0);
    let at = 0;
    for (const part of parts) at += access.write(part, { at });
    access.flush();
  } finally {
    access.close();
  }
}

function isNotFound(error: unknown): boolean {
  return error instanceof Error && error.name === 'NotFoundError';
}
