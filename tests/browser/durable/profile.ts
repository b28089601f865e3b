// What Chromium keeps of the app on the disk, read and damaged between two launches.
import {
  appendFileSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';

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
