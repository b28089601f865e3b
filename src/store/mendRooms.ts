/**
 * A database that has lost one of its rooms: made anew, with what the others hold. It has no ledger
 * then, so it is compared with the journal thing by thing, which gives back the rest. Fetched when
 * the database does not open.
 */
import { wrap } from 'idb';
import type { Journal } from './journal/journal.ts';
import { DATABASE_VERSION, type Database, ROOM_NAMES, ROOMS, upgrade } from './schema.ts';
import { within } from './takeUp.ts';

const PATIENCE_MS = 10_000;

/** Answers whether a room was missing and is there again. Without a journal nothing is touched. */
export async function mendRooms(
  factory: IDBFactory,
  name: string,
  journal: Journal,
): Promise<boolean> {
  try {
    const told = await within(PATIENCE_MS, journal.open(null));
    if (told.kind !== 'differs') return false;
  } finally {
    await journal.close();
  }
  const left = await recordsLeft(factory, name);
  if (left === null) return false;
  await within(PATIENCE_MS, wrap(factory.deleteDatabase(name)));
  await madeAnew(factory, name, left);
  return true;
}

type Left = ReadonlyMap<string, readonly unknown[]>;

/** Null where no room is missing, or the database is none of this version. */
async function recordsLeft(factory: IDBFactory, name: string): Promise<Left | null> {
  const database = (await wrap(factory.open(name))) as unknown as Database;
  const there = ROOM_NAMES.filter((room) => database.objectStoreNames.contains(room));
  const isWhole = ROOMS.every((room) => database.objectStoreNames.contains(room));
  try {
    if (database.version !== DATABASE_VERSION || isWhole) return null;
    const each = there.map(async (room) => [room, await database.getAll(room)] as const);
    return new Map(await Promise.all(each));
  } finally {
    database.close();
  }
}

async function madeAnew(factory: IDBFactory, name: string, left: Left): Promise<void> {
  const request = factory.open(name, DATABASE_VERSION);
  request.addEventListener('upgradeneeded', () => {
    upgrade(wrap(request.result) as unknown as Database, 0);
    for (const [room, records] of left) {
      const into = request.transaction?.objectStore(room);
      for (const record of records) into?.put(record);
    }
  });
  const database = (await wrap(request)) as unknown as Database;
  database.close();
}
