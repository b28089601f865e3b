import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { describe, expect, test } from 'vitest';
import { type Contents, NOTHING } from '../../../src/core/backup/contents.ts';
import { holdsOf } from '../../../src/core/backup/file/backupFile.ts';
import { readBackup } from '../../../src/core/backup/file/readBackup.ts';
import type { SnapshotNote } from '../../../src/core/backup/snapshots.ts';
import { openIndexedDbStore } from '../../../src/store/indexedDb.ts';
import { databaseHouse } from '../../../src/store/snapshots/database.ts';
import { openFileHouse } from '../../../src/store/snapshots/files.ts';
import type { SnapshotHouse } from '../../../src/store/snapshots/house.ts';
import { keeperOf, type SnapshotOrder } from '../../../src/store/snapshots/keeper.ts';
import { packed, unpacked } from '../../../src/store/snapshots/pack.ts';
import { readDatabase } from '../../../src/store/snapshots/readDatabase.ts';
import { picksOf, stateOf, timeAt, warpOf } from '../../core/backup/states.ts';
import { freshBrowser } from '../browser.ts';
import { openRaw, putRaw } from '../raw.ts';
import { fakeStorage } from './folder.ts';

const STATE = stateOf([warpOf('w', picksOf('p', 200)), warpOf('v', [])]);
const DAY = 24 * 60;

function orderOf(id: string, changes: Partial<SnapshotOrder> = {}): SnapshotOrder {
  return { id, madeAt: timeAt(0), reason: 'weaving', app: '0.1.0', ...changes };
}

function noteOf(id: string, bytes: number): SnapshotNote {
  return { ...orderOf(id), holds: holdsOf(STATE), bytes };
}

async function files(faults = {}): Promise<SnapshotHouse> {
  const house = await openFileHouse(fakeStorage(faults).storage);
  if (house === null) throw new Error('got no house');
  return house;
}

describe.each([
  ['as files', () => files()],
  ['as files, written as older Safari does', () => files({ onlyInWorkers: true })],
  ['in a database of their own', async () => databaseHouse(new IDBFactory())],
])('snapshots %s', (_house, open) => {
  const bytes = new Uint8Array([0, 10, 255, 10, 13, 0]);

  test('are listed with their notes, and come back byte for byte', async () => {
    const house = await open();
    expect(await house.list()).toEqual([]);
    await house.put(noteOf('a', 6), bytes);
    await house.put(noteOf('b', 0), new Uint8Array());
    const ids = (await house.list()).map(({ id }) => id).sort();
    expect(ids).toEqual(['a', 'b']);
    expect(await house.list()).toContainEqual(noteOf('a', 6));
    expect(await house.get('a')).toEqual(bytes);
    expect(await house.get('b')).toEqual(new Uint8Array());
    expect(await house.get('c')).toBeUndefined();
  });

  test('that are taken away are gone; again does nothing', async () => {
    const house = await open();
    await house.put(noteOf('a', 6), bytes);
    for (const _ of ['once', 'again']) await house.remove('a');
    expect(await house.list()).toEqual([]);
    expect(await house.get('a')).toBeUndefined();
  });

  test('of one id: the last one stands', async () => {
    const house = await open();
    await house.put(noteOf('a', 6), bytes);
    await house.put(noteOf('a', 1), new Uint8Array([7]));
    expect(await house.list()).toEqual([noteOf('a', 1)]);
    expect(await house.get('a')).toEqual(new Uint8Array([7]));
  });
});

/** A private file system with one folder, which has only these calls. */
function storageOver(folder: object): StorageManager {
  const root = { getDirectoryHandle: async () => folder };
  const storage: unknown = { getDirectory: async () => root };
  return storage as StorageManager;
}

