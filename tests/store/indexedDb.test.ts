import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import type { LogEvent } from '../../src/core/bench/events.ts';
import { openIndexedDbStore } from '../../src/store/indexedDb.ts';
import { createMemoryStore } from '../../src/store/memory.ts';
import { RECORD_KINDS, type Store } from '../../src/store/store.ts';
import { freshBrowser } from './browser.ts';
import { describeStore } from './contract.ts';
import { openRaw, putRaw } from './raw.ts';
import { samplePlan, sampleRecord, sampleRevision, sampleWarp, tap, taps } from './samples.ts';

describeStore('IndexedDB', () => openIndexedDbStore(freshBrowser()));

/** Appends one event and adds up what it cost: bytes given to the database, and milliseconds. */
async function measureTap(
  store: Store,
  event: LogEvent,
  cost: { bytes: number; readonly times: number[] },
): Promise<void> {
  const { put, add } = IDBObjectStore.prototype;
  const counting = (write: typeof put): typeof put =>
    function (this: IDBObjectStore, value: unknown) {
      cost.bytes += JSON.stringify(value).length;
      return write.call(this, value);
    };
  Object.assign(IDBObjectStore.prototype, { put: counting(put), add: counting(add) });
  try {
    const start = performance.now();
    await store.append(event);
    cost.times.push(performance.now() - start);
  } finally {
    Object.assign(IDBObjectStore.prototype, { put, add });
  }
}

function median(numbers: readonly number[]): number {
  return numbers.toSorted((a, b) => a - b)[Math.floor(numbers.length / 2)] ?? Number.NaN;
}

describe('without being told where', () => {
  test('is in the database of this browser, and is refused where there is none', async () => {
    const { indexedDB } = freshBrowser();
    vi.stubGlobal('indexedDB', indexedDB);
    try {
      const store = await openIndexedDbStore();
      await store.setSetting('hand', 'left');
      expect((await indexedDB.databases()).map(({ name }) => name)).toEqual(['fellmark']);
      vi.stubGlobal('indexedDB', undefined);
      await expect(openIndexedDbStore()).rejects.toMatchObject({ trouble: 'refused' });
    } finally {
      vi.unstubAllGlobals();
    }
  });
});

describe('reopening', () => {
  test('keeps everything', async () => {
    const { indexedDB } = freshBrowser();
    const first = await openIndexedDbStore({ indexedDB });
    await first.addWarp(sampleWarp('a'), samplePlan('A'));
    await first.addRevision(sampleRevision('a', 1));
    for (const event of taps('a', 20)) await first.append(event);
    await first.setSetting('hand', 'left');
    await first.putRecord(sampleRecord('yarn', 'a'));
    const before = await everythingIn(first);
    first.close();

    const second = await openIndexedDbStore({ indexedDB });
    expect(await everythingIn(second)).toEqual(before);
    await second.append(tap('a', 20));
    expect(await second.eventsOf('a')).toEqual(taps('a', 21));
  });

  test('close lets the writes already asked for finish', async () => {
    const { indexedDB } = freshBrowser();
    const first = await openIndexedDbStore({ indexedDB });
    await first.addWarp(sampleWarp('a'), samplePlan('A'));
    const writing = taps('a', 10).map((event) => first.append(event));
    first.close();
    await Promise.all(writing);
    const second = await openIndexedDbStore({ indexedDB });
    expect(await second.eventsOf('a')).toEqual(taps('a', 10));
  });

  test('stores of two names do not see each other', async () => {
    const { indexedDB } = freshBrowser();
    const one = await openIndexedDbStore({ indexedDB, name: 'one' });
    const two = await openIndexedDbStore({ indexedDB, name: 'two' });
    await one.setSetting('hand', 'left');
    expect(await two.setting('hand')).toBeUndefined();
  });
});

describe('writing', () => {
  test('every transaction for writing is strict', async () => {
    const browser = freshBrowser();
    const store = await openIndexedDbStore(browser);
    await store.addWarp(sampleWarp('a'), samplePlan('A'));
    await store.addRevision(sampleRevision('a', 1));
    await store.append(tap('a', 0));
    await store.setSetting('hand', 'left');
    await store.removeWarp('a');
    await store.appendAll([]);
    await store.putRecord(sampleRecord('yarn', 'a'));
    await store.removeRecord('yarn', 'a');
    expect(browser.writes.map(({ durability }) => durability)).toEqual(Array(8).fill('strict'));
  });

  test('the plan is kept under its warp or the warp is not kept', async () => {
    const browser = freshBrowser();
    const store = await openIndexedDbStore(browser);
    // A plan left behind by a mishap takes the place of the first plan: the second record fails.
    await putRaw(await openRaw(browser.indexedDB), 'revisions', [sampleRevision('a', 0)]);
    await expect(store.addWarp(sampleWarp('a'), samplePlan('A'))).rejects.toThrow('Constraint');
    expect(await store.warps()).toEqual([]);
  });

  test('two windows interleaving 1,000 taps: all there, none twice, each window’s in order', async () => {
    const { indexedDB } = freshBrowser();
    const windows = [
      await openIndexedDbStore({ indexedDB }),
      await openIndexedDbStore({ indexedDB }),
    ] as const;
    await windows[0].addWarp(sampleWarp('a'), samplePlan('A'));
    const given = taps('a', 1000);
    await Promise.all(given.map((event, n) => windows[n % 2 === 0 ? 0 : 1].append(event)));
    const kept = (await windows[1].eventsOf('a')).map(({ id }) => id);
    const ids = given.map(({ id }) => id);
    expect(kept.toSorted()).toEqual(ids.toSorted());
    for (const parity of [0, 1]) {
      const own = ids.filter((_, n) => n % 2 === parity);
      expect(kept.filter((id) => own.includes(id))).toEqual(own);
    }
  });
});

