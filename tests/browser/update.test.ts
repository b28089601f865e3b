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
import {
  type ChromiumHandle,
  distDir,
  makeTempDir,
  openChromium,
  removeDir,
  serveDist,
} from './harness.ts';

const folder = makeTempDir('builds');
let server: Awaited<ReturnType<typeof serveDist>>;
let browser: ChromiumHandle;

beforeAll(async () => {
  cpSync(distDir, folder, { recursive: true });
  server = await serveDist({ dir: folder });
  browser = await openChromium();
  await firstVisit(browser.page, server.url);
});

afterAll(async () => {
  await browser.close();
  await server.stop();
  removeDir(folder);
});

/** Puts a second build on the server: another page, and a worker that knows it by its revision. */
function publishSecondBuild(): void {
  const change = (file: string, from: RegExp, to: string) => {
    const path = join(folder, file);
    const text = readFileSync(path, 'utf8');
    if (!from.test(text)) throw new Error(`got no ${from} in ${file}`);
    writeFileSync(path, text.replace(from, to));
  };
  change('index.html', /<title>/, '<meta name="build" content="second"><title>');
  change(
    'sw.js',
    /url:\s*"index\.html",\s*revision:\s*"[^"]+"|revision:\s*"[^"]+",\s*url:\s*"index\.html"/,
    'url:"index.html",revision:"second"',
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

it('a second build, found and installed while weaving, does not touch the page in 60 picks', async () => {
  const { page } = browser;
  await weaveDemo(page, 'moss-and-chalk');
  await setBounce(page, 'at once');
  await page.evaluate('window.stillHere = true');
  publishSecondBuild();
  await throwPicks(page, 10);
  // What the app listens to: the tablet is in reach of the network again.
  await page.evaluate(() => dispatchEvent(new Event('online')));
  await expect.poll(isWaiting).toBe(true);
  await throwPicks(page, 60);
  await expect.poll(async () => (await readCall(page)).spoken).toContain('pick 17 of 24');
  expect(await page.evaluate('window.stillHere')).toBe(true);
  expect(await build()).toBe('first');
  expect(await page.locator('.offer').count()).toBe(0);
});

it('a reload at the bench is still the first build, at the same pick', async () => {
  const { page } = browser;
  await saved(page);
  const before = await readCall(page);
  await page.reload();
  await scene(page).waitFor();
  expect(await build()).toBe('first');
  expect(await readCall(page)).toEqual(before);
  expect(await isWaiting()).toBe(true);
});

it('the Warps screen offers it, and one tap brings it, with the warp as it was', async () => {
  const { page } = browser;
  const before = await readCall(page);
  await toWarps(page);
  await page.locator('.offer', { hasText: 'A new version of Fellmark is ready' }).waitFor();
  await button(page, 'Update now').click();
  await expect.poll(build).toBe('second');
  await page.getByRole('heading', { name: 'Fellmark' }).waitFor();
  await button(page, 'Go on').click();
  await scene(page).waitFor();
  expect(await readCall(page)).toEqual(before);
  await toWarps(page);
  expect(await page.locator('.offer').count()).toBe(0);
});

it('a third build waits for the next cold start by itself', async () => {
  const { page, context } = browser;
  writeFileSync(join(folder, 'sw.js'), `${readFileSync(join(folder, 'sw.js'), 'utf8')}\n// third`);
  await page.evaluate(() => dispatchEvent(new Event('online')));
  await expect.poll(isWaiting).toBe(true);
  const fresh = await context.newPage();
  await page.close();
  await fresh.goto(server.url);
  await fresh.getByRole('heading', { name: 'Fellmark' }).waitFor();
  const waiting = () =>
    fresh.evaluate(async () => {
      const registration = await navigator.serviceWorker.getRegistration();
      return (registration?.waiting ?? null) !== null;
    });
  await expect.poll(waiting).toBe(false);
});