describe('files that are no whole snapshot', () => {
  test.each([
    ['cut in the bytes', (file: Uint8Array<ArrayBuffer>) => file.slice(0, -1)],
    ['cut in the note', (file: Uint8Array<ArrayBuffer>) => file.slice(0, 20)],
    ['empty', () => new Uint8Array()],
    ['of something else', () => new TextEncoder().encode('{"id": 3}\nabcdef')],
    ['with a note that is no note', () => new TextEncoder().encode('null\nabcdef')],
  ])('%s are not listed, and the whole ones beside them are', async (_what, damage) => {
    const { storage, files: stored } = fakeStorage();
    const house = await openFileHouse(storage);
    await house?.put(noteOf('a', 3), new Uint8Array([1, 2, 3]));
    await house?.put(noteOf('b', 3), new Uint8Array([1, 2, 3]));
    const whole = stored.get('a.snapshot') ?? new Uint8Array();
    stored.set('a.snapshot', damage(whole) as Uint8Array<ArrayBuffer>);
    expect((await house?.list())?.map(({ id }) => id)).toEqual(['b']);
    expect(await house?.get('a')).toBeUndefined();
  });

  test('nor is anything else that lies there', async () => {
    const { storage, files: stored } = fakeStorage();
    const house = await openFileHouse(storage);
    await house?.put(noteOf('a', 3), new Uint8Array([1, 2, 3]));
    stored.set('notes.txt', stored.get('a.snapshot') ?? new Uint8Array());
    expect((await house?.list())?.map(({ id }) => id)).toEqual(['a']);
  });

  test('what the system refuses to read or to take away is said', async () => {
    const refused = new DOMException('held', 'NoModificationAllowedError');
    const house = await openFileHouse(
      storageOver({
        getFileHandle: () => Promise.reject(refused),
        removeEntry: () => Promise.reject(refused),
      }),
    );
    await expect(house?.get('a')).rejects.toThrow('held');
    await expect(house?.remove('a')).rejects.toThrow('held');
  });

  test('where files can be made and not written, that is said', async () => {
    const house = await openFileHouse(storageOver({ getFileHandle: async () => ({}) }));
    await expect(house?.put(noteOf('a', 0), new Uint8Array())).rejects.toThrow('cannot be written');
  });

  test('in the database a note that is no note is not listed', async () => {
    const factory = new IDBFactory();
    const house = databaseHouse(factory);
    await house.put(noteOf('a', 0), new Uint8Array());
    await house.put({ ...noteOf('b', 0), bytes: -1 }, new Uint8Array());
    expect((await house.list()).map(({ id }) => id)).toEqual(['a']);
  });

  test('a database of snapshots that a newer app wrote is not touched, and that is said', async () => {
    const factory = new IDBFactory();
    const newer = factory.open('fellmark-snapshots', 9);
    await new Promise((resolve) => newer.addEventListener('success', resolve));
    newer.result.close();
    const house = databaseHouse(factory);
    await expect(house.list()).rejects.toMatchObject({ name: 'VersionError' });
    await expect(house.put(noteOf('a', 0), new Uint8Array())).rejects.toThrow();
  });

  test('a browser without a private file system has no such house', async () => {
    expect(await openFileHouse(undefined)).toBeNull();
    const refusing: unknown = { getDirectory: () => Promise.reject(new Error('private window')) };
    expect(await openFileHouse(refusing as StorageManager)).toBeNull();
  });
});

describe('the keeper', () => {
  test('gives back the state as it was, with what it was taken for', async () => {
    const keeper = keeperOf([await files()]);
    const note = await keeper.take(STATE, orderOf('a', { reason: 'removal', about: 'Towels' }));
    expect(note).toMatchObject({ reason: 'removal', about: 'Towels', holds: { events: 200 } });
    expect(await keeper.list()).toEqual([note]);
    const read = readBackup(await keeper.read('a'));
    expect(read).toEqual({ ok: true, value: { madeAt: timeAt(0), app: '0.1.0', ...STATE } });
  });

  test.each([
    ['is full', { fullAt: 100 }],
    ['keeps less than it says', { cutTo: 300 }],
  ])(
    'takes the second house when the first %s, and leaves nothing in it',
    async (_what, faults) => {
      const broken = fakeStorage(faults);
      const first = await openFileHouse(broken.storage);
      const second = databaseHouse(new IDBFactory());
      const keeper = keeperOf([first, second].flatMap((house) => house ?? []));
      const note = await keeper.take(STATE, orderOf('a'));
      expect(await second.list()).toEqual([note]);
      expect([...broken.files.keys()]).toEqual([]);
      expect(await keeper.read('a')).toContain('fellmark-backup');
    },
  );

  test('says so when no house takes it', async () => {
    await expect(keeperOf([]).take(STATE, orderOf('a'))).rejects.toThrow('keeps no snapshots');
    const full = keeperOf([await files({ fullAt: 100 })]);
    await expect(full.take(STATE, orderOf('a'))).rejects.toThrow('full');
    expect(await full.list()).toEqual([]);
  });

  test('a house that is broken does not hide what the other has', async () => {
    const sound = await files();
    const broken: SnapshotHouse = {
      list: () => Promise.reject(new Error('broken')),
      get: () => Promise.reject(new Error('broken')),
      put: () => Promise.reject(new Error('broken')),
      remove: () => Promise.reject(new Error('broken')),
    };
    await keeperOf([sound]).take(STATE, orderOf('a'));
    const keeper = keeperOf([broken, sound]);
    expect((await keeper.list()).map(({ id }) => id)).toEqual(['a']);
    expect(await keeper.read('a')).toContain('fellmark-backup');
    expect((await keeper.take(STATE, orderOf('b'))).id).toBe('b');
  });

  test('keeps as many as the rule says: of nine taken while weaving on one day, eight', async () => {
    const keeper = keeperOf([await files()]);
    for (let n = 0; n < 9; n++) {
      await keeper.take(STATE, orderOf(`s${n}`, { madeAt: timeAt(DAY + n) }));
    }
    const ids = (await keeper.list()).map(({ id }) => id);
    expect(ids).toEqual(['s8', 's7', 's6', 's5', 's4', 's3', 's2', 's1']);
  });

  test('a damaged snapshot is refused when it is read, and no other', async () => {
    const { storage, files: stored } = fakeStorage();
    const house = await openFileHouse(storage);
    const keeper = keeperOf(house === null ? [] : [house]);
    for (const id of ['a', 'b']) await keeper.take(STATE, orderOf(id));
    const file = stored.get('a.snapshot');
    if (file !== undefined) file[file.length - 20] = (file.at(-20) ?? 0) ^ 255;
    await expect(keeper.read('a')).rejects.toThrow();
    expect(readBackup(await keeper.read('b')).ok).toBe(true);
  });
});

