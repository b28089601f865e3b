// Opening the store with all that a browser has, each of it taken away in turn.
import { IDBFactory as FakeFactory } from 'fake-indexeddb';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import type { DurableStore } from '../../src/store/durable.ts';
import type { Answer, Request } from '../../src/store/journal/journal.ts';
import { createKeeper } from '../../src/store/journal/keeper.ts';
import { openStore } from '../../src/store/open.ts';
import { DATABASE_VERSION } from '../../src/store/schema.ts';
import { type FakeFiles, fakeFiles } from './files.ts';
import { createLocks } from './locks.ts';
import { openRaw } from './raw.ts';
import { samplePlan, sampleWarp, taps } from './samples.ts';
import { until } from './world.ts';

let files: FakeFiles;
let factory: IDBFactory;
let posted: unknown[];
let workers: URL[];

beforeEach(() => {
  files = fakeFiles();
  factory = new FakeFactory();
  posted = [];
  workers = [];
  const storage = new Map<string, string>();
  vi.stubGlobal('indexedDB', factory);
  vi.stubGlobal('localStorage', {
    getItem: (key: string) => storage.get(key) ?? null,
    setItem: (key: string, value: string) => void storage.set(key, value),
  });
  vi.stubGlobal('navigator', {
    locks: createLocks().forWindow(),
    storage: { getDirectory: () => undefined },
  });
  vi.stubGlobal(
    'Worker',
    class {
      onmessage: ((event: { data: Answer }) => void) | null = null;
      readonly #answer = createKeeper(files.open, DATABASE_VERSION);
      constructor(url: URL) {
        workers.push(url);
      }
      postMessage(request: Request): void {
        void this.#answer(request).then((data) => this.onmessage?.({ data }));
      }
    },
  );
  vi.stubGlobal(
    'BroadcastChannel',
    class {
      onmessage = null;
      postMessage(message: unknown): void {
        posted.push(message);
      }
      close(): void {}
    },
  );
});

afterEach(() => vi.unstubAllGlobals());

const open = () => openStore({ by: 'window', newStore: 'store', finishing: async () => undefined });

async function weave(store: DurableStore): Promise<void> {
  await store.addWarp(sampleWarp('a'), samplePlan('A'));
  await store.appendAll(taps('a', 5));
}

describe('the store of the app', () => {
  test('is kept in the database and in the journal of a worker, and other windows hear of it', async () => {
    const store = await open();
    await weave(store);
    expect(store.state()).toMatchObject({ pen: 'here', copies: 'two', trouble: null });
    expect(workers.map(({ pathname }) => pathname.split('/').at(-1))).toEqual(['worker.ts']);
    expect(Buffer.from(files.files[0].bytes()).toString()).toContain('"kind":"events"');
    expect(posted).toContainEqual(expect.objectContaining({ kind: 'wrote' }));
    store.close();
  });

  test.each<[string, () => void]>([
    ['no workers', () => vi.stubGlobal('Worker', undefined)],
    [
      'no private files',
      () => vi.stubGlobal('navigator', { locks: createLocks().forWindow(), storage: {} }),
    ],
    ['no storage at all to ask for', () => vi.stubGlobal('navigator', {})],
  ])('in a browser with %s is kept once, and says so', async (_what, take) => {
    take();
    const store = await open();
    await weave(store);
    expect(store.state()).toMatchObject({ copies: 'missing', trouble: null });
    expect(await store.eventsOf('a')).toEqual(taps('a', 5));
    store.close();
  });

  test.each<[string, () => void]>([
    ['no locks', () => vi.stubGlobal('navigator', { storage: { getDirectory: () => undefined } })],
    ['no way for windows to talk', () => vi.stubGlobal('BroadcastChannel', undefined)],
  ])('in a browser with %s writes all the same', async (_what, take) => {
    take();
    const store = await open();
    await weave(store);
    expect(store.state()).toMatchObject({ pen: 'here', copies: 'two' });
    expect(posted).toEqual([]);
    store.close();
  });

  test('is refused where there is no database', async () => {
    vi.stubGlobal('indexedDB', undefined);
    await expect(open()).rejects.toMatchObject({ trouble: 'refused' });
  });
});

describe('a database that does not open', () => {
  const lostRoom = async () =>
    (
      await openRaw(factory, DATABASE_VERSION, (database) => void database.createObjectStore('odd'))
    ).close();

  test('for want of a room is made anew from the journal', async () => {
    const store = await open();
    await weave(store);
    store.close();
    await until(() => !files.isOpen());
    factory = new FakeFactory();
    vi.stubGlobal('indexedDB', factory);
    await lostRoom();
    const again = await open();
    expect(await again.eventsOf('a')).toEqual(taps('a', 5));
    again.close();
  });

  test('for want of a room, and without a journal, stays as it is and says so', async () => {
    await lostRoom();
    await expect(open()).rejects.toMatchObject({ trouble: 'lost-connection' });
    vi.stubGlobal('Worker', undefined);
    await expect(open()).rejects.toMatchObject({ trouble: 'lost-connection' });
    const database = await openRaw(factory);
    expect([...database.objectStoreNames]).toEqual(['odd']);
    database.close();
  });

  test('because a newer app wrote it is not looked into', async () => {
    (await openRaw(factory, DATABASE_VERSION + 1, () => undefined)).close();
    await expect(open()).rejects.toMatchObject({ trouble: 'newer-data' });
    expect(files.isOpen()).toBe(false);
  });
});
