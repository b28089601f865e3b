import { describe, expect, test } from 'vitest';
import { openIndexedDbStore } from '../../src/store/indexedDb.ts';
import { DATABASE_NAME, DATABASE_VERSION } from '../../src/store/schema.ts';
import { within } from '../../src/store/takeUp.ts';
import { freshBrowser } from './browser.ts';
import { getRaw, openRaw, putRaw } from './raw.ts';
import { samplePlan, sampleWarp, tap } from './samples.ts';

describe('versions', () => {
  test('a database of a newer version is refused and left as it was', async () => {
    const { indexedDB } = freshBrowser();
    const newer = await openRaw(indexedDB, DATABASE_VERSION + 1, (database) => {
      database.createObjectStore('events', { keyPath: 'id' });
    });
    await putRaw(newer, 'events', [{ id: 'from later' }]);
    newer.close();

    await expect(openIndexedDbStore({ indexedDB })).rejects.toMatchObject({
      name: 'StoreError',
      trouble: 'newer-data',
    });

    const after = await openRaw(indexedDB);
    expect(after.version).toBe(DATABASE_VERSION + 1);
    expect([...after.objectStoreNames]).toEqual(['events']);
    expect(await getRaw(after, 'events')).toEqual([{ id: 'from later' }]);
  });

  test('a newer app in another window gets the database, and this one then says so', async () => {
    const { indexedDB } = freshBrowser();
    const store = await openIndexedDbStore({ indexedDB });
    await store.addWarp(sampleWarp('a'), samplePlan('A'));
    const newer = await within(5_000, openRaw(indexedDB, DATABASE_VERSION + 1));
    await expect(store.append(tap('a', 0))).rejects.toMatchObject({ trouble: 'newer-data' });
    expect(await getRaw(newer, 'warps')).toEqual([sampleWarp('a')]);
  });

  test('the database itself refuses an event a second time, wherever it is put', async () => {
    const { indexedDB } = freshBrowser();
    const store = await openIndexedDbStore({ indexedDB });
    await store.addWarp(sampleWarp('a'), samplePlan('A'));
    await store.append(tap('a', 0));
    const database = await openRaw(indexedDB);
    const again = putRaw(database, 'events', [{ ...tap('a', 0), seq: 7 }]);
    await expect(again).rejects.toMatchObject({ name: 'ConstraintError' });
    expect(await store.eventsOf('a')).toEqual([tap('a', 0)]);
    await putRaw(database, 'events', [{ ...tap('a', 0), warp: 'branch', seq: 0 }]);
    database.close();
  });

  test('an upgrade that fails leaves no version behind, and the next one succeeds', async () => {
    const { indexedDB } = freshBrowser();
    const create = IDBDatabase.prototype.createObjectStore;
    IDBDatabase.prototype.createObjectStore = function (name, options) {
      if (name === 'events') throw new Error('no room for events');
      return create.call(this, name, options);
    };
    try {
      await expect(openIndexedDbStore({ indexedDB })).rejects.toMatchObject({
        name: 'StoreError',
        message: expect.stringContaining('no room for events'),
      });
    } finally {
      IDBDatabase.prototype.createObjectStore = create;
    }
    expect(await indexedDB.databases()).toEqual([]);
    const store = await openIndexedDbStore({ indexedDB });
    await store.addWarp(sampleWarp('a'), samplePlan('A'));
    await store.append(tap('a', 0));
    expect(await store.eventsOf('a')).toEqual([tap('a', 0)]);
  });

  test('a database deleted behind the store’s back is not replaced by an empty one', async () => {
    const { indexedDB } = freshBrowser();
    const store = await openIndexedDbStore({ indexedDB });
    await store.addWarp(sampleWarp('a'), samplePlan('A'));
    const deleting = indexedDB.deleteDatabase(DATABASE_NAME);
    await new Promise((resolve) => deleting.addEventListener('success', resolve));
    await expect(store.eventsOf('a')).rejects.toMatchObject({ trouble: 'lost-connection' });
    await expect(store.append(tap('a', 0))).rejects.toMatchObject({ trouble: 'lost-connection' });
    expect(await indexedDB.databases()).toEqual([]);
  });

  test.each(['SecurityError', 'InvalidStateError'])(
    'a browser that answers opening with %s has refused',
    async (name) => {
      const { indexedDB } = freshBrowser();
      indexedDB.open = () => {
        throw new DOMException('not here', name);
      };
      await expect(openIndexedDbStore({ indexedDB })).rejects.toMatchObject({ trouble: 'refused' });
    },
  );
});
