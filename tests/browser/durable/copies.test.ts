import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import type { LogEvent } from '../../../src/core/bench/events.ts';
import { button, firstVisit, saved, scene, setBounce, storedEvents, weaveDemo } from '../bench.ts';
import {
  type ChromiumHandle,
  makeTempDir,
  openChromium,
  removeDir,
  serveDist,
} from '../harness.ts';
import {
  change,
  databaseLog,
  deleteDatabase,
  deletePrivateFiles,
  journalFile,
  tearDatabaseLog,
} from './profile.ts';

/** A browser without a private file system: what it keeps stands in the database alone. */
const ONE_COPY = 'delete StorageManager.prototype.getDirectory;';

let server: Awaited<ReturnType<typeof serveDist>>;
let profileDir = '';
let browser: ChromiumHandle | null = null;
let script = '';

beforeAll(async () => {
  server = await serveDist();
});

afterEach(async () => {
  await close();
  removeDir(profileDir);
  script = '';
});

afterAll(() => server.stop());

async function launch(): Promise<Page> {
  browser = await openChromium({ profileDir });
  if (script !== '') await browser.context.addInitScript(script);
  await browser.page.goto(server.url);
  return browser.page;
}

async function close(): Promise<void> {
  await browser?.close();
  browser = null;
}

/** A warp on the bench with 30 picks, everything saved, the browser closed. */
async function woven(): Promise<readonly LogEvent[]> {
  profileDir = makeTempDir('copies');
  const page = await launch();
  await firstVisit(page, server.url);
  await weaveDemo(page, 'moss-and-chalk');
  await setBounce(page, 'at once');
  return weaveOn(page, 30);
}

/** Weaves on, and answers the log once everything is saved and the browser closed. */
async function weaveOn(page: Page, picks: number): Promise<readonly LogEvent[]> {
  await scene(page).waitFor();
  await page.evaluate(async (times) => {
    for (let i = 0; i < times; i += 1) {
      for (const type of ['keydown', 'keyup']) {
        dispatchEvent(new KeyboardEvent(type, { key: 'PageDown', cancelable: true }));
      }
      await new Promise((resolve) => setTimeout(resolve));
    }
  }, picks);
  await saved(page);
  const events = await storedEvents(page);
  await close();
  return events;
}

/** Opens the app: it is at the bench by itself, says nothing, and everything is there. */
async function findsAll(events: readonly LogEvent[]): Promise<Page> {
  const page = await launch();
  await scene(page).waitFor();
  expect(await page.locator('dialog, [role="alert"]').count()).toBe(0);
  await expect.poll(() => storedEvents(page)).toEqual(events);
  return page;
}

describe('the browser’s own database log, torn as a kill tears it', () => {
  it('costs an unprotected database everything, two launches later, and the app says so in red', async () => {
    script = ONE_COPY;
    await woven();
    tearDatabaseLog(profileDir);
    const events = await weaveOn(await launch(), 20);
    expect(events).toHaveLength(50);
    const page = await launch();
    await page.getByRole('alert').waitFor();
    expect(await page.getByRole('alert').textContent()).toContain(
      'Everything Fellmark had saved on this device is gone: 1 warp with 50 entries',
    );
    expect(await storedEvents(page)).toEqual([]);
  });

  it('costs nothing with a second copy, and nothing is asked', async () => {
    await woven();
    tearDatabaseLog(profileDir);
    const events = await weaveOn(await launch(), 20);
    expect(events).toHaveLength(50);
    await weaveOn(await findsAll(events), 5);
    const again = await launch();
    await scene(again).waitFor();
    expect((await storedEvents(again)).slice(0, 50)).toEqual(events);
  });

  it('torn before every launch, five times, it still costs nothing', async () => {
    let events = await woven();
    for (let time = 0; time < 5; time += 1) {
      tearDatabaseLog(profileDir);
      const page = await findsAll(events);
      events = await weaveOn(page, 10);
      expect(events).toHaveLength(40 + 10 * time);
    }
    await findsAll(events);
  });
});

