import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it, type TestContext } from 'vitest';
import type { LogEvent } from '../../../src/core/bench/events.ts';
import { button, firstVisit, saved, scene, setBounce, storedEvents, weaveDemo } from '../bench.ts';
import { type ChromiumHandle, openChromium, removeDir, serveDist, waitUntil } from '../harness.ts';
import {
  change,
  copied,
  databaseLog,
  deleteDatabase,
  deletePrivateFiles,
  journalFile,
  LEAN,
  makeProfileDir,
  tearDatabaseLog,
} from './profile.ts';

/** A browser without a private file system: what it keeps stands in the database alone. */
const ONE_COPY = 'delete StorageManager.prototype.getDirectory;';

let server: Awaited<ReturnType<typeof serveDist>>;
/** A profile with a warp on the bench and 30 picks, everything saved; every test has its own copy. */
let wovenDir = '';
let events: readonly LogEvent[] = [];

beforeAll(async () => {
  server = await serveDist();
  wovenDir = makeProfileDir('woven');
  const weaver = weaverOn(wovenDir);
  const page = await weaver.launch();
  await firstVisit(page, server.url);
  await weaveDemo(page, 'moss-and-chalk');
  await setBounce(page, 'at once');
  events = await weaver.weaveOn(page, 30);
});

afterAll(async () => {
  await server.stop();
  removeDir(wovenDir);
});

interface Weaver {
  readonly profileDir: string;
  /** Opens the app in a new browser. */
  readonly launch: () => Promise<Page>;
  readonly close: () => Promise<void>;
  /** Weaves on, and answers the log once everything is saved and the browser closed. */
  readonly weaveOn: (page: Page, picks: number) => Promise<readonly LogEvent[]>;
  /** Opens the app: it is at the bench by itself, says nothing, and everything is there. */
  readonly findsAll: (events: readonly LogEvent[]) => Promise<Page>;
}

function weaverOn(profileDir: string, script = ''): Weaver {
  let browser: ChromiumHandle | null = null;
  const launch = async () => {
    browser = await openChromium({ profileDir, args: LEAN });
    if (script !== '') await browser.context.addInitScript(script);
    await browser.page.goto(server.url);
    return browser.page;
  };
  const close = async () => {
    await browser?.close();
    browser = null;
  };
  const weaveOn = async (page: Page, picks: number) => {
    await scene(page).waitFor();
    await page.evaluate(press, picks);
    await saved(page);
    const all = await storedEvents(page);
    await close();
    return all;
  };
  const findsAll = async (all: readonly LogEvent[]) => {
    const page = await launch();
    await scene(page).waitFor({ timeout: 30_000 });
    expect(await page.locator('dialog, [role="alert"]').allTextContents()).toEqual([]);
    await waitUntil(async () => (await storedEvents(page)).length === all.length, 5_000);
    expect(await storedEvents(page)).toEqual(all);
    return page;
  };
  return { profileDir, launch, close, weaveOn, findsAll };
}

/** In the page. */
async function press(times: number): Promise<void> {
  for (let i = 0; i < times; i += 1) {
    for (const type of ['keydown', 'keyup']) {
      dispatchEvent(new KeyboardEvent(type, { key: 'PageDown', cancelable: true }));
    }
    await new Promise((resolve) => setTimeout(resolve));
  }
}

/** Someone who has woven 30 picks, until the end of the test. */
function woven({ onTestFinished }: TestContext, script?: string): Weaver {
  const weaver = weaverOn(copied(wovenDir), script);
  onTestFinished(async () => {
    await weaver.close();
    removeDir(weaver.profileDir);
  });
  return weaver;
}

describe.concurrent('the browser’s own database log, torn as a kill tears it', () => {
  it('costs an unprotected database everything, two launches later, and the app says so in red', async (context) => {
    const weaver = woven(context, ONE_COPY);
    deletePrivateFiles(weaver.profileDir);
    tearDatabaseLog(weaver.profileDir);
    expect(await weaver.weaveOn(await weaver.launch(), 20)).toHaveLength(50);
    const page = await weaver.launch();
    await page.getByRole('alert').waitFor();
    expect(await page.getByRole('alert').textContent()).toContain(
      'Everything Fellmark had saved on this device is gone: 1 warp with 50 entries',
    );
    expect(await storedEvents(page)).toEqual([]);
  });

  it('costs nothing with a second copy, and nothing is asked', async (context) => {
    const weaver = woven(context);
    tearDatabaseLog(weaver.profileDir);
    const more = await weaver.weaveOn(await weaver.launch(), 20);
    expect(more).toHaveLength(50);
    await weaver.weaveOn(await weaver.findsAll(more), 5);
    const again = await weaver.launch();
    await scene(again).waitFor();
    expect((await storedEvents(again)).slice(0, 50)).toEqual(more);
  });

  it('torn before every launch, five times, it still costs nothing', async (context) => {
    const weaver = woven(context);
    let all = events;
    for (let time = 0; time < 5; time += 1) {
      tearDatabaseLog(weaver.profileDir);
      all = await weaver.weaveOn(await weaver.findsAll(all), 10);
      expect(all).toHaveLength(40 + 10 * time);
    }
    await weaver.findsAll(all);
  });
});

