// The Keep safe screen as a weaver uses it.
import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import type { Backup } from '../../../src/core/backup/file/backupFile.ts';
import { readBackup } from '../../../src/core/backup/file/readBackup.ts';
import { DATABASE_NAME, type RoomName } from '../../../src/store/schema.ts';
import { button, chooseFile } from '../bench.ts';

export const panel = (page: Page) => page.locator('.keep-panel');

/** Goes to the Keep safe screen, from the Warps screen, and waits until its file is made. */
export async function toKeep(page: Page): Promise<void> {
  await button(page, 'Keep safe').click();
  await page.getByRole('heading', { name: 'Keep safe', exact: true }).waitFor();
  await page.locator('.keep button:enabled', { hasText: 'Save the backup' }).waitFor();
}

/** Goes back to Warps. */
export async function fromKeep(page: Page): Promise<void> {
  await button(page, '‹ Warps').click();
  await page.getByRole('heading', { name: 'Fellmark' }).waitFor();
}

export interface SavedFile {
  readonly name: string;
  readonly text: string;
}

/** What a tap hands to the browser to save. */
export async function savedBy(page: Page, tap: () => Promise<unknown>): Promise<SavedFile> {
  const [download] = await Promise.all([page.waitForEvent('download'), tap()]);
  return {
    name: download.suggestedFilename(),
    text: await readFile(await download.path(), 'utf8'),
  };
}

/** Saves a backup from the Warps screen and comes back to it. */
export async function backupOf(page: Page): Promise<string> {
  await toKeep(page);
  const { text } = await savedBy(page, () => button(page, 'Save the backup').click());
  await fromKeep(page);
  return text;
}

/** What a backup file holds; throws when it is none. */
export function backupIn(text: string): Backup {
  const read = readBackup(text);
  if (!read.ok) throw new Error(JSON.stringify(read.problem));
  return read.value;
}

/** Chooses a file on the Keep safe screen and waits until it is shown. */
export async function look(page: Page, text: string, name = 'backup.json'): Promise<void> {
  await chooseFile(page, name, text);
  await panel(page).waitFor();
}

/** The words of every warp in the panel: `name | tag | what will become of it`. */
export function shownRows(page: Page): Promise<readonly string[]> {
  return page.locator('.keep-rows li').evaluateAll((rows) =>
    rows.map((row) => {
      const [name = '', ...tags] = [...(row.querySelector('.keep-name')?.childNodes ?? [])].map(
        (it) => it.textContent ?? '',
      );
      return [name, tags.join(' '), row.querySelector('p:last-child')?.textContent].join(' | ');
    }),
  );
}

/** Writes records into a room of the database, past the app. */
export function putRecords(page: Page, room: RoomName, records: readonly object[]): Promise<void> {
  return page.evaluate(
    ([name, into, values]) =>
      new Promise<void>((resolve, reject) => {
        const opening = indexedDB.open(name);
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          const database = opening.result;
          const writing = database.transaction(into, 'readwrite');
          for (const value of values) writing.objectStore(into).put(value);
          writing.onabort = () => reject(writing.error);
          writing.oncomplete = () => {
            database.close();
            resolve();
          };
        };
      }),
    [DATABASE_NAME, room, records] as const,
  );
}
