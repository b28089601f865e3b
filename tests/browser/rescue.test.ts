// The rescue page over data damaged in many ways, in a real browser: what is whole is in the file, always.
import { cpSync, readdirSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readRescue } from '../../src/core/backup/file/readRescue.ts';
import { DATABASE_NAME } from '../../src/store/schema.ts';
import { visit } from './app.ts';
import {
  button,
  chooseFile,
  firstVisit,
  saved,
  setBounce,
  storedEvents,
  throwPicks,
  toWarps,
  weaveDemo,
} from './bench.ts';
import { copied, LEAN, makeProfileDir } from './durable/profile.ts';
import {
  type ChromiumHandle,
  distDir,
  makeTempDir,
  openChromium,
  openVisitor,
  removeDir,
  serveDist,
} from './harness.ts';
import { fromKeep, savedBy } from './keep/keeping.ts';

const PICKS = 12;
const folder = makeTempDir('rescue');
let server: Awaited<ReturnType<typeof serveDist>>;
/** A profile with a woven warp and a snapshot in it, to be copied and damaged. */
const sound = makeProfileDir('sound');
let shared: ChromiumHandle;
/** What stands in the database of that profile. */
let stored: StoredRooms;

beforeAll(async () => {
  cpSync(distDir, folder, { recursive: true });
  server = await serveDist({ dir: folder });
  const browser = await openChromium({ profileDir: sound, args: LEAN });
  await firstVisit(browser.page, server.url);
  await weaveDemo(browser.page, 'moss-and-chalk');
  await setBounce(browser.page, 'at once');
  await throwPicks(browser.page, PICKS);
  await saved(browser.page);
  await toWarps(browser.page);
  await browser.close();
  shared = await openChromium({ profileDir: copied(sound), args: LEAN });
  await shared.page.goto(`${server.url}robots.txt`);
  stored = await shared.page.evaluate(takeRooms, DATABASE_NAME);
  expect(stored.rooms.find(({ name }) => name === 'events')?.records).toHaveLength(PICKS);
});

afterAll(async () => {
  await shared.close();
  await server.stop();
  for (const dir of [folder, sound, shared.profileDir]) removeDir(dir);
});

interface StoredRooms {
  readonly version: number;
  readonly rooms: readonly {
    readonly name: string;
    readonly keyPath: string | string[];
    readonly indexes: readonly {
      readonly name: string;
      readonly keyPath: string | string[];
      readonly unique: boolean;
    }[];
    readonly records: readonly unknown[];
  }[];
}

/** In the page: the whole database. */
async function takeRooms(name: string): Promise<StoredRooms> {
  const database = await new Promise<IDBDatabase>((resolve, reject) => {
    const opening = indexedDB.open(name);
    opening.onsuccess = () => resolve(opening.result);
    opening.onerror = () => reject(opening.error);
  });
  const rooms = [...database.objectStoreNames].map(async (of) => {
    const room = database.transaction(of).objectStore(of);
    const records = await new Promise<unknown[]>((resolve, reject) => {
      const asking = room.getAll();
      asking.onsuccess = () => resolve(asking.result);
      asking.onerror = () => reject(asking.error);
    });
    const indexes = [...room.indexNames].map((it) => {
      const { keyPath, unique } = room.index(it);
      return { name: it, keyPath, unique };
    });
    return { name: of, keyPath: room.keyPath as string | string[], indexes, records };
  });
  const all = { version: database.version, rooms: await Promise.all(rooms) };
  database.close();
  return all;
}

/** In the page: the database as it was, whatever has become of it. */
function putRooms([name, { version, rooms }]: readonly [string, StoredRooms]): Promise<void> {
  return new Promise((resolve, reject) => {
    indexedDB.deleteDatabase(name);
    const opening = indexedDB.open(name, version);
    opening.onerror = () => reject(opening.error);
    opening.onsuccess = () => {
      opening.result.close();
      resolve();
    };
    opening.onupgradeneeded = () => {
      for (const { name: of, keyPath, indexes, records } of rooms) {
        const room = opening.result.createObjectStore(of, { keyPath });
        for (const { name: it, ...index } of indexes) room.createIndex(it, index.keyPath, index);
        for (const record of records) room.put(record);
      }
    };
  });
}