describe('packing', () => {
  test('makes a long text small, leaves a short one alone, and gives both back', async () => {
    const long = 'weft '.repeat(5000);
    expect((await packed(long)).length).toBeLessThan(500);
    expect(await unpacked(await packed(long))).toBe(long);
    expect((await packed('ß warp')).length).toBe(7);
    expect(await unpacked(await packed('ß warp'))).toBe('ß warp');
  });

  test('without a packer the text is kept as it is', async () => {
    const { CompressionStream: packer } = globalThis;
    Reflect.deleteProperty(globalThis, 'CompressionStream');
    try {
      const long = 'weft '.repeat(5000);
      expect((await packed(long)).length).toBe(25_000);
      expect(await unpacked(await packed(long))).toBe(long);
    } finally {
      globalThis.CompressionStream = packer;
    }
  });
});

describe('what is on the disk, read past the store', () => {
  test('is what the store has', async () => {
    const { indexedDB } = freshBrowser();
    const store = await openIndexedDbStore({ indexedDB });
    await store.addContents({ ...STATE, settings: [{ name: 'hand', value: 'left' }] });
    expect(await readDatabase(indexedDB)).toEqual(await store.contents());
  });

  test('of a database that is not there is nothing, and none is made', async () => {
    const { indexedDB } = freshBrowser();
    expect(await readDatabase(indexedDB)).toBeNull();
    expect(await indexedDB.databases()).toEqual([]);
  });

  test('of a database that does not open is an error, not nothing', async () => {
    const { indexedDB } = freshBrowser();
    (await openRaw(indexedDB, 2)).close();
    const open = indexedDB.open.bind(indexedDB);
    // As a damaged one fails: later, and by an event.
    indexedDB.open = (name) => open(name, 1);
    await expect(readDatabase(indexedDB)).rejects.toMatchObject({ name: 'VersionError' });
  });

  test('of version 1, which had no records, is all the rest', async () => {
    const { indexedDB } = freshBrowser();
    const database = await openRaw(indexedDB, 1, (it) => {
      it.createObjectStore('warps', { keyPath: 'id' });
      it.createObjectStore('revisions', { keyPath: ['warp', 'revision'] });
      it.createObjectStore('events', { keyPath: ['warp', 'seq'] });
      it.createObjectStore('settings', { keyPath: 'name' });
    });
    const [warp] = STATE.warps;
    await putRaw(database, 'warps', [warp?.warp ?? {}]);
    await putRaw(
      database,
      'events',
      (warp?.log ?? []).map((event, seq) => ({ ...event, seq })),
    );
    database.close();
    const read: Contents | null = await readDatabase(indexedDB);
    expect(read).toEqual({ ...NOTHING, warps: [{ ...warp, plans: [] }] });
    expect((await indexedDB.databases())[0]?.version).toBe(1);
  });
});
