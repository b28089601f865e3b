// The Keep safe screen and the rescue page at three sizes, in both themes: nothing cut off, nothing too small, axe content.
import type { Page } from 'playwright-core';
import { beforeAll, expect, it } from 'vitest';
import { type App, openApp } from '../app.ts';
import { button, SIZES, saved, scene, throwPicks, toWarps, weavePlan } from '../bench.ts';
import { findingsOn } from '../findings.ts';
import { planWeaving, solid } from '../plans.ts';
import { backupOf, fromKeep, look, toKeep } from './keeping.ts';

const PLAN = {
  ...planWeaving('A', [solid('A', 200)]),
  name: 'A scarf with rather a long name for its narrow warp',
};

let app: App;
let page: Page;
let text = '';

beforeAll(async () => {
  app = await openApp({ reducedMotion: 'reduce' });
  ({ page } = app);
  await weavePlan(page, PLAN);
  await throwPicks(page, 1);
  await saved(page);
  await toWarps(page);
  text = await backupOf(page);
  await button(page, 'Go on').click();
  await scene(page).waitFor();
  await page.waitForTimeout(300);
  await throwPicks(page, 1);
  await saved(page);
  await toWarps(page);
  return app.close;
});

/** What is cut off, or too small to hit though it is no button. */
function faultsHere(): readonly string[] {
  const { clientWidth } = document.documentElement;
  return [...document.querySelectorAll('button, summary, select, a.button')].flatMap((it) => {
    const { width, height, right } = it.getBoundingClientRect();
    const small = width > 0 && (width < 44 || height < 44);
    const words = `“${it.textContent}” is ${width} by ${height}`;
    return [...(small ? [words] : []), ...(right > clientWidth ? [`${words}, cut off`] : [])];
  });
}

async function findings(): Promise<readonly string[]> {
  const found = [...(await findingsOn(page))];
  for (const { name, width, height } of SIZES) {
    await page.setViewportSize({ width, height });
    const faults = await page.evaluate(faultsHere);
    found.push(...faults.map((fault) => `${name}: ${fault}`));
  }
  return found;
}

it('the screen as it opens', async () => {
  await toKeep(page);
  expect(await findings()).toEqual([]);
});

it('after a file was handed over', async () => {
  await button(page, 'Save the backup').click();
  await button(page, 'It is there').waitFor();
  expect(await findings()).toEqual([]);
});

it('an older backup looked at, with everything opened', async () => {
  await look(page, text);
  await page.locator('summary').first().click();
  expect(await findings()).toEqual([]);
});

it('a file that was refused', async () => {
  await look(page, text.replace('"thrown"', '"flown"'));
  await page.getByText('Nothing was brought in').waitFor();
  expect(await findings()).toEqual([]);
});

it('with snapshots to look at, and one looked at', async () => {
  await fromKeep(page);
  await button(page, 'Remove').click();
  await button(page, 'Remove it').click();
  await button(page, 'Put it back').click();
  await page.locator('.warp-tile', { hasText: 'A scarf' }).waitFor();
  await toKeep(page);
  await page.locator('.keep-tile').first().waitFor();
  expect(await findings()).toEqual([]);
  await page.locator('.keep-tile button').first().click();
  await page.getByText('Go back to this').waitFor();
  expect(await findings()).toEqual([]);
});

it('Warps with two branches to choose from', async () => {
  await fromKeep(page);
  const file = JSON.parse(text) as { warps: [{ log: { id: string }[] }] };
  const other = page.locator('.branches');
  await toKeep(page);
  // Another device threw its own second pick.
  const log = file.warps[0].log;
  const first = log.at(-1);
  log.push({ ...first, id: 'elsewhere' });
  await look(page, await resealed(file));
  await button(page, 'Bring it in').click();
  await page.getByText('is here now').waitFor();
  await fromKeep(page);
  await other.waitFor();
  expect(await findings()).toEqual([]);
});

/** With the counts and the checksum that fit. */
async function resealed(file: object): Promise<string> {
  const { checksumOfBody } = await import('../../../src/core/backup/file/backupFile.ts');
  const { checksum, ...body } = file as { checksum?: string; holds: { events: number } };
  const counted = { ...body, holds: { ...body.holds, events: body.holds.events + 1 } };
  return JSON.stringify({ ...counted, checksum: checksumOfBody(counted) });
}

it('the rescue page', async () => {
  await page.goto(`${app.url}rescue.html`);
  await page.locator('#save:enabled').waitFor();
  expect(await findings()).toEqual([]);
});

it('the words of an app that does not start', async () => {
  await page.evaluate(async () => {
    for (const it of await navigator.serviceWorker.getRegistrations()) await it.unregister();
    for (const name of await caches.keys()) await caches.delete(name);
  });
  await page.route('**/assets/warps-*.js', (route) => route.abort());
  await page.goto(app.url);
  await page
    .getByRole('heading', { name: 'Fellmark has not started' })
    .waitFor({ timeout: 30_000 });
  expect(await findings()).toEqual([]);
});
