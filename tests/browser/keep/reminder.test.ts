// When a backup is asked for, how it is shared, and what is kept before an upgrade.
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, expect, it } from 'vitest';
import { DATABASE_NAME } from '../../../src/store/schema.ts';
import { visit } from '../app.ts';
import { button, scene, storedRecords, toWarps, weavePlan } from '../bench.ts';
import { openVisitor, serveDist, type Visitor } from '../harness.ts';
import { planWeaving, solid } from '../plans.ts';
import { putRecords, toKeep } from './keeping.ts';

const PLAN = { ...planWeaving('A', [solid('A', 2000)]), name: 'Scarf' };

let server: Awaited<ReturnType<typeof serveDist>>;
let browser: Visitor;
let page: Page;

beforeAll(async () => {
  server = await serveDist();
});

beforeEach(async () => {
  browser = await openVisitor({ serviceWorkers: 'block' });
  page = browser.page;
  return () => browser.close();
});

afterAll(() => server.stop());

const agoAt = (days: number) => new Date(Date.now() - days * 86_400_000).toISOString();
const words = () => page.locator('.offer').allTextContents();

/** A warp with so many picks, the last of them so many days ago. */
async function woven(picks: number, daysAgo: number): Promise<void> {
  await visit(page, server.url);
  await weavePlan(page, PLAN);
  await toWarps(page);
  const [warp] = (await storedRecords(page, 'warps')) as [{ id: string }];
  const event = { id: 'e', warp: warp.id, after: null, at: agoAt(daysAgo), kind: 'thrown', picks };
  await putRecords(page, 'events', [{ ...event, seq: 0 }]);
  await reload();
}

async function reload(): Promise<void> {
  await page.reload();
  await page.locator('.warp-tile').first().waitFor();
}

it('over 500 picks are told on Warps, with the way to a backup, and nowhere else', async () => {
  await woven(500, 1);
  expect(await words()).toEqual([]);
  await putRecords(page, 'events', [
    { ...((await storedRecords(page, 'events'))[0] as object), picks: 501 },
  ]);
  await reload();
  await expect
    .poll(words)
    .toEqual([expect.stringMatching('501 picks woven, and no backup has left')]);
  expect(await page.locator('dialog[open]').count()).toBe(0);
  await button(page, 'Go on').click();
  await scene(page).waitFor();
  expect(await page.locator('.offer').count()).toBe(0);
});

it('a week after the last backup a few picks are told, and after the next one no more', async () => {
  await woven(3, 6);
  await putRecords(page, 'settings', [{ name: 'exported', value: agoAt(6.5) }]);
  await reload();
  expect(await words()).toEqual([]);
  await putRecords(page, 'settings', [{ name: 'exported', value: agoAt(8) }]);
  await reload();
  await expect
    .poll(words)
    .toEqual([expect.stringMatching('3 picks woven since the last backup, 8 days ago')]);
  await button(page, 'Save a backup').click();
  await button(page, 'Save the backup').click();
  await button(page, 'It is there').click();
  await button(page, '‹ Warps').click();
  await page.locator('.warp-tile').first().waitFor();
  expect(await words()).toEqual([]);
});

it('where the system shares files the backup is shared, and counts only when it was', async () => {
  await page.addInitScript(() => {
    const shared: string[] = [];
    Object.assign(globalThis, { shared, refuse: true });
    navigator.canShare = () => true;
    navigator.share = async (data) => {
      if ((globalThis as { refuse?: boolean }).refuse)
        throw new DOMException('closed', 'AbortError');
      shared.push(`${data?.files?.[0]?.name} ${data?.files?.[0]?.type} ${data?.files?.[0]?.size}`);
    };
  });
  await woven(3, 1);
  await toKeep(page);
  const state = () => page.locator('.keep-state').first().textContent();
  await button(page, 'Share the backup').click();
  await page.waitForTimeout(300);
  expect(await state()).toMatch('No backup has left this device yet');
  await page.evaluate('globalThis.refuse = false');
  await button(page, 'Share the backup').click();
  await expect.poll(state).toMatch('today, ');
  expect(await page.evaluate('globalThis.shared')).toEqual([
    expect.stringMatching(/^fellmark-backup-[\d-]+\.json application\/json \d+$/),
  ]);
});

it('before an upgrade of the storage everything is kept as it was', async () => {
  // A page of this origin that starts nothing.
  await page.goto(`${server.url}robots.txt`);
  await page.evaluate(
    ([name, plan]) =>
      new Promise<void>((resolve, reject) => {
        const opening = indexedDB.open(name, 1);
        opening.onerror = () => reject(opening.error);
        opening.onupgradeneeded = () => {
          const it = opening.result;
          it.createObjectStore('warps', { keyPath: 'id' }).put({
            id: 'w',
            name: 'Old scarf',
            demo: false,
            madeAt: '2025-01-01T00:00:00.000Z',
            wovenAt: null,
          });
          it.createObjectStore('revisions', { keyPath: ['warp', 'revision'] }).put({
            warp: 'w',
            revision: 0,
            madeAt: '2025-01-01T00:00:00.000Z',
            plan,
          });
          const events = it.createObjectStore('events', { keyPath: ['warp', 'seq'] });
          events.createIndex('id', ['warp', 'id'], { unique: true });
          it.createObjectStore('settings', { keyPath: 'name' });
        };
        opening.onsuccess = () => {
          opening.result.close();
          resolve();
        };
      }),
    [DATABASE_NAME, PLAN] as const,
  );
  await visit(page, server.url);
  await page.locator('.warp-tile', { hasText: 'Old scarf' }).waitFor();
  await toKeep(page);
  await expect
    .poll(() => page.locator('.keep-tile').allTextContents())
    .toEqual([expect.stringMatching('before an update changed the storage')]);
});
