import { wrap } from 'idb';
import { describe, expect, test } from 'vitest';
import { openIndexedDbStore } from '../../src/store/indexedDb.ts';
import { DATABASE_NAME, type Database } from '../../src/store/schema.ts';
import { type Store, StoreError } from '../../src/store/store.ts';
import { writing } from '../../src/store/transaction.ts';
import { type Fault, freshBrowser, fullAtCommit, fullAtRequest } from './browser.ts';
import { samplePlan, sampleRevision, sampleWarp, tap, taps } from './samples.ts';

const TAPS = 52;

const FAULTS: readonly [string, Fault][] = [
  ['at a request', fullAtRequest],
  ['at the commit', fullAtCommit],
];

interface Outcome {
  readonly acknowledged: readonly string[];
  readonly troubles: readonly string[];
  /** What is there after a restart, by a store without faults. */
  readonly kept: readonly string[];
}

/**
 * Taps on while the disk is full at the nth tap. Whatever a store acknowledges must be kept, so it
 * is right when `kept` equals `acknowledged`, event for event.
 */
async function tapThrough(
  open: (indexedDB: IDBFactory) => Promise<Store>,
  fault: Fault,
  nth: number,
): Promise<Outcome> {
  // The first transaction adds the warp.
  const { indexedDB } = freshBrowser((n) => (n === nth ? fault : undefined));
  const store = await open(indexedDB);
  await store.addWarp(sampleWarp('a'), samplePlan('A'));
  const acknowledged: string[] = [];
  const troubles: string[] = [];
  for (const event of taps('a', TAPS)) {
    await store.append(event).then(
      () => acknowledged.push(event.id),
      (error: unknown) => troubles.push(error instanceof StoreError ? error.trouble : 'other'),
    );
  }
  store.close();
  const reopened = await openIndexedDbStore({ indexedDB });
  const kept = (await reopened.eventsOf('a')).map(({ id }) => id);
  return { acknowledged, troubles, kept };
}

/** Wrong on purpose: says saved when the request has succeeded, before the commit. */
async function openHastyStore(indexedDB: IDBFactory): Promise<Store> {
  const sound = await openIndexedDbStore({ indexedDB });
  const database = await wrap(indexedDB.open(DATABASE_NAME));
  if (database === undefined) throw new Error('got no database, wanted the one just made');
  let seq = 0;
  return {
    ...sound,
    append: async (event) => {
      const transaction = database.transaction(['events'], 'readwrite', { durability: 'strict' });
      transaction.done.catch(() => undefined);
      await transaction.objectStore('events').put({ ...event, seq });
      seq += 1;
    },
  };
}

test('work that throws takes back what it had requested before', async () => {
  const { indexedDB } = freshBrowser();
  const store = await openIndexedDbStore({ indexedDB });
  const database = (await wrap(indexedDB.open(DATABASE_NAME))) as unknown as Database;
  const work = writing(database, ['settings'], async (transaction) => {
    await transaction.objectStore('settings').put({ name: 'hand', value: 'left' });
    throw new Error('changed my mind');
  });
  await expect(work).rejects.toThrow('changed my mind');
  expect(await store.setting('hand')).toBeUndefined();
});

describe('a disk that is full at the nth write', () => {
  test.each(FAULTS)('%s, n = 1 … 50: nothing acknowledged is lost', async (_where, fault) => {
    for (let nth = 1; nth <= 50; nth += 1) {
      const outcome = await tapThrough((db) => openIndexedDbStore({ indexedDB: db }), fault, nth);
      expect(outcome.troubles).toEqual(['quota']);
      expect(outcome.acknowledged).toHaveLength(TAPS - 1);
      expect(outcome.kept).toEqual(outcome.acknowledged);
    }
  });

  test.each(FAULTS)(
    '%s: the same check catches a store that says saved before the commit',
    async (_where, fault) => {
      const { acknowledged, kept } = await tapThrough(openHastyStore, fault, 10);
      expect(acknowledged).toHaveLength(TAPS);
      expect(kept).toEqual(acknowledged.filter((id) => id !== 'a-9'));
    },
  );

  test('does not trip up the hasty store otherwise: it is wrong in nothing else', async () => {
    const { acknowledged, kept } = await tapThrough(openHastyStore, () => undefined, 10);
    expect(acknowledged).toHaveLength(TAPS);
    expect(kept).toEqual(acknowledged);
  });

  test.each(FAULTS)('%s: a tap that was not saved can be saved later', async (_where, fault) => {
    const store = await openIndexedDbStore(freshBrowser((n) => (n === 1 ? fault : undefined)));
    await store.addWarp(sampleWarp('a'), samplePlan('A'));
    await expect(store.append(tap('a', 0))).rejects.toMatchObject({ trouble: 'quota' });
    expect(await store.warps()).toEqual([sampleWarp('a')]);
    await store.append(tap('a', 0));
    expect(await store.eventsOf('a')).toEqual([tap('a', 0)]);
  });

  test.each(FAULTS)('%s: of a warp and its plan neither is kept', async (_where, fault) => {
    const store = await openIndexedDbStore(freshBrowser((n) => (n === 0 ? fault : undefined)));
    const adding = store.addWarp(sampleWarp('a'), samplePlan('A'));
    await expect(adding).rejects.toMatchObject({ trouble: 'quota' });
    expect(await store.warps()).toEqual([]);
    expect(await store.revisionsOf('a')).toEqual([]);
  });

  test.each(FAULTS)('%s: of events appended together none is kept', async (_where, fault) => {
    const store = await openIndexedDbStore(freshBrowser((n) => (n === 1 ? fault : undefined)));
    await store.addWarp(sampleWarp('a'), samplePlan('A'));
    await expect(store.appendAll(taps('a', 20))).rejects.toMatchObject({ trouble: 'quota' });
    expect(await store.eventsOf('a')).toEqual([]);
    expect(await store.warps()).toEqual([sampleWarp('a')]);
    await store.appendAll(taps('a', 20));
    expect(await store.eventsOf('a')).toEqual(taps('a', 20));
  });

  test.each(FAULTS)('%s: a removal takes all or nothing', async (_where, fault) => {
    const store = await openIndexedDbStore(freshBrowser((n) => (n === 3 ? fault : undefined)));
    await store.addWarp(sampleWarp('a'), samplePlan('A'));
    await store.addRevision(sampleRevision('a', 1));
    await store.append(tap('a', 0));
    await expect(store.removeWarp('a')).rejects.toMatchObject({ trouble: 'quota' });
    expect(await store.warps()).toHaveLength(1);
    expect(await store.revisionsOf('a')).toHaveLength(2);
    expect(await store.eventsOf('a')).toEqual([tap('a', 0)]);
  });
});
