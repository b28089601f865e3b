// Snapshots as a page asks for them: its worker is this very thread, the places they lie in stand-ins.
import 'fake-indexeddb/auto';
import { IDBFactory as FakeFactory } from 'fake-indexeddb';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { openIndexedDbStore } from '../../../src/store/indexedDb.ts';
import { DATABASE_NAME, DATABASE_VERSION } from '../../../src/store/schema.ts';
import {
  type Answer,
  type Ask,
  listSnapshots,
  readSnapshot,
  takeSnapshot,
} from '../../../src/store/snapshots/ask.ts';
import { versionBefore } from '../../../src/store/snapshots/beforeUpgrade.ts';
import { openRaw } from '../raw.ts';
import { sampleWarp } from '../samples.ts';
import { fakeStorage } from './folder.ts';

const ORDER = {
  id: 's',
  madeAt: '2026-11-28T10:00:00.000Z',
  reason: 'import',
  app: '0.1.0',
} as const;

let factory: IDBFactory;
let ended: number;

/** A page whose workers run `worker.ts` anew, each until it is ended. */
beforeEach(() => {
  factory = new FakeFactory();
  ended = 0;
  vi.stubGlobal('indexedDB', factory);
  vi.stubGlobal('navigator', { storage: fakeStorage().storage });
  vi.stubGlobal(
    'Worker',
    class {
      onmessage: ((event: { data: Answer }) => void) | null = null;
      postMessage(ask: Ask): void {
        void this.#load().then((listen) => listen({ data: ask }));
      }
      terminate(): void {
        ended += 1;
      }
      async #load(): Promise<(event: { data: Ask }) => void> {
        let listen: (event: { data: Ask }) => void = () => undefined;
        vi.stubGlobal('addEventListener', (_: string, to: typeof listen) => {
          listen = to;
        });
        vi.stubGlobal('postMessage', (data: Answer) => this.onmessage?.({ data }));
        vi.resetModules();
        await import('../../../src/store/snapshots/worker.ts');
        return listen;
      }
    },
  );
});

afterEach(() => vi.unstubAllGlobals());

async function weave(): Promise<void> {
  const store = await openIndexedDbStore();
  await store.addContents({
    warps: [{ warp: sampleWarp('a'), plans: [], log: [] }],
    records: [],
    settings: [],
  });
  store.close();
}

describe('a page', () => {
  test('has a snapshot taken, listed and read, and ends each worker', async () => {
    await weave();
    const note = await takeSnapshot(ORDER);
    expect(note).toMatchObject({ ...ORDER, holds: { warps: 1 } });
    expect(await listSnapshots()).toEqual([note]);
    expect(await readSnapshot('s')).toContain('"Towels a"');
    expect(ended).toBe(3);
  });

  test('is told when there is nothing on the disk yet', async () => {
    expect(await takeSnapshot(ORDER)).toBeNull();
    expect(await factory.databases()).toEqual([]);
  });

  test('is told when there is no such snapshot', async () => {
    await expect(readSnapshot('other')).rejects.toThrow('got snapshot other');
  });

  test('keeps them in a database where there is no private file system', async () => {
    vi.stubGlobal('navigator', {});
    await weave();
    await takeSnapshot(ORDER);
    expect((await factory.databases()).map(({ name }) => name)).toContain('fellmark-snapshots');
    expect(await readSnapshot('s')).toContain('"Towels a"');
  });

  test('keeps none where there is nothing to keep them in', async () => {
    vi.stubGlobal('navigator', {});
    vi.stubGlobal('indexedDB', undefined);
    expect(await listSnapshots()).toEqual([]);
    await expect(takeSnapshot(ORDER)).rejects.toThrow();
  });
});

describe('the version of the database before it is opened', () => {
  test.each([1, 2, 3, 4])('is %i where that lies there', async (version) => {
    (await openRaw(factory, version)).close();
    expect(await versionBefore(factory)).toBe(version);
  });

  test('is 0 where there is none, and none is made; ours where the browser does not tell', async () => {
    expect(await versionBefore(factory)).toBe(0);
    expect((await factory.databases()).map(({ name }) => name)).not.toContain(DATABASE_NAME);
    const silent = { open: factory.open } as unknown as IDBFactory;
    expect(await versionBefore(silent)).toBe(DATABASE_VERSION);
  });
});