describe.concurrent('a copy gone or damaged', () => {
  it('the database deleted: everything comes back from the journal', async (context) => {
    const weaver = woven(context);
    deleteDatabase(weaver.profileDir);
    await weaver.findsAll(events);
  });

  it('the journal deleted, and after the next launch the database', async (context) => {
    const weaver = woven(context);
    deletePrivateFiles(weaver.profileDir);
    await thenWithoutDatabase(weaver);
  });

  it.for<[string, (bytes: Buffer) => Uint8Array]>([
    ['cut in its last record', (bytes) => bytes.subarray(0, -40)],
    ['cut in its first record', (bytes) => bytes.subarray(0, 300)],
    ['changed in its last record', (bytes) => Uint8Array.from(bytes).with(bytes.length - 30, 7)],
    ['changed in its first line', (bytes) => Uint8Array.from(bytes).with(60, 7)],
    ['with a hole of zeros at its end', (bytes) => Buffer.from(bytes).fill(0, bytes.length - 700)],
    ['emptied', () => new Uint8Array()],
  ])(
    'the journal %s, and after the next launch the database deleted',
    async ([, damage], context) => {
      const weaver = woven(context);
      change(journalFile(weaver.profileDir), damage);
      await thenWithoutDatabase(weaver);
    },
  );

  it('the middle of the journal changed, which no launch reads: found a little later', async (context) => {
    const weaver = woven(context);
    const { profileDir } = weaver;
    const all = await weaver.weaveOn(await weaver.launch(), 420);
    change(journalFile(profileDir), (bytes) => Uint8Array.from(bytes).with(700, 7));
    const page = await weaver.findsAll(all);
    const before = readFileSync(journalFile(profileDir));
    const isMended = () => !readFileSync(journalFile(profileDir)).equals(before);
    expect(await waitUntil(isMended, 30_000)).toBe(true);
    await page.waitForTimeout(500);
    await weaver.close();
    deleteDatabase(profileDir);
    await weaver.findsAll(all);
  });

  it('the browser’s database damaged so that it will not open', async (context) => {
    const weaver = woven(context);
    change(databaseLog(weaver.profileDir), (bytes) => Buffer.from(bytes).fill(0xff, 40));
    await weaver.findsAll(events);
  });
});

describe('both copies gone', () => {
  it('is said in red, with what there was and what to do, and goes on being said', async (context) => {
    const weaver = woven(context);
    deleteDatabase(weaver.profileDir);
    deletePrivateFiles(weaver.profileDir);
    for (let launches = 0; launches < 2; launches += 1) {
      const page = await weaver.launch();
      await page.getByRole('alert').waitFor();
      const words = await page.getByRole('alert').textContent();
      expect(words).toContain('1 warp with 30 entries');
      expect(words).toContain('backup');
      await weaver.close();
    }
    const page = await weaver.launch();
    await button(page, 'Start anew').click();
    await expect.poll(() => page.getByRole('alert').count()).toBe(0);
    await weaveDemo(page, 'ink-oat-ochre');
    await saved(page);
    await page.reload();
    await scene(page).waitFor();
    expect(await page.getByRole('alert').count()).toBe(0);
  });

  it('a first visit says nothing of the kind', async ({ onTestFinished }) => {
    const browser = await openChromium({ args: LEAN });
    onTestFinished(browser.close);
    await firstVisit(browser.page, server.url);
    expect(await browser.page.getByRole('alert').count()).toBe(0);
  });
});

/** The next launch mends the journal, so that the one after it can do without the database. */
async function thenWithoutDatabase(weaver: Weaver): Promise<void> {
  const page = await weaver.findsAll(events);
  await twoCopies(page, events);
  await weaver.close();
  deleteDatabase(weaver.profileDir);
  await weaver.findsAll(events);
}

/** Waits until the journal has everything too. */
async function twoCopies(page: Page, events: readonly LogEvent[]): Promise<void> {
  const last = events.at(-1)?.id ?? 'an event';
  await waitUntil(async () => (await journalText(page)).includes(last), 20_000);
  expect(await journalText(page)).toContain(last);
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
