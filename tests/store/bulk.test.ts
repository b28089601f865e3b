/** Everything at one go, where the disk or the handle fails: all of it is there or nothing is. */
import { describe, expect, test } from 'vitest';
import { type Contents, NOTHING } from '../../src/core/backup/contents.ts';
import { openIndexedDbStore } from '../../src/store/indexedDb.ts';
import {
  type Fault,
  freshBrowser,
  fullAtCommit,
  fullAtRequest,
  lostAfterCommit,
  lostBeforeCommit,
} from './browser.ts';
import { samplePlan, sampleRecord, sampleWarp, tap, taps } from './samples.ts';

function contentsOf(ids: readonly string[], picks: number): Contents {
  return {
    warps: ids.map((id) => ({
      warp: { ...sampleWarp(id), wovenAt: tap(id, picks - 1).at },
      plans: [{ revision: 0, madeAt: sampleWarp(id).madeAt, plan: samplePlan(id) }],
      log: taps(id, picks),
    })),
    records: ids.map((id) => sampleRecord('yarn', id)),
    settings: ids.map((name) => ({ name, value: picks })),
  };
}

const FIRST = contentsOf(['a', 'b'], 5);
const NEXT = contentsOf(['a', 'c'], 9);
const BOTH: Contents = {
  warps: [...NEXT.warps.slice(0, 1), ...FIRST.warps.slice(1), ...NEXT.warps.slice(1)],
  records: ['a', 'b', 'c'].map((id) => sampleRecord('yarn', id)),
  settings: [
    { name: 'a', value: 9 },
    { name: 'b', value: 5 },
    { name: 'c', value: 9 },
  ],
};

/** A store holding FIRST, whose next transaction for writing goes wrong. */
async function openWith(fault: Fault) {
  const browser = freshBrowser((n) => (n === 1 ? fault : undefined));
  const store = await openIndexedDbStore(browser);
  await store.addContents(FIRST);
  return { browser, store };
}

describe.each([
  ['adding', 'addContents', BOTH],
  ['replacing', 'replaceContents', NEXT],
] as const)('%s everything', (_what, operation, outcome) => {
  test.each([
    ['at a request', fullAtRequest],
    ['at the commit', fullAtCommit],
  ])('on a disk found full %s leaves everything as it was', async (_when, fault) => {
    const { store } = await openWith(fault);
    await expect(store[operation](NEXT)).rejects.toMatchObject({ trouble: 'quota' });
    expect(await store.contents()).toEqual(FIRST);
    await store[operation](NEXT);
    expect(await store.contents()).toEqual(outcome);
  });

  test.each([
    ['before', lostBeforeCommit],
    ['after', lostAfterCommit],
  ])('with the handle lost %s the commit is there once', async (_when, fault) => {
    const { store } = await openWith(fault);
    await store[operation](NEXT);
    expect(await store.contents()).toEqual(outcome);
  });

  test('is one strict transaction', async () => {
    const browser = freshBrowser();
    const store = await openIndexedDbStore(browser);
    await store[operation](NEXT);
    expect(browser.writes.map(({ durability }) => durability)).toEqual(['strict']);
  });
});

test('a log of 50,000 is added and read at one go', async () => {
  const store = await openIndexedDbStore(freshBrowser());
  const long = contentsOf(['long'], 50_000);
  await store.addContents(long);
  expect(await store.contents()).toEqual(long);
  await store.replaceContents(NOTHING);
  expect(await store.contents()).toEqual(NOTHING);
}, 120_000);
