/** Databases written by older versions of the app, built here by hand, without its own code. */
import { describe, expect, test } from 'vitest';
import { openDatabaseCopy } from '../../src/store/database.ts';
import { openIndexedDbStore } from '../../src/store/indexedDb.ts';
import { DATABASE_NAME, DATABASE_VERSION } from '../../src/store/schema.ts';
import { within } from '../../src/store/takeUp.ts';
import { freshBrowser, fullAtCommit } from './browser.ts';
import { getRaw, openRaw, putRaw } from './raw.ts';
import { samplePlan, sampleRecord, sampleRevision, sampleWarp, tap, taps } from './samples.ts';
import { closeWindow, emptied, freshWorld, openWindow, settled } from './world.ts';

const ROOMS_OF_VERSION_1 = ['events', 'revisions', 'settings', 'warps'];

/** The schema of version 1 as it was, written out. */
function versionOne(database: IDBDatabase): void {
  database.createObjectStore('warps', { keyPath: 'id' });
  database.createObjectStore('revisions', { keyPath: ['warp', 'revision'] });
  const events = database.createObjectStore('events', { keyPath: ['warp', 'seq'] });
  events.createIndex('id', ['warp', 'id'], { unique: true });
  database.createObjectStore('settings', { keyPath: 'name' });
}

const WARPS = [{ ...sampleWarp('a'), wovenAt: tap('a', 199).at }, sampleWarp('b')];
const REVISIONS = [
  ...['a', 'b'].map((warp) => ({ ...sampleRevision(warp, 0), plan: samplePlan(warp) })),
  sampleRevision('a', 1),
];
const SETTINGS = [
  { name: 'settings', value: { theme: 'dark', hand: 'left', bounceMs: 500 } },
  { name: 'weaving', value: 'a' },
];
/** The branch b holds the same first events as a. */
const EVENTS = [
  ...taps('a', 200).map((event, seq) => ({ ...event, seq })),
  ...taps('a', 20).map((event, seq) => ({ ...event, warp: 'b', seq })),
];

async function storedByVersionOne(indexedDB: IDBFactory): Promise<void> {
  const database = await openRaw(indexedDB, 1, versionOne);
  await putRaw(database, 'warps', WARPS);
  await putRaw(database, 'revisions', REVISIONS);
  await putRaw(database, 'events', EVENTS);
  await putRaw(database, 'settings', SETTINGS);
  database.close();
}

describe('a database of version 1', () => {
  test('opens with everything in it, and keeps records from then on', async () => {
    const { indexedDB } = freshBrowser();
    await storedByVersionOne(indexedDB);
    const store = await openIndexedDbStore({ indexedDB });
    expect(await store.warps()).toEqual(WARPS);
    expect(await store.revisionsOf('a')).toEqual([REVISIONS[0], REVISIONS[2]]);
    expect(await store.revisionsOf('b')).toEqual([REVISIONS[1]]);
    expect(await store.eventsOf('a')).toEqual(taps('a', 200));
    expect(await store.eventsOf('b')).toEqual(taps('a', 20).map((it) => ({ ...it, warp: 'b' })));
    for (const { name, value } of SETTINGS) expect(await store.setting(name)).toEqual(value);

    await store.append(tap('a', 200));
    await store.append(tap('a', 5));
    expect(await store.eventsOf('a')).toEqual(taps('a', 201));
    expect(await store.records('yarn')).toEqual([]);
    await store.putRecord(sampleRecord('yarn', 'one'));
    expect(await store.records('yarn')).toEqual([sampleRecord('yarn', 'one')]);
  });

  test('has the same records, byte for byte, and two rooms more', async () => {
    const { indexedDB } = freshBrowser();
    await storedByVersionOne(indexedDB);
    (await openIndexedDbStore({ indexedDB })).close();
    const after = await openRaw(indexedDB);
    expect(after.version).toBe(3);
    expect(DATABASE_VERSION).toBe(3);
    const rooms = [...ROOMS_OF_VERSION_1, 'records', 'ledger'].sort();
    expect([...after.objectStoreNames]).toEqual(rooms);
    expect(await getRaw(after, 'warps')).toEqual(WARPS);
    expect(await getRaw(after, 'revisions')).toEqual([REVISIONS[0], REVISIONS[2], REVISIONS[1]]);
    expect(await getRaw(after, 'events')).toEqual(EVENTS);
    expect(await getRaw(after, 'settings')).toEqual(SETTINGS);
  });

  test('is as it was when the upgrade fails, and the next upgrade succeeds', async () => {
    const { indexedDB } = freshBrowser();
    await storedByVersionOne(indexedDB);
    const create = IDBDatabase.prototype.createObjectStore;
    IDBDatabase.prototype.createObjectStore = function (name, options) {
      const room = create.call(this, name, options);
      if (name === 'records') throw new Error('no room for records');
      return room;
    };
    try {
      await expect(openIndexedDbStore({ indexedDB })).rejects.toThrow('no room for records');
    } finally {
      IDBDatabase.prototype.createObjectStore = create;
    }
    const between = await openRaw(indexedDB);
    expect(between.version).toBe(1);
    expect([...between.objectStoreNames]).toEqual(ROOMS_OF_VERSION_1);
    expect(await getRaw(between, 'events')).toEqual(EVENTS);
    between.close();
    const store = await openIndexedDbStore({ indexedDB });
    expect(await store.eventsOf('a')).toHaveLength(200);
    expect(await store.records('draft')).toEqual([]);
  });

  test('has the schema that a new database has', async () => {
    const [old, fresh] = [freshBrowser(), freshBrowser()];
    await storedByVersionOne(old.indexedDB);
    for (const { indexedDB } of [old, fresh]) (await openIndexedDbStore({ indexedDB })).close();
    expect(await shapeOf(old.indexedDB)).toEqual(await shapeOf(fresh.indexedDB));
  });

  test('takes a record only when it is on the disk', async () => {
    const { indexedDB } = freshBrowser((n) => (n === 4 ? fullAtCommit : undefined));
    await storedByVersionOne(indexedDB);
    const store = await openIndexedDbStore({ indexedDB });
    await expect(store.putRecord(sampleRecord('yarn', 'one'))).rejects.toMatchObject({
      trouble: 'quota',
    });
    expect(await store.records('yarn')).toEqual([]);
  });
});