/** Runs in a page of one browser for many tests, the database sound again. */
async function inSharedBrowser<T>(work: (page: Page) => Promise<T>): Promise<T> {
  const page = await shared.context.newPage();
  try {
    await page.goto(`${server.url}robots.txt`);
    await page.evaluate(putRooms, [DATABASE_NAME, stored] as const);
    return await work(page);
  } finally {
    await page.close();
  }
}

/** Runs with a copy of the sound profile, whose files were changed before the browser starts. */
async function withCopy<T>(
  work: (page: Page) => Promise<T>,
  onDisk: (dir: string) => void = () => undefined,
): Promise<T> {
  const profileDir = copied(sound);
  onDisk(profileDir);
  let browser: ChromiumHandle | undefined;
  try {
    browser = await openChromium({ profileDir, args: LEAN });
    return await work(browser.page);
  } finally {
    await browser?.close();
    removeDir(profileDir);
  }
}

interface RescueFile {
  readonly text: string;
  readonly databases: readonly {
    readonly name: string;
    readonly rooms?: readonly {
      readonly name: string;
      readonly records: readonly { value: unknown }[];
    }[];
  }[];
  readonly files: readonly { readonly path: string }[];
  readonly troubles: readonly string[];
}

/** Opens the page and takes what it saves. */
async function rescuedFrom(page: Page): Promise<RescueFile> {
  await page.goto(`${server.url}rescue.html`);
  await page.locator('#save:enabled').waitFor({ timeout: 60_000 });
  const { name, text } = await savedBy(page, () => page.locator('#save').click());
  expect(name).toMatch(/^fellmark-rescue-[\d-]+\.json$/);
  return { text, ...(JSON.parse(text) as Omit<RescueFile, 'text'>) };
}

function roomOf(file: RescueFile, room: string): readonly unknown[] {
  const database = file.databases.find(({ name }) => name === DATABASE_NAME);
  return (
    database?.rooms?.find(({ name }) => name === room)?.records.map(({ value }) => value) ?? []
  );
}

const thrownIn = (file: RescueFile) =>
  roomOf(file, 'events').filter((it) => (it as { kind?: unknown } | null)?.kind === 'thrown')
    .length;

/** Runs a script against the open database on a page that starts nothing of the app. */
async function inDatabase(page: Page, script: string): Promise<void> {
  await page.goto(`${server.url}robots.txt`);
  await page.evaluate(`new Promise((resolve, reject) => {
    const opening = indexedDB.open('${DATABASE_NAME}');
    opening.onerror = () => reject(opening.error);
    opening.onsuccess = async () => {
      const db = opening.result;
      const tx = (rooms, work) => new Promise((done, fail) => {
        const it = db.transaction(rooms, 'readwrite');
        work(...[rooms].flat().map((room) => it.objectStore(room)));
        it.oncomplete = done;
        it.onabort = () => fail(it.error);
      });
      try { ${script}; db.close(); resolve(); } catch (error) { reject(error); }
    };
  })`);
}

