import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Plan } from '../../../src/core/plan/plan.ts';
import { QR_LIMIT } from '../../../src/core/travel/link.ts';
import { visit } from '../app.ts';
import { button, closed, openMore, storedRecords, toWarps, weavePlan } from '../bench.ts';
import { demoPlan } from '../expected.ts';
import {
  type ChromiumHandle,
  type ChromiumOptions,
  makeTempDir,
  openChromium,
  removeDir,
  serveDist,
} from '../harness.ts';
import { filmOf } from './film.ts';
import { linkOf, withLinkOf } from './noted.ts';

let server: Awaited<ReturnType<typeof serveDist>>;
const folder = makeTempDir('film');
const plan = demoPlan('moss-and-chalk');

beforeAll(async () => {
  server = await serveDist();
});

afterAll(async () => {
  await server.stop();
  removeDir(folder);
});

async function withBrowser(
  options: ChromiumOptions,
  act: (browser: ChromiumHandle) => Promise<void>,
) {
  const browser = await openChromium({ serviceWorkers: 'block', ...options });
  try {
    await visit(browser.page, server.url);
    await act(browser);
  } finally {
    await browser.close();
  }
}

/** A browser whose camera shows a film of a code. */
const withFilm = (name: string, permission: 'granted' | 'ask' = 'granted'): ChromiumOptions => ({
  args: [
    ...(permission === 'granted' ? ['--use-fake-ui-for-media-stream'] : []),
    '--use-fake-device-for-media-stream',
    `--use-file-for-fake-video-capture=${join(folder, name)}`,
  ],
});

/** Keeps every camera stream the page is given, so that a test can see that it was ended. */
async function watchCameras(page: Page): Promise<() => Promise<readonly string[]>> {
  await page.evaluate(() => {
    const devices = navigator.mediaDevices;
    const ask = devices.getUserMedia.bind(devices);
    const streams: MediaStream[] = [];
    Object.assign(window, { streams });
    devices.getUserMedia = async (wanted) => {
      const stream = await ask(wanted);
      streams.push(stream);
      return stream;
    };
  });
  return () =>
    page.evaluate(() =>
      (window as unknown as { streams: MediaStream[] }).streams.flatMap((it) =>
        it.getTracks().map((track) => track.readyState),
      ),
    );
}

const sheet = (page: Page) => page.locator('dialog[open]');

describe('the camera', () => {
  it('reads the densest code there may be, shows the plan, and is off then', async () => {
    const dense = await withLinkOf(QR_LIMIT, plan, server.url);
    const link = await linkOf(dense, server.url);
    expect(link.length).toBeLessThanOrEqual(QR_LIMIT);
    filmOf(link, join(folder, 'towels.y4m'));
    await withBrowser(withFilm('towels.y4m'), async ({ page, context }) => {
      const asked: string[] = [];
      context.on('request', (it) => it.serviceWorker() === null && asked.push(it.url()));
      const readers = () => asked.filter((url) => url.includes('codeReader'));
      const cameras = await watchCameras(page);
      await page.waitForTimeout(2500);
      expect(readers()).toEqual([]);
      await button(page, 'Scan a plan').click();
      await sheet(page).getByText('A plan has come').waitFor({ timeout: 60_000 });
      expect(await sheet(page).innerText()).toContain(plan.name);
      // The code that reads is fetched only when it is wanted.
      expect(readers()).toHaveLength(1);
      expect(await storedRecords(page, 'warps')).toEqual([]);
      expect(await cameras()).toEqual(['ended']);
      expect(await page.locator('video').count()).toBe(0);
      await button(page, 'Keep it').click();
      await page.locator('.warp-tile', { hasText: plan.name }).waitFor();
      const revisions = (await storedRecords(page, 'revisions')) as readonly { plan: Plan }[];
      expect(revisions.map((it) => it.plan)).toEqual([dense]);
    });
  });

  it('refused, says how to allow it; allowed, passes over a code that is none of ours; stops when told', async () => {
    filmOf('https://example.org/menu', join(folder, 'menu.y4m'));
    await withBrowser(withFilm('menu.y4m', 'ask'), async ({ page, context }) => {
      const session = await context.newCDPSession(page);
      const setCamera = (setting: 'denied' | 'granted') =>
        session.send('Browser.setPermission', { permission: { name: 'camera' }, setting });
      const cameras = await watchCameras(page);
      await setCamera('denied');
      await button(page, 'Scan a plan').click();
      await sheet(page).getByText('The camera was refused.').waitFor();
      expect(await button(page, 'Read from a photo').isEnabled()).toBe(true);
      await setCamera('granted');
      await button(page, 'Start the camera').click();
      await sheet(page).getByText('https://example.org/menu').waitFor({ timeout: 60_000 });
      expect(await cameras()).toEqual(['live']);
      await button(page, 'Stop the camera').click();
      await sheet(page).getByText('The camera is off.').waitFor();
      await expect.poll(cameras).toEqual(['ended']);
      await button(page, 'Start the camera').click();
      await sheet(page).getByText('Hold the code in the frame').waitFor();
      expect(await cameras()).toEqual(['ended', 'live']);
      await button(page, 'Close').click();
      await closed(page);
      await expect.poll(cameras).toEqual(['ended', 'ended']);
    });
  });
});

describe('without a camera', () => {
  const options: ChromiumOptions = {
    colorScheme: 'dark',
    args: ['--use-fake-ui-for-media-stream'],
  };

  it('a photo of the screen with the code on it is enough, and a pasted link too', async () => {
    await withBrowser(options, async ({ page }) => {
      const dense = await withLinkOf(QR_LIMIT, { ...plan, name: 'From a photo' }, server.url);
      await weavePlan(page, dense);
      await openMore(page, 'Share this plan');
      const link = await page.getByLabel('The link').inputValue();
      await button(page, 'Show the code').click();
      await page.locator('.qr').waitFor();
      // The whole screen, dark page and all: the code is only a part of what is seen.
      const photo = await page.screenshot({ type: 'jpeg', quality: 80 });
      await button(page, 'Close').click();
      await closed(page);
      await toWarps(page);
      const nothing = await page.screenshot({ type: 'png' });

      await button(page, 'Scan a plan').click();
      await sheet(page).getByText('There is no camera on this device.').waitFor();
      const input = page.getByLabel('Photo of the code');
      const choose = (name: string, buffer: Buffer) =>
        input.setInputFiles({ name, mimeType: '', buffer });
      await choose('menu.jpg', Buffer.from('no picture'));
      await sheet(page).getByText('cannot read that file as a picture').waitFor();
      await choose('cloth.png', nothing);
      await sheet(page).getByText('No code was found').waitFor({ timeout: 60_000 });
      await choose('IMG_1.jpg', photo);
      await sheet(page).getByText('A plan has come').waitFor({ timeout: 60_000 });
      expect(await sheet(page).innerText()).toContain('From a photo');
      await button(page, 'Not now').click();
      await closed(page);

      await button(page, 'Scan a plan').click();
      await page.getByLabel('Or paste the link').fill('https://example.org/');
      await button(page, 'Read the link').click();
      await sheet(page).getByText('there is no plan in it').waitFor();
      await page.getByLabel('Or paste the link').fill(`Our towels: ${link} have fun`);
      await button(page, 'Read the link').click();
      await sheet(page).getByText('A plan has come').waitFor();
      await button(page, 'Not now').click();
    });
  });
});
