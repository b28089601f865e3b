import 'fake-indexeddb/auto';
import { expect, test } from 'vitest';
import { keepFold, readFold } from '../../src/store/folds.ts';

test('of what a log came to the last is kept, until nothing is', async () => {
  expect(await readFold()).toBeUndefined();
  await keepFold({ warp: 'a', pick: 1 });
  await keepFold({ warp: 'b', pick: 2 });
  expect(await readFold()).toEqual({ warp: 'b', pick: 2 });
  await keepFold(undefined);
  expect(await readFold()).toBeUndefined();
});
