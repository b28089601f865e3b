/**
 * Everything this browser keeps for the app, as it lies there: read without looking at versions or
 * at what it means, and without writing anything.
 */
import { openDB } from 'idb';
import { FOLDER, NAMES } from './journal/names.ts';
import { DATABASE_NAME } from './schema.ts';

/** The copy as JSON. What cannot be read is left out, and said so in its place. */
export async function rawCopy(): Promise<string> {
  const [database, journal] = await Promise.all([
    rawDatabase().catch(problem),
    rawJournal().catch(problem),
  ]);
  return JSON.stringify({ format: 'fellmark-raw', version: 1, database, journal }, null, 1);
}

async function rawDatabase(): Promise<unknown> {
  const known = await indexedDB.databases();
  if (!known.some(({ name }) => name === DATABASE_NAME)) return { problem: 'there is none' };
  // Without a version: whatever there is.
  const database = await openDB(DATABASE_NAME);
  try {
    const names = [...database.objectStoreNames];
    const rooms = await Promise.all(
      names.map(async (name) => [name, await database.getAll(name).catch(problem)]),
    );
    return { version: database.version, rooms: Object.fromEntries(rooms) };
  } finally {
    database.close();
  }
}

async function rawJournal(): Promise<unknown> {
  const root = await navigator.storage.getDirectory();
  const folder = await root.getDirectoryHandle(FOLDER);
  const texts = NAMES.map(async (name) => {
    const file = await folder.getFileHandle(name);
    return [name, await (await file.getFile()).text()];
  });
  return Object.fromEntries(await Promise.all(texts));
}

function problem(error: unknown): { readonly problem: string } {
  return { problem: String(error) };
}