/** What is put into the stored data, and that all twelve picks still come out. */
const INSIDE: readonly (readonly [string, string])[] = [
  ['nothing at all', ''],
  [
    'a warp that is a number',
    `await tx('warps', (it) => it.put({ id: 'x', name: 7, demo: 'no' }))`,
  ],
  [
    'a plan that is rubbish',
    `await tx('revisions', (it) => it.put({ warp: 'x', revision: 0, plan: 'rubbish' }))`,
  ],
  ['no plan of any warp', `await tx('revisions', (it) => it.clear())`],
  ['no warp at all', `await tx('warps', (it) => it.clear())`],
  [
    'events of no known kind',
    `await tx('events', (it) => it.put({ warp: 'x', seq: 0, id: 'x', kind: 'flown' }))`,
  ],
  [
    'a setting with itself in it',
    `const s = { name: 'loop' }; s.value = s; await tx('settings', (it) => it.put(s))`,
  ],
  [
    'dates, maps, sets, expressions and errors',
    `await tx('settings', (it) => it.put({ name: 'odd', value: [new Date(0), new Map([[1, 2]]), new Set([3]), /a/, new Error('x'), NaN, -0, 2n, undefined] }))`,
  ],
  [
    'bytes and a blob',
    `await tx('records', (it) => it.put({ kind: 'photo', id: 'x', body: [new Uint8Array(1000), new Blob(['weft'])] }))`,
  ],
  [
    'keys of every object’s prototype',
    `await tx('settings', (it) => it.put({ name: 'proto', value: JSON.parse('{"__proto__": {"x": 1}, "constructor": 2}') }))`,
  ],
  [
    'half letters and zeros in text',
    `await tx('settings', (it) => it.put({ name: 'text', value: String.fromCharCode(0xd800, 0, 0xffff) }))`,
  ],
  [
    'a record five hundred levels deep',
    `let deep = 1; for (let n = 0; n < 500; n++) deep = [deep]; await tx('settings', (it) => it.put({ name: 'deep', value: deep }))`,
  ],
  [
    'a text of five megabytes',
    `await tx('settings', (it) => it.put({ name: 'long', value: 'x'.repeat(5e6) }))`,
  ],
  [
    'twenty thousand more events',
    `await tx('events', (it) => { for (let n = 0; n < 20000; n++) it.put({ warp: 'x', seq: n, id: 'n' + n, kind: 'other' }) })`,
  ],
];

describe('the rescue page gives all twelve picks out of data with', () => {
  it.each(INSIDE)('%s', async (_what, script) => {
    await inSharedBrowser(async (page) => {
      await inDatabase(page, script);
      const file = await rescuedFrom(page);
      expect(thrownIn(file)).toBe(PICKS);
      expect(readRescue(file.text).ok).toBe(true);
    });
  });
});

