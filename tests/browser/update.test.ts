import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import {
  button,
  firstVisit,
  readCall,
  saved,
  scene,
  setBounce,
  throwPicks,
  toWarps,
  weaveDemo,
} from './bench.ts';
import { courseOf, demoPlan, expectedCall } from './expected.ts';
import {
  type ChromiumHandle,
  distDir,
  makeTempDir,
  openChromium,
  removeDir,
  serveDist,
} from './harness.ts';

const folder = makeTempDir('builds');
const profileDir = makeTempDir('update');
let server: Awaited<ReturnType<typeof serveDist>>;
let browser: ChromiumHandle;

beforeAll(async () => {
  cpSync(distDir, folder, { recursive: true });
  server = await serveDist({ dir: folder });
  browser = await openChromium({ profileDir });
  await firstVisit(browser.page, server.url);
});

afterAll(async () => {
  await browser.close();
  await server.stop();
  removeDir(folder);
  removeDir(profileDir);
});

/** Puts another build on the server: another page, and a worker that knows it by its revision. */
function publish(name: string): void {
  const change = (file: string, from: RegExp, to: string) => {
    const path = join(folder, file);
    const text = readFileSync(path, 'utf8');
    if (!from.test(text)) throw new Error(`got no ${from} in ${file}`);
    writeFileSync(path, text.replace(from, to));
  };
  change(
    'index.html',
    /(<meta name="build"[^>]*>)?<title>/,
    `<meta name="build" content="${name}"><title>`,
  );
  change(
    'sw.js',
    /url:\s*"index\.html",\s*revision:\s*"[^"]+"/,
    `url:"index.html",revision:"${name}"`,
  );
}

const build = () =>
  browser.page.evaluate(
    () => document.querySelector('meta[name="build"]')?.getAttribute('content') ?? 'first',
  );

const isWaiting = () =>
  browser.page.evaluate(async () => {
    const registration = await navigator.serviceWorker.getRegistration();
    return (registration?.waiting ?? null) !== null;
  });

it('a second build, found and installed while weaving, does not touch the page in 500 picks', async () => {
  const { page } = browser;
  await weaveDemo(page, 'ink-oat-ochre');
  await setBounce(page, 'at once');
  await page.evaluate('window.stillHere = true');
  publish('second');
  await throwPicks(page, 10);
  // What the app listens to: the tablet is in reach of the network again.
  await page.evaluate(() => dispatchEvent(new Event('online')));
  await expect.poll(isWaiting, { timeout: 90_000 }).toBe(true);
  await throwPicks(page, 500);
  const { spoken: _, ...shown } = await readCall(page);
  expect(shown).toEqual(expectedCall(courseOf(demoPlan('ink-oat-ochre')), 510));
  expect(await page.evaluate('window.stillHere')).toBe(true);
  expect(await build()).toBe('first');
  expect(await page.locator('.offer').count()).toBe(0);
});

it('a reload at the bench is still the first build, at the same pick', async () => {
  const { page } = browser;
  await saved(page);
  const { spoken: _, ...before } = await readCall(page);
  await page.reload();
  await scene(page).waitFor();
  expect(await build()).toBe('first');
  expect(await readCall(page)).toMatchObject(before);
  expect(await isWaiting()).toBe(true);
});

it('the Warps screen offers it, and one tap brings it, with the warp as it was', async () => {
  const { page } = browser;
  const { spoken: _, ...before } = await readCall(page);
  await toWarps(page);
  await page.locator('.offer', { hasText: 'A new version of Fellmark is ready' }).waitFor();
  await button(page, 'Update now').click();
  await expect.poll(build, { timeout: 90_000 }).toBe('second');
  await page.getByRole('heading', { name: 'Fellmark' }).waitFor();
  await button(page, 'Go on').click();
  await scene(page).waitFor();
  await expect.poll(() => readCall(page)).toMatchObject(before);
  await toWarps(page);
  expect(await page.locator('.offer').count()).toBe(0);
});

it('a third build waits for the next cold start, and is there without being asked for', async () => {
  publish('third');
  await browser.page.evaluate(() => dispatchEvent(new Event('online')));
  await expect.poll(isWaiting, { timeout: 90_000 }).toBe(true);
  expect(await build()).toBe('second');
  await browser.close();
  browser = await openChromium({ profileDir });
  await browser.page.goto(server.url);
  await browser.page.getByRole('heading', { name: 'Fellmark' }).waitFor();
  expect(await build()).toBe('third');
  expect(await isWaiting()).toBe(false);
});

it('a version that takes over by itself, and a page that lets it, are caught by the same look', async () => {
  const { page } = browser;
  await button(page, 'Go on').click();
  await scene(page).waitFor();
  // Both protections taken out: the worker does not wait, and the page reloads without being asked.
  await page.evaluate(`navigator.serviceWorker.addEventListener('controllerchange', () => location.reload());
    window.stillHere = true`);
  publish('hasty');
  const worker = join(folder, 'sw.js');
  writeFileSync(worker, `self.skipWaiting();${readFileSync(worker, 'utf8')}`);
  await throwPicks(page, 10);
  await page.evaluate(() => dispatchEvent(new Event('online')));
  await expect.poll(build, { timeout: 90_000 }).toBe('hasty');
  expect(await page.evaluate('window.stillHere')).toBeUndefined();
});
