/** A state written to a file and brought into an empty store is the same state. */
import { isDeepStrictEqual } from 'node:util';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Contents, NOTHING } from '../../src/core/backup/contents.ts';
import { writeBackup } from '../../src/core/backup/file/backupFile.ts';
import { readBackup } from '../../src/core/backup/file/readBackup.ts';
import { planImport } from '../../src/core/backup/merge/planImport.ts';
import { openIndexedDbStore } from '../../src/store/indexedDb.ts';
import { createMemoryStore } from '../../src/store/memory.ts';
import type { Store } from '../../src/store/store.ts';
import { anyContents } from '../core/backup/states.ts';
import { freshBrowser } from './browser.ts';

async function restored(kept: Contents, store: Store): Promise<Contents> {
  const read = readBackup(writeBackup({ madeAt: '2026-03-01T09:00:00.000Z', app: '1', ...kept }));
  if (!read.ok) throw new Error(JSON.stringify(read.problem));
  await store.addContents(planImport(NOTHING, read.value).additions);
  return store.contents();
}

async function keptBy(store: Store, contents: Contents): Promise<Contents> {
  await store.addContents(structuredClone(contents));
  return store.contents();
}

test.each([
  ['in memory', 1000, async () => createMemoryStore()],
  ['in IndexedDB', 60, () => openIndexedDbStore(freshBrowser())],
] as const)(
  '%s: import(export(x)) equals x, %i generated states',
  { timeout: 120_000 },
  async (_house, numRuns, open) => {
    await fc.assert(
      fc.asyncProperty(anyContents, async (contents) => {
        const kept = await keptBy(await open(), contents);
        const after = await restored(kept, await open());
        // Vitest's own comparison passes over a key named `__proto__`.
        if (!isDeepStrictEqual(after, kept)) expect(after).toEqual(kept);
        expect(isDeepStrictEqual(after, kept)).toBe(true);
      }),
      { numRuns },
    );
  },
);