describe('the rescue page gives all twelve picks', () => {
  it('out of a database of a newer version, which the app does not open', async () => {
    await inSharedBrowser(async (page) => {
      await page.goto(`${server.url}robots.txt`);
      await page.evaluate(`new Promise((resolve, reject) => {
        const it = indexedDB.open('${DATABASE_NAME}', 99);
        it.onsuccess = () => { it.result.close(); resolve(); };
        it.onerror = () => reject(it.error);
      })`);
      expect(thrownIn(await rescuedFrom(page))).toBe(PICKS);
    });
  });

  it('with a database beside it that never answers', async () => {
    await inSharedBrowser(async (page) => {
      await page.addInitScript(() => {
        const { open } = IDBFactory.prototype;
        IDBFactory.prototype.open = function (name, version) {
          return name === 'fellmark-snapshots'
            ? ({} as IDBOpenDBRequest)
            : open.call(this, name, version);
        };
      });
      const file = await rescuedFrom(page);
      expect(thrownIn(file)).toBe(PICKS);
      expect(file.troubles.join()).toMatch('fellmark-snapshots gave no answer');
    });
  });

  it('where reading many records at once fails, one by one, and tells of the one that cannot be read', async () => {
    await inSharedBrowser(async (page) => {
      await page.addInitScript(() => {
        const { get } = IDBObjectStore.prototype;
        IDBObjectStore.prototype.getAll = () => {
          throw new DOMException('a record is damaged', 'DataError');
        };
        IDBObjectStore.prototype.get = function (key) {
          if (this.name === 'settings' && key === 'settings')
            throw new DOMException('damaged', 'DataError');
          return get.call(this, key);
        };
      });
      const file = await rescuedFrom(page);
      expect(thrownIn(file)).toBe(PICKS);
      expect(file.troubles.join()).toMatch('"settings": DataError: damaged');
    });
  });

  it('in a browser that can list neither databases nor files nor small values', async () => {
    await inSharedBrowser(async (page) => {
      await page.addInitScript(() => {
        IDBFactory.prototype.databases = () => Promise.reject(new Error('no list'));
        navigator.storage.getDirectory = () =>
          Promise.reject(new DOMException('no', 'SecurityError'));
        Object.defineProperty(globalThis, 'localStorage', {
          get: () => {
            throw new DOMException('no', 'SecurityError');
          },
        });
      });
      const file = await rescuedFrom(page);
      expect(thrownIn(file)).toBe(PICKS);
      expect(file.troubles.join()).toMatch('localStorage: SecurityError');
    });
  });

  it('with files in folders, small values and databases of others beside them, all of them too', async () => {
    await inSharedBrowser(async (page) => {
      await page.goto(`${server.url}robots.txt`);
      await page.evaluate(async () => {
        localStorage.setItem('a"b', '\ud800');
        const folder = await (await navigator.storage.getDirectory()).getDirectoryHandle('deep', {
          create: true,
        });
        const stream = await (
          await folder.getFileHandle('torn.bin', { create: true })
        ).createWritable();
        await stream.write(new Uint8Array([0, 255, 10]));
        await stream.close();
        await new Promise((resolve) => {
          const it = indexedDB.open('other', 3);
          it.onupgradeneeded = () =>
            it.result.createObjectStore('room', { autoIncrement: true }).put('thing');
          it.onsuccess = () => resolve(it.result.close());
        });
      });
      const file = await rescuedFrom(page);
      await page.evaluate(async () => {
        await (await navigator.storage.getDirectory()).removeEntry('deep', { recursive: true });
        localStorage.removeItem('a"b');
        indexedDB.deleteDatabase('other');
      });
      expect(thrownIn(file)).toBe(PICKS);
      expect(file.files).toContainEqual({ path: 'deep/torn.bin', bytes: 3, base64: 'AP8K' });
      expect(file.text).toMatch('["a\\"b","\\ud800"]');
      expect(
        file.databases.find(({ name }) => name === 'other')?.rooms?.[0]?.records[0]?.value,
      ).toBe('thing');
    });
  });

  it('with every script of the app gone, and the server too', async () => {
    await withCopy(async (page) => {
      await page.goto(`${server.url}robots.txt`);
      const gone = await page.evaluate(async () => {
        let scripts = 0;
        for (const name of await caches.keys()) {
          const cache = await caches.open(name);
          for (const request of await cache.keys()) {
            const isOfTheApp = /assets\/(?!rescue-).*\.js/.test(request.url);
            if (isOfTheApp && (await cache.delete(request))) scripts += 1;
          }
        }
        return scripts;
      });
      expect(gone).toBeGreaterThan(20);
      await server.stop();
      try {
        expect(thrownIn(await rescuedFrom(page))).toBe(PICKS);
      } finally {
        await server.start();
      }
    });
  });
});

/** The folders in which this browser keeps its databases. */
const databaseFolders = (profile: string) =>
  readdirSync(profile, { recursive: true, encoding: 'utf8' })
    .filter((it) => /\.indexeddb\.leveldb$/.test(it))
    .map((it) => join(profile, it));

describe('the rescue page works, with what the browser itself still gives,', () => {
  it.each([
    ['when the folder of the databases is gone', (dir: string) => rmSync(dir, { recursive: true })],
    [
      'when its logs are cut in half',
      (dir: string) => eachLog(dir, (path, size) => truncateSync(path, size >> 1)),
    ],
    [
      'when its logs are full of rubbish',
      (dir: string) => eachLog(dir, (path, size) => writeFileSync(path, Buffer.alloc(size, 0xa5))),
    ],
  ])('%s', async (_what, damage) => {
    await withCopy(
      async (page) => {
        const file = await rescuedFrom(page);
        expect(file.text).toMatch('"format":"fellmark-rescue"');
        expect(thrownIn(file)).toBeLessThanOrEqual(PICKS);
      },
      (profile) => {
        const folders = databaseFolders(profile);
        expect(folders.length).toBeGreaterThan(0);
        for (const dir of folders) damage(dir);
      },
    );
  });
});

