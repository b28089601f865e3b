import { describe, expect, test } from 'vitest';
import { createConnection } from '../../src/store/connection.ts';
import { openDatabaseCopy } from '../../src/store/database.ts';
import { openIndexedDbStore } from '../../src/store/indexedDb.ts';
import {
  closeLoudly,
  closeSilently,
  type Fault,
  freshBrowser,
  lostAfterCommit,
  lostBeforeCommit,
} from './browser.ts';
import { samplePlan, sampleRevision, sampleWarp, tap, taps } from './samples.ts';
import { closeWindow, freshWorld, openWindow } from './world.ts';

const PLACES: readonly [string, Fault][] = [
  ['before its commit', lostBeforeCommit],
  ['after its commit', lostAfterCommit],
];

describe('a handle that the system closes', () => {
  test.each([
    ['with a close event', closeLoudly],
    ['without a word', closeSilently],
  ])(
    '%s before each of 1,000 writes: nothing lost, nothing twice',
    async (_how, closeHandle) => {
      const browser = freshBrowser();
      const store = await openIndexedDbStore(browser);
      await store.addWarp(sampleWarp('a'), samplePlan('A'));
      for (const event of taps('a', 1000)) {
        closeHandle(browser);
        await store.append(event);
      }
      expect(browser.opens()).toBe(1001);
      expect(await store.eventsOf('a')).toEqual(taps('a', 1000));
    },
    60_000,
  );

  test('under reads: they answer all the same', async () => {
    const browser = freshBrowser();
    const store = await openIndexedDbStore(browser);
    await store.addWarp(sampleWarp('a'), samplePlan('A'));
    closeSilently(browser);
    expect(await store.warps()).toEqual([sampleWarp('a')]);
    closeSilently(browser);
    expect(await store.eventsOf('a')).toEqual([]);
  });

  test('under 100 writes at once: all there, in order, once', async () => {
    const browser = freshBrowser((n) => (n % 7 === 3 ? lostBeforeCommit : undefined));
    const store = await openIndexedDbStore(browser);
    await store.addWarp(sampleWarp('a'), samplePlan('A'));
    const writing = taps('a', 100).map((event) => store.append(event));
    closeSilently(browser);
    await Promise.all(writing);
    expect(await store.eventsOf('a')).toEqual(taps('a', 100));
    expect(browser.opens()).toBeGreaterThan(10);
  });
});

describe('a connection that goes in the middle of a write', () => {
  test.each(PLACES)('%s: the event is there once', async (_when, fault) => {
    const browser = freshBrowser((n) => (n % 2 === 1 ? fault : undefined));
    const store = await openIndexedDbStore(browser);
    await store.addWarp(sampleWarp('a'), samplePlan('A'));
    for (const event of taps('a', 50)) await store.append(event);
    expect(await store.eventsOf('a')).toEqual(taps('a', 50));
    expect(browser.opens()).toBeGreaterThan(25);
  });

  test.each(PLACES)('%s: events appended together are there once', async (_when, fault) => {
    const browser = freshBrowser((n) => (n % 2 === 1 ? fault : undefined));
    const store = await openIndexedDbStore(browser);
    await store.addWarp(sampleWarp('a'), samplePlan('A'));
    await store.appendAll(taps('a', 30));
    await store.appendAll(taps('a', 50));
    expect(await store.eventsOf('a')).toEqual(taps('a', 50));
    expect(browser.opens()).toBe(3);
  });

  test.each(PLACES)('%s: warp and plan are there once', async (_when, fault) => {
    const browser = freshBrowser((n) => (n % 2 === 0 ? fault : undefined));
    const store = await openIndexedDbStore(browser);
    await store.addWarp(sampleWarp('a'), samplePlan('A'));
    await store.addRevision(sampleRevision('a', 1));
    expect(await store.warps()).toEqual([sampleWarp('a')]);
    expect((await store.revisionsOf('a')).map(({ revision }) => revision)).toEqual([0, 1]);
  });

  test('a second try still refuses an id that another warp or plan has', async () => {
    const browser = freshBrowser();
    const store = await openIndexedDbStore(browser);
    await store.addWarp(sampleWarp('a'), samplePlan('first'));
    closeSilently(browser);
    const other = { ...sampleWarp('a'), name: 'Another' };
    await expect(store.addWarp(other, samplePlan('second'))).rejects.toThrow('second time');
    closeSilently(browser);
    await expect(store.addRevision(sampleRevision('a', 0))).rejects.toThrow('second time');
    expect(await store.warps()).toEqual([sampleWarp('a')]);
    expect(await store.revisionsOf('a')).toMatchObject([{ plan: samplePlan('first') }]);
  });
});

