/** The worker that holds the journal's files: only there can a browser write and flush them. */
import { DATABASE_VERSION } from '../schema.ts';
import type { Request } from './journal.ts';
import { type ClosableFile, createKeeper } from './keeper.ts';
import { FOLDER, NAMES } from './names.ts';

/** The page before this one may take a moment to let go: milliseconds between tries, and tries. */
const PAUSE_MS = 50;
const TRIES = 12;

/** TypeScript's library for pages does not know it. */
interface PrivateFile extends FileSystemFileHandle {
  readonly createSyncAccessHandle: () => Promise<ClosableFile>;
}

async function openFiles(): Promise<readonly [ClosableFile, ClosableFile]> {
  const root = await navigator.storage.getDirectory();
  const folder = await root.getDirectoryHandle(FOLDER, { create: true });
  const first = await openFile(folder, NAMES[0]);
  try {
    return [first, await openFile(folder, NAMES[1])];
  } catch (error) {
    first.close();
    throw error;
  }
}

async function openFile(folder: FileSystemDirectoryHandle, name: string): Promise<ClosableFile> {
  const file = (await folder.getFileHandle(name, { create: true })) as PrivateFile;
  for (let left = TRIES - 1; ; left -= 1) {
    try {
      return await file.createSyncAccessHandle();
    } catch (error) {
      const isTaken = error instanceof Error && error.name === 'NoModificationAllowedError';
      if (!isTaken || left === 0) throw error;
      await new Promise((resolve) => setTimeout(resolve, PAUSE_MS));
    }
  }
}

const answer = createKeeper(openFiles, DATABASE_VERSION);
addEventListener('message', ({ data }: MessageEvent<Request>) => {
  void answer(data).then((it) => postMessage(it));
});