describe('a copy gone or damaged', () => {
  it('the database deleted: everything comes back from the journal', async () => {
    const events = await woven();
    deleteDatabase(profileDir);
    await findsAll(events);
  });

  it('the journal deleted, and after the next launch the database', async () => {
    const events = await woven();
    deletePrivateFiles(profileDir);
    const page = await findsAll(events);
    await twoCopies(page, events);
    await close();
    deleteDatabase(profileDir);
    await findsAll(events);
  });

  it.each<[string, (bytes: Buffer) => Uint8Array]>([
    ['cut in its last record', (bytes) => bytes.subarray(0, -40)],
    ['cut in its first record', (bytes) => bytes.subarray(0, 300)],
    ['changed in its last record', (bytes) => Uint8Array.from(bytes).with(bytes.length - 30, 7)],
    ['changed in its first line', (bytes) => Uint8Array.from(bytes).with(60, 7)],
    ['with a hole of zeros at its end', (bytes) => Buffer.from(bytes).fill(0, bytes.length - 700)],
    ['emptied', () => new Uint8Array()],
  ])('the journal %s, and after the next launch the database deleted', async (_how, damage) => {
    const events = await woven();
    change(journalFile(profileDir), damage);
    const page = await findsAll(events);
    await twoCopies(page, events);
    await close();
    deleteDatabase(profileDir);
    await findsAll(events);
  });

  it('the middle of the journal changed, which no launch reads: found a little later', async () => {
    await woven();
    const events = await weaveOn(await launch(), 420);
    change(journalFile(profileDir), (bytes) => Uint8Array.from(bytes).with(700, 7));
    const page = await findsAll(events);
    const before = readFileSync(journalFile(profileDir));
    await expect
      .poll(() => readFileSync(journalFile(profileDir)).equals(before), { timeout: 30_000 })
      .toBe(false);
    await page.waitForTimeout(500);
    await close();
    deleteDatabase(profileDir);
    await findsAll(events);
  });

  it('the browser’s database damaged so that it will not open', async () => {
    const events = await woven();
    change(databaseLog(profileDir), (bytes) => Buffer.from(bytes).fill(0xff, 40));
    await findsAll(events);
  });
});

describe('both copies gone', () => {
  it('is said in red, with what there was and what to do, and goes on being said', async () => {
    await woven();
    deleteDatabase(profileDir);
    deletePrivateFiles(profileDir);
    for (let launches = 0; launches < 2; launches += 1) {
      const page = await launch();
      await page.getByRole('alert').waitFor();
      const words = await page.getByRole('alert').textContent();
      expect(words).toContain('1 warp with 30 entries');
      expect(words).toContain('backup');
      await close();
    }
    const page = await launch();
    await button(page, 'Start anew').click();
    await expect.poll(() => page.getByRole('alert').count()).toBe(0);
    await weaveDemo(page, 'ink-oat-ochre');
    await saved(page);
    await page.reload();
    await scene(page).waitFor();
    expect(await page.getByRole('alert').count()).toBe(0);
  });

  it('a first visit says nothing of the kind', async () => {
    profileDir = makeTempDir('copies');
    const page = await launch();
    await firstVisit(page, server.url);
    expect(await page.getByRole('alert').count()).toBe(0);
  });
});

/** Waits until the journal has everything too. */
async function twoCopies(page: Page, events: readonly LogEvent[]): Promise<void> {
  const last = events.at(-1)?.id;
  await expect.poll(() => journalText(page)).toContain(last);
}

function journalText(page: Page): Promise<string> {
  return page.evaluate(async () => {
    const root = await navigator.storage.getDirectory();
    const folder = await root.getDirectoryHandle('fellmark');
    const texts = ['journal-0.txt', 'journal-1.txt'].map(async (name) => {
      const file = await folder.getFileHandle(name);
      return (await file.getFile()).text();
    });
    return (await Promise.all(texts)).join('');
  });
}