describe('a log of 100,000 events', () => {
  const COUNT = 100_000;

  test('reads back whole, and a tap at its end costs what the first one cost', async () => {
    const { indexedDB } = freshBrowser();
    const store = await openIndexedDbStore({ indexedDB });
    await store.addWarp(sampleWarp('short'), samplePlan('Short'));
    await store.addWarp(sampleWarp('long'), samplePlan('Long'));
    const long = taps('long', COUNT);
    const records = long.map((event, seq) => ({ ...event, seq }));
    await putRaw(await openRaw(indexedDB), 'events', records);

    const short = { bytes: 0, times: [] as number[] };
    const end = { bytes: 0, times: [] as number[] };
    for (let n = 0; n < 60; n += 1) {
      await measureTap(store, { ...tap('short', n), after: null }, short);
      await measureTap(store, { ...tap('long', COUNT + n), after: null }, end);
    }

    // The digits of a higher number and the letters of the name are all that may grow.
    expect(short.bytes).toBeGreaterThan(60 * 100);
    expect(end.bytes - short.bytes).toBeLessThan(60 * 20);
    // One seek in a tree that is 17 levels deep; reading the log would be a thousand times as long.
    expect(median(end.times)).toBeLessThan(5 * median(short.times));

    const kept = await store.eventsOf('long');
    expect(kept.length).toBe(COUNT + 60);
    expect(kept.slice(0, COUNT)).toEqual(long);
  }, 60_000);
});

describe('the two houses', () => {
  const WARPS = ['a', 'ab'];
  const warp = fc.constantFrom(...WARPS);
  const number = fc.nat({ max: 3 });
  type Deed = (store: Store) => Promise<void>;
  const deeds: fc.Arbitrary<Deed> = fc.oneof(
    {
      arbitrary: warp.map(
        (id): Deed =>
          (s) =>
            s.addWarp(sampleWarp(id), samplePlan(id)),
      ),
      weight: 2,
    },
    fc.tuple(warp, number).map(
      ([id, n]): Deed =>
        (s) =>
          s.addRevision(sampleRevision(id, n)),
    ),
    {
      // Now and then an id that the other warp has too.
      arbitrary: fc.tuple(warp, warp, number).map(
        ([id, of, n]): Deed =>
          (s) =>
            s.append({ ...tap(id, n), id: `${of}-${n}` }),
      ),
      weight: 6,
    },
    fc.array(fc.tuple(warp, number), { maxLength: 6 }).map(
      (given): Deed =>
        (s) =>
          s.appendAll(given.map(([id, n]) => tap(id, n))),
    ),
    warp.map(
      (id): Deed =>
        (s) =>
          s.removeWarp(id),
    ),
    fc.tuple(fc.constantFrom(...RECORD_KINDS), warp, number).map(
      ([kind, id, n]): Deed =>
        (s) =>
          n === 0
            ? s.removeRecord(kind, id)
            : s.putRecord({ ...sampleRecord(kind, id), body: { n } }),
    ),
    fc.tuple(warp, number).map(
      ([name, n]): Deed =>
        (s) =>
          s.setSetting(name, n),
    ),
    fc.tuple(warp, number, fc.constantFrom('addContents', 'replaceContents')).map(
      ([id, n, operation]): Deed =>
        (s) =>
          s[operation]({
            warps: [{ warp: { ...sampleWarp(id), name: `${n}` }, plans: [], log: taps(id, n) }],
            records: [sampleRecord('yarn', `${n}`)],
            settings: [{ name: id, value: n }],
          }),
    ),
  );

  test('give the same answers and keep the same things, whatever is done to them', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(deeds, { maxLength: 25 }), async (sequence) => {
        const onDisk = await openIndexedDbStore(freshBrowser());
        const inMemory = createMemoryStore();
        const answers = (store: Store) => Promise.all(sequence.map((deed) => answer(deed(store))));
        expect(await answers(onDisk)).toEqual(await answers(inMemory));
        expect(await everythingIn(onDisk, WARPS)).toEqual(await everythingIn(inMemory, WARPS));
      }),
      { numRuns: 60 },
    );
  });
});

function answer(deed: Promise<void>): Promise<string> {
  return deed.then(
    () => 'done',
    (error: unknown) => String(error),
  );
}

async function everythingIn(store: Store, warps: readonly string[] = ['a']) {
  const each = warps.map(async (id) => [await store.revisionsOf(id), await store.eventsOf(id)]);
  const settings = [...warps, 'hand'].map((name) => store.setting(name));
  const records = RECORD_KINDS.map((kind) => store.records(kind));
  return [
    await store.contents(),
    await store.warps(),
    await Promise.all(each),
    await Promise.all(settings),
    await Promise.all(records),
  ];
}
