import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  type ChromiumHandle,
  distDir,
  makeTempDir,
  openChromium,
  openFirefox,
  openWebKit,
  removeDir,
  serveDist,
} from './harness.ts';

type Server = Awaited<ReturnType<typeof serveDist>>;

// As strings, because WebDriver takes scripts as text and every engine shall run the same.
const whenInstalled = 'navigator.serviceWorker.ready.then((found) => found.active !== null)';
const shownText = "document.querySelector('#app').textContent";

/** The part of a WebDriver script that hands a promise's value back. */
const handedBack = (promise: string) =>
  `const done = arguments[arguments.length - 1]; ${promise}.then(done, (error) => done(String(error)));`;

/** The worker and its library are kept by the browser with the registration, not in the cache. */
const isWorkerScript = (path: string) => path === 'sw.js' || /^workbox-[^/]+\.js$/.test(path);

/** Shown by the browser itself, when it offers to install the app: then there is a network. */
const isInstallPicture = (path: string) => path.startsWith('screens/');

function filesInDist(): readonly string[] {
  const entries = readdirSync(distDir, { recursive: true, withFileTypes: true });
  const files = entries.filter((entry) => entry.isFile());
  return files.map((file) =>
    relative(distDir, `${file.parentPath}${sep}${file.name}`).split(sep).join('/'),
  );
}

describe('in Chromium', () => {
  let server: Server;
  let browser: ChromiumHandle;
  const requested: string[] = [];

  beforeAll(async () => {
    server = await serveDist();
    browser = await openChromium();
    browser.context.on('request', (request) => requested.push(request.url()));
    await browser.page.goto(server.url);
    await browser.page.evaluate(whenInstalled);
  });

  afterAll(async () => {
    await browser.close();
    await server.stop();
  });

  it('the page shows something', async () => {
    expect(await browser.page.evaluate(shownText)).not.toBe('');
  });

  it('every file of the built app is in the cache', async () => {
    const cached = await browser.page.evaluate(async () => {
      const names = await caches.keys();
      const lists = await Promise.all(names.map(async (name) => (await caches.open(name)).keys()));
      return lists.flat().map((request) => new URL(request.url).pathname.slice(1));
    });
    const wanted = filesInDist().filter((path) => !isWorkerScript(path) && !isInstallPicture(path));
    expect(wanted).toContain('index.html');
    expect([...cached].sort()).toEqual([...wanted].sort());
  });

  it('with the server stopped, a reload shows the page', async () => {
    const before = await browser.page.evaluate(shownText);
    await server.stop();
    await expect(fetch(server.url)).rejects.toThrow();
    await browser.page.reload();
    await expect.poll(() => browser.page.evaluate(shownText)).toBe(before);
    await server.start();
  });

  it('neither page nor worker asked any other host for anything', () => {
    // The worker alone asks for the robots file: seeing it proves that its requests are seen.
    expect(requested.map((url) => new URL(url).pathname)).toContain('/robots.txt');
    const hosts = requested.filter((url) => url.startsWith('http')).map((url) => new URL(url).host);
    expect([...new Set(hosts)]).toEqual([new URL(server.url).host]);
  });

  it('the page is refused any address but its own', async () => {
    expect(await refusedOn(browser.page)).toBe('http://elsewhere.invalid/');
  });

  it('a page without its policy is not, which the same look sees', async () => {
    const dir = makeTempDir('bare');
    const text = readFileSync(join(distDir, 'index.html'), 'utf8');
    const bare = text.replace(/<meta http-equiv="Content-Security-Policy"[^>]*>/, '');
    writeFileSync(join(dir, 'index.html'), bare);
    const other = await serveDist({ dir });
    const page = await browser.context.newPage();
    await page.goto(other.url);
    expect(bare.length).toBeLessThan(text.length);
    expect(await refusedOn(page)).toBe('nothing');
    await page.close();
    await other.stop();
    removeDir(dir);
  });

  /** The address the browser refused this page, by its policy. */
  function refusedOn(page: Page): Promise<string> {
    return page.evaluate(async () => {
      const violation = new Promise<string>((resolve) => {
        document.addEventListener('securitypolicyviolation', (event) => resolve(event.blockedURI));
      });
      const asked = fetch('http://elsewhere.invalid/').catch(() => undefined);
      // A refusal is told before the request fails.
      const otherwise = asked.then(() => new Promise((done) => setTimeout(done, 500)));
      return Promise.race([violation, otherwise.then(() => 'nothing')]);
    });
  }
});

describe('in Firefox', () => {
  it('with the server stopped, a reload shows the page', async () => {
    const server = await serveDist();
    const { page, close } = await openFirefox();
    try {
      await page.goto(server.url);
      await page.evaluate(whenInstalled);
      const before = await page.evaluate(shownText);
      await server.stop();
      await page.reload();
      await page.waitForFunction(`${shownText} !== ''`);
      expect(await page.evaluate(shownText)).toBe(before);
    } finally {
      await close();
      await server.stop();
    }
  });
});

describe('in WebKit', () => {
  it('with the server stopped, a reload shows the page', async () => {
    const server = await serveDist();
    const { driver, close } = await openWebKit();
    try {
      await driver.get(server.url);
      expect(await driver.executeAsyncScript(handedBack(whenInstalled))).toBe(true);
      const before = await driver.executeScript(`return ${shownText}`);
      await server.stop();
      await driver.navigate().refresh();
      await driver.wait(() => driver.executeScript(`return ${shownText} !== ''`), 10_000);
      expect(await driver.executeScript(`return ${shownText}`)).toBe(before);
    } finally {
      await close();
      await server.stop();
    }
  });
});
