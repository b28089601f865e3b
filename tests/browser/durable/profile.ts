// What Chromium keeps of the app on the disk, read and damaged between two launches.
import {
  appendFileSync,
  cpSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statfsSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/**
 * Nothing of what is tested: no processes for the network and for drawing, and none in reserve.
 * `FELLMARK_PLAIN` has the browser as weavers have it, on a disk.
 */
export const LEAN: readonly string[] =
  process.env.FELLMARK_PLAIN === undefined
    ? [
        '--in-process-gpu',
        '--enable-features=NetworkServiceInProcess2',
        '--renderer-process-limit=1',
      ]
    : [];

/**
 * A new empty folder for a profile; in memory where there is room. A killed process takes nothing
 * with it that it has handed to the system, there as on a disk.
 */
export function makeProfileDir(purpose: string): string {
  return mkdtempSync(join(roomiest(), `fellmark-${purpose}-`));
}

/** The same profile once more, for a browser of its own. */
export function copied(profileDir: string): string {
  const copy = makeProfileDir('copy');
  cpSync(profileDir, copy, { recursive: true });
  return copy;
}

const MEMORY = '/dev/shm';
const ROOM_BYTES = 1e9;

function roomiest(): string {
  if (process.env.FELLMARK_PLAIN !== undefined) return tmpdir();
  try {
    const { bavail, bsize } = statfsSync(MEMORY);
    return bavail * bsize > ROOM_BYTES ? MEMORY : tmpdir();
  } catch {
    return tmpdir();
  }
}

const filesUnder = (dir: string): readonly string[] =>
  readdirSync(dir, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name));

const databaseDir = (profileDir: string) => join(profileDir, 'Default', 'IndexedDB');
const privateFilesDir = (profileDir: string) => join(profileDir, 'Default', 'File System');

/** The log of the browser's own database: what was written last stands there. */
export function databaseLog(profileDir: string): string {
  const logs = filesUnder(databaseDir(profileDir)).filter((file) => file.endsWith('.log'));
  const newest = logs.toSorted((a, b) => statSync(b).mtimeMs - statSync(a).mtimeMs)[0];
  if (newest === undefined) throw new Error(`got no log under ${databaseDir(profileDir)}`);
  return newest;
}

/**
 * What a kill between header and payload of a record leaves: a header that promises 2,000 bytes and
 * none of them. The next launch writes after it, and the one after that reads those bytes as its payload.
 */
export function tearDatabaseLog(profileDir: string): void {
  const [checksum, length, full] = [[1, 2, 3, 4], [0xd0, 0x07], 1];
  appendFileSync(databaseLog(profileDir), Uint8Array.of(...checksum, ...length, full));
}

export function deleteDatabase(profileDir: string): void {
  rmSync(databaseDir(profileDir), { recursive: true });
}

export function deletePrivateFiles(profileDir: string): void {
  rmSync(privateFilesDir(profileDir), { recursive: true });
}

/** The file the journal stands in now. */
export function journalFile(profileDir: string): string {
  const found = filesUnder(privateFilesDir(profileDir)).filter((file) =>
    /^\d{8} [0-9a-f]{8} \{"journal":/.test(readFileSync(file, 'latin1').slice(0, 60)),
  );
  const [file] = found;
  if (file === undefined || found.length > 1) throw new Error(`got ${found.length} journals`);
  return file;
}

/** Changes the bytes of a file. */
export function change(file: string, how: (bytes: Buffer) => Uint8Array): void {
  writeFileSync(file, how(readFileSync(file)));
}