function eachLog(dir: string, change: (path: string, size: number) => void): void {
  for (const name of readdirSync(dir).filter((it) => it.endsWith('.log'))) {
    const path = join(dir, name);
    change(path, readFileSync(path).length);
  }
}

/** Takes the app out of the browser and leaves what it has stored. */
async function forgetTheApp(page: Page): Promise<void> {
  await page.goto(`${server.url}robots.txt`);
  await page.evaluate(async () => {
    for (const it of await navigator.serviceWorker.getRegistrations()) await it.unregister();
    for (const name of await caches.keys()) await caches.delete(name);
  });
}

/** In the page: the database as it would be without the rooms of these names. */
async function losingRooms(page: Page, gone: readonly string[]): Promise<void> {
  const rooms = stored.rooms.filter(({ name }) => !gone.includes(name));
  await page.goto(`${server.url}robots.txt`);
  await page.evaluate(putRooms, [DATABASE_NAME, { ...stored, rooms }] as const);
}

describe('a database without some of its rooms', () => {
  it('is made anew from the journal: everything is there, and nothing is asked', async () => {
    await withCopy(async (page) => {
      await losingRooms(page, ['warps', 'events']);
      await page.goto(server.url);
      await page.locator('.warp-tile', { hasText: `pick ${PICKS + 1}` }).waitFor();
      expect(await page.locator('dialog, [role="alert"]').allTextContents()).toEqual([]);
      expect(await storedEvents(page)).toHaveLength(PICKS);
    });
  });

  it('where there is no journal is left alone: one tap leads to the rescue page, which has the rest', async () => {
    await withCopy(async (page) => {
      await page.addInitScript('delete StorageManager.prototype.getDirectory;');
      await losingRooms(page, ['warps']);
      await page.goto(server.url);
      await page.getByRole('alert').getByRole('link', { name: 'Take the data out' }).click();
      await page.getByRole('heading', { name: 'Rescue page' }).waitFor();
      expect(thrownIn(await rescuedFrom(page))).toBe(PICKS);
    });
  });
});

describe('when the app does not start', () => {
  it('for want of a screen, it says so, and where the data can be taken out', async () => {
    await inSharedBrowser(async (page) => {
      await forgetTheApp(page);
      await page.route('**/assets/warps-*.js', (route) => route.abort());
      await page.goto(server.url);
      await page
        .getByRole('heading', { name: 'Fellmark has not started' })
        .waitFor({ timeout: 30_000 });
      await page.getByRole('link', { name: 'Take the data out' }).click();
      await page.getByRole('heading', { name: 'Rescue page' }).waitFor();
    });
  });

  it('for want of its own script, the page itself says so after a while', async () => {
    await inSharedBrowser(async (page) => {
      await forgetTheApp(page);
      await page.route('**/assets/bench-*.js', (route) => route.abort());
      await page.goto(server.url);
      const words = page.getByRole('heading', { name: 'Fellmark has not started' });
      expect(await words.isVisible()).toBe(false);
      await words.waitFor({ timeout: 20_000 });
    });
  });

  it('and when it does, nobody sees those words', async () => {
    await inSharedBrowser(async (page) => {
      await page.goto(server.url);
      await page.getByRole('heading', { name: 'Fellmark', exact: true }).waitFor();
      expect(await page.locator('#not-started').isVisible()).toBe(false);
    });
  });
});

it.each([
  ['with the database whole', (file: object) => file],
  ['with the journal alone', (file: object) => ({ ...file, databases: [] })],
])('what the rescue page saved comes back in under Keep safe, %s', async (_what, change) => {
  const { text } = await inSharedBrowser(rescuedFrom);
  const browser = await openVisitor({ serviceWorkers: 'block' });
  try {
    const { page } = browser;
    await visit(page, server.url);
    await chooseFile(page, 'rescue.json', JSON.stringify(change(JSON.parse(text))));
    await button(page, 'Bring it in').click();
    await page.getByText('is here now').waitFor();
    await fromKeep(page);
    await page.locator('.warp-tile', { hasText: `pick ${PICKS + 1}` }).waitFor();
  } finally {
    await browser.close();
  }
});
