import 'fake-indexeddb/auto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { root } from '../../scripts/ensure.mjs';
import { keepFold, readFold } from '../../src/store/folds.ts';

const wakeScript = readFileSync(join(root, 'public', 'wake.js'), 'utf8');

/** As the page runs it, before the app. */
const wake = (): void => new Function('window', wakeScript)(globalThis);

test('of what a log came to the last is kept, until nothing is', async () => {
  expect(await readFold()).toBeUndefined();
  await keepFold({ warp: 'a', pick: 1 });
  await keepFold({ warp: 'b', pick: 2 });
  expect(await readFold()).toEqual({ warp: 'b', pick: 2 });
  await keepFold(undefined);
  expect(await readFold()).toBeUndefined();
});

test('woken first, its database is the same one, and what was read is told once', async () => {
  indexedDB.deleteDatabase('fellmark-fold');
  wake();
  expect(await readFold()).toBeUndefined();
  await keepFold({ warp: 'a', pick: 1 });
  wake();
  const woken = await globalThis.fellmarkFold;
  await keepFold({ warp: 'b', pick: 2 });
  expect(woken).toEqual({ warp: 'a', pick: 1 });
  expect(await readFold()).toBe(woken);
  expect(await readFold()).toEqual({ warp: 'b', pick: 2 });
});

test('where waking failed it is read all the same', async () => {
  await keepFold({ warp: 'c', pick: 3 });
  globalThis.fellmarkFold = Promise.reject(new Error('asleep'));
  expect(await readFold()).toEqual({ warp: 'c', pick: 3 });
});