describe('a connection that does not come back', () => {
  test('is given up after three tries, and said', async () => {
    const browser = freshBrowser((n) => (n >= 1 ? lostBeforeCommit : undefined));
    const store = await openIndexedDbStore(browser);
    await store.addWarp(sampleWarp('a'), samplePlan('A'));
    await expect(store.append(tap('a', 0))).rejects.toMatchObject({
      name: 'StoreError',
      trouble: 'lost-connection',
    });
    expect(browser.writes).toHaveLength(1 + 3);
    expect(await store.eventsOf('a')).toEqual([]);
  });

  test('is taken up again by the next tap when it does', async () => {
    const browser = freshBrowser((n) => (n >= 1 && n < 4 ? lostBeforeCommit : undefined));
    const store = await openIndexedDbStore(browser);
    await store.addWarp(sampleWarp('a'), samplePlan('A'));
    await expect(store.append(tap('a', 0))).rejects.toThrow();
    await store.append(tap('a', 1));
    expect(await store.eventsOf('a')).toEqual([tap('a', 1)]);
  });

  test('fails to open twice, as WebKit does after a crash, and opens the third time', async () => {
    const browser = freshBrowser();
    const store = await openIndexedDbStore(browser);
    await store.addWarp(sampleWarp('a'), samplePlan('A'));
    const open = browser.indexedDB.open;
    let failures = 2;
    browser.indexedDB.open = (name, version) => {
      failures -= 1;
      if (failures >= 0) throw new DOMException('Connection to server lost', 'UnknownError');
      return open(name, version);
    };
    closeLoudly(browser);
    await store.append(tap('a', 0));
    expect(failures).toBe(-1);
    expect(await store.eventsOf('a')).toEqual([tap('a', 0)]);
  });
});

describe('a write that was committed without our knowing', () => {
  // Its commit is on the disk, and neither that nor any later try could say so.
  const unheard = (first: number) =>
    freshBrowser((n) => {
      if (n === first) return lostAfterCommit;
      return n > first && n < first + 3 ? lostBeforeCommit : undefined;
    });

  test.each([
    ['of all', 0],
    ['after others', 2],
  ])('the first %s: the next one follows it, and it is there once', async (_when, first) => {
    const world = freshWorld(unheard(first).indexedDB);
    const store = await openWindow(world);
    const adding = ['a', 'b', 'c'].map((id) => () => store.addWarp(sampleWarp(id), samplePlan(id)));
    const outcomes: string[] = [];
    for (const add of adding) outcomes.push(await add().then(() => 'saved', String));
    expect(outcomes.filter((it) => it !== 'saved')).toHaveLength(1);
    await store.append(tap('a', 0));
    expect((await store.warps()).map(({ id }) => id)).toEqual(['a', 'b', 'c']);
    expect(store.state()).toMatchObject({ copies: 'two', trouble: null });
    await closeWindow(world, store);
  });
});

test('a database that was put in the place of ours is not written to', async () => {
  const database = await openDatabaseCopy(freshBrowser().indexedDB, 'fellmark');
  const writing = database.commit(
    { kind: 'setting', name: 'hand', value: 'left' },
    {
      by: 'w',
      store: 's',
      flushed: 0,
      posted: 0,
      mayFollow: (before) => before !== null,
      onTaken: () => undefined,
    },
  );
  await expect(writing).rejects.toThrow('got a database at write 0, made by another window');
  expect(await database.setting('hand')).toBeUndefined();
});

test('after close nothing is opened any more', async () => {
  const { indexedDB } = freshBrowser();
  const connection = createConnection(indexedDB, 'fellmark');
  connection.close();
  const using = connection.use(async () => 'used');
  await expect(using).rejects.toMatchObject({ trouble: 'lost-connection' });
  expect(await indexedDB.databases()).toEqual([]);
});
