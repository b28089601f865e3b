/** Every database of this origin, room by room, record by record; never made, never upgraded. */
import type { Source } from './collect.ts';
import { answerOf, inTime } from './inTime.ts';
import { textOf } from './textOf.ts';
import { words } from './words.ts';

/** For browsers that cannot list their databases. */
const KNOWN = ['fellmark', 'fellmark-snapshots'];
const OPEN_MS = 8000;
const READ_MS = 20_000;
/** Records read at one go. */
const BATCH = 500;

export async function readDatabases(): Promise<Source> {
  const parts: string[] = ['['];
  const found: string[] = [];
  const troubles: string[] = [];
  for (const name of await databaseNames()) {
    if (parts.length > 1) parts.push(',\n');
    parts.push(`{"name": ${JSON.stringify(name)}`);
    try {
      parts.push(...(await readDatabase(name, found, troubles)));
    } catch (error) {
      troubles.push(`Database ${name}: ${error}`);
      parts.push(`, "error": ${JSON.stringify(String(error))}`);
    }
    parts.push('}');
  }
  return { parts: [...parts, ']'], found, troubles };
}

async function databaseNames(): Promise<readonly string[]> {
  try {
    const list = await inTime(indexedDB.databases(), OPEN_MS, 'The list of databases');
    return [...new Set([...KNOWN, ...list.flatMap(({ name }) => name ?? [])])];
  } catch {
    return KNOWN;
  }
}

async function readDatabase(
  name: string,
  found: string[],
  troubles: string[],
): Promise<readonly string[]> {
  const database = await inTime(openExisting(name), OPEN_MS, `Database ${name}`);
  if (database === null) return [', "absent": true'];
  // Another window may want to upgrade or delete it meanwhile.
  database.onversionchange = () => database.close();
  const parts = [`, "version": ${database.version}, "rooms": [`];
  for (const [n, room] of [...database.objectStoreNames].entries()) {
    parts.push(n === 0 ? '\n' : ',\n', `{"name": ${JSON.stringify(room)}, "records": [`);
    const read: Reading = { database, room, parts, count: 0, faults: [] };
    await readRoom(read);
    found.push(words.records(`${name}, ${room}`, read.count));
    troubles.push(...read.faults.map((fault) => `${name}, ${room}: ${fault}`));
    parts.push(`], "faults": ${JSON.stringify(read.faults)}}`);
  }
  database.close();
  return [...parts, ']'];
}

function openExisting(name: string): Promise<IDBDatabase | null> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(name);
    let isNew = false;
    request.onupgradeneeded = () => {
      isNew = true;
      request.transaction?.abort();
    };
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => (isNew ? resolve(null) : reject(request.error));
    request.onblocked = () => reject(new Error('another window holds it'));
  });
}

interface Reading {
  readonly database: IDBDatabase;
  readonly room: string;
  readonly parts: string[];
  count: number;
  readonly faults: string[];
}

async function readRoom(read: Reading): Promise<void> {
  let after: IDBValidKey | undefined;
  try {
    for (;;) {
      const keys = await batchAfter(read, after);
      after = keys.at(-1);
      if (after === undefined) return;
    }
  } catch {
    // One record that cannot be read spoils its whole batch: from here on one by one.
    await readOneByOne(read, after);
  }
}

function rangeAfter(key: IDBValidKey | undefined): IDBKeyRange | null {
  return key === undefined ? null : IDBKeyRange.lowerBound(key, true);
}

const roomOf = ({ database, room }: Reading) => database.transaction(room).objectStore(room);

async function batchAfter(
  read: Reading,
  after: IDBValidKey | undefined,
): Promise<readonly IDBValidKey[]> {
  const room = roomOf(read);
  const range = rangeAfter(after);
  const both = Promise.all([
    answerOf(room.getAllKeys(range, BATCH)),
    answerOf(room.getAll(range, BATCH)),
  ]);
  const [keys, values] = await inTime(both, READ_MS, 'Reading');
  const texts = await Promise.all(keys.map((key, n) => recordText(key, values[n])));
  for (const text of texts) addRecord(read, text);
  return keys;
}

async function recordText(key: IDBValidKey, value: unknown): Promise<string> {
  return `{"key": ${await textOf(key)}, "value": ${await textOf(value)}}`;
}

function addRecord(read: Reading, text: string): void {
  read.parts.push(read.count === 0 ? '\n' : ',\n', text);
  read.count += 1;
}

async function readOneByOne(read: Reading, after: IDBValidKey | undefined): Promise<void> {
  try {
    const keys = await inTime(keysAfter(read, after), READ_MS, 'The list of keys');
    for (const key of keys) await readOne(read, key);
  } catch (error) {
    read.faults.push(String(error));
  }
}

async function readOne(read: Reading, key: IDBValidKey): Promise<void> {
  try {
    const value: unknown = await inTime(answerOf(roomOf(read).get(key)), READ_MS, 'A record');
    addRecord(read, await recordText(key, value));
  } catch (error) {
    read.faults.push(`${await textOf(key)}: ${error}`);
  }
}

/** By a cursor over keys alone, which reads no record. */
function keysAfter(read: Reading, after: IDBValidKey | undefined): Promise<readonly IDBValidKey[]> {
  return new Promise((resolve, reject) => {
    const keys: IDBValidKey[] = [];
    const request = roomOf(read).openKeyCursor(rangeAfter(after));
    request.onerror = () => (keys.length === 0 ? reject(request.error) : resolve(keys));
    request.onsuccess = () => {
      const cursor = request.result;
      if (cursor === null) return resolve(keys);
      keys.push(cursor.key);
      cursor.continue();
    };
  });
}
