// An older app that finds the data of a newer one: it refuses, writes nothing, and shows a way on.
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { beforeAll, expect, it } from 'vitest';
import { DATABASE_NAME, DATABASE_VERSION } from '../../../src/store/schema.ts';
import { type App, openApp } from '../app.ts';
import { button, saved, setBounce, storedEvents, throwPicks, weaveDemo } from '../bench.ts';

let app: App;
let page: Page;
let ids: readonly string[] = [];

beforeAll(async () => {
  app = await openApp();
  ({ page } = app);
  await weaveDemo(page, 'moss-and-chalk');
  await setBounce(page, 'at once');
  await throwPicks(page, 7);
  await saved(page);
  ids = (await storedEvents(page)).map(({ id }) => id);
  await away();
  await page.evaluate(makeNewer, [DATABASE_NAME, DATABASE_VERSION + 1] as const);
  return app.close;
});

/** Somewhere at the same address where the app does not run. */
async function away(): Promise<void> {
  await page.goto(new URL('icon.svg', app.url).href);
}

/** In the page: what a newer app would have done, a room more. */
function makeNewer([name, version]: readonly [string, number]): Promise<void> {
  return new Promise((resolve, reject) => {
    const opening = indexedDB.open(name, version);
    opening.onupgradeneeded = () => {
      opening.result.createObjectStore('dyebaths').add({ madder: 3 }, 'pot');
    };
    opening.onsuccess = () => {
      opening.result.close();
      resolve();
    };
    opening.onerror = () => reject(opening.error);
  });
}

/** In the page: everything in the database and in the private files, as text. */
async function everything(name: string): Promise<string> {
  const database = await new Promise<IDBDatabase>((resolve, reject) => {
    const opening = indexedDB.open(name);
    opening.onsuccess = () => resolve(opening.result);
    opening.onerror = () => reject(opening.error);
  });
  const rooms = [...database.objectStoreNames];
  const found = await Promise.all(
    rooms.map(
      (room) =>
        new Promise((resolve, reject) => {
          const asking = database.transaction(room).objectStore(room).getAll();
          asking.onsuccess = () => resolve([room, asking.result]);
          asking.onerror = () => reject(asking.error);
        }),
    ),
  );
  const folder = await (await navigator.storage.getDirectory()).getDirectoryHandle('fellmark');
  const files: [string, string][] = [];
  for (const file of ['journal-0.txt', 'journal-1.txt']) {
    const handle = await folder.getFileHandle(file).catch(() => null);
    if (handle !== null) files.push([file, await (await handle.getFile()).text()]);
  }
  const { version } = database;
  database.close();
  return JSON.stringify({ version, found, files });
}

it('says so in red, offers an update and a copy, and writes nothing at all', async () => {
  const before = await page.evaluate(everything, DATABASE_NAME);
  expect(before).toContain('madder');
  await page.goto(app.url);
  const alert = page.getByRole('alert').first();
  await alert.waitFor();
  expect(await alert.textContent()).toContain('newer');
  await button(page, 'Look for an update').waitFor();
  await page.keyboard.press('PageDown');
  await page.waitForTimeout(1000);
  await away();
  expect(await page.evaluate(everything, DATABASE_NAME)).toBe(before);
});

it('shows the way to the rescue page, which takes every entry out', async () => {
  await page.goto(app.url);
  await page.getByRole('alert').getByRole('link', { name: 'Take the data out' }).click();
  await page.locator('#save:enabled').waitFor();
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.locator('#save').click(),
  ]);
  const text = readFileSync(await download.path(), 'utf8');
  expect(ids).toHaveLength(7);
  for (const id of ids) expect(text).toContain(id);
  expect(text).toContain('madder');
});