describe('a database of version 2', () => {
  /** The schema of version 2 as it was, written out. */
  function versionTwo(database: IDBDatabase): void {
    versionOne(database);
    database.createObjectStore('records', { keyPath: ['kind', 'id'] });
  }

  async function storedByVersionTwo(indexedDB: IDBFactory): Promise<void> {
    const database = await openRaw(indexedDB, 2, versionTwo);
    await putRaw(database, 'warps', WARPS);
    await putRaw(database, 'revisions', REVISIONS);
    await putRaw(database, 'events', EVENTS);
    await putRaw(database, 'settings', SETTINGS);
    await putRaw(database, 'records', [sampleRecord('yarn', 'one')]);
    database.close();
  }

  test('opens with everything in it, and has it in the journal too from the first launch on', async () => {
    const world = freshWorld();
    await storedByVersionTwo(world.indexedDB);
    for (const _ of ['with the database', 'from the journal alone']) {
      const store = await openWindow(world);
      await settled(store);
      expect(store.state()).toMatchObject({ copies: 'two', loss: null, trouble: null });
      expect(await store.warps()).toEqual(WARPS);
      expect(await store.revisionsOf('a')).toEqual([REVISIONS[0], REVISIONS[2]]);
      expect(await store.eventsOf('a')).toEqual(taps('a', 200));
      expect(await store.eventsOf('b')).toEqual(taps('a', 20).map((it) => ({ ...it, warp: 'b' })));
      for (const { name, value } of SETTINGS) expect(await store.setting(name)).toEqual(value);
      expect(await store.records('yarn')).toEqual([sampleRecord('yarn', 'one')]);
      await closeWindow(world, store);
      world.indexedDB = emptied();
    }
  });

  test('is as it was when the upgrade fails, and the next upgrade succeeds', async () => {
    const { indexedDB } = freshBrowser();
    await storedByVersionTwo(indexedDB);
    const create = IDBDatabase.prototype.createObjectStore;
    IDBDatabase.prototype.createObjectStore = function (name, options) {
      const room = create.call(this, name, options);
      if (name === 'ledger') throw new Error('no room for a ledger');
      return room;
    };
    try {
      await expect(openIndexedDbStore({ indexedDB })).rejects.toThrow('no room for a ledger');
    } finally {
      IDBDatabase.prototype.createObjectStore = create;
    }
    const between = await openRaw(indexedDB);
    expect(between.version).toBe(2);
    expect(await getRaw(between, 'events')).toEqual(EVENTS);
    between.close();
    const store = await openIndexedDbStore({ indexedDB });
    expect(await store.eventsOf('a')).toHaveLength(200);
  });

  test('held by a window of its own version is not written to, and opens when that lets go', async () => {
    const { indexedDB } = freshBrowser();
    await storedByVersionTwo(indexedDB);
    const old = await openRaw(indexedDB, 2);
    const opening = within(5_000, openDatabaseCopy(indexedDB, DATABASE_NAME, 20));
    await expect(opening).rejects.toMatchObject({ trouble: 'blocked' });
    expect(await getRaw(old, 'events')).toEqual(EVENTS);
    old.close();
    const database = await openDatabaseCopy(indexedDB, DATABASE_NAME, 2_000);
    expect(await database.eventsOf('a')).toHaveLength(200);
  });

  test('has the schema that a new database has', async () => {
    const [old, fresh] = [freshBrowser(), freshBrowser()];
    await storedByVersionTwo(old.indexedDB);
    for (const { indexedDB } of [old, fresh]) (await openIndexedDbStore({ indexedDB })).close();
    expect(await shapeOf(old.indexedDB)).toEqual(await shapeOf(fresh.indexedDB));
  });
});

/** Every room with its key and its indexes. */
async function shapeOf(indexedDB: IDBFactory): Promise<unknown> {
  const database = await openRaw(indexedDB);
  const rooms = [...database.objectStoreNames];
  const transaction = database.transaction(rooms);
  return rooms.map((name) => {
    const room = transaction.objectStore(name);
    const indexes = [...room.indexNames].map((it) => room.index(it));
    const shapes = indexes.map(({ name: it, keyPath, unique }) => ({ it, keyPath, unique }));
    return { name, keyPath: room.keyPath, shapes };
  });
}
