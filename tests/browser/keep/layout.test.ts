// The Keep safe screen and the rescue page at three sizes, in both themes: nothing cut off, nothing too small, axe content.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { AxeResults } from 'axe-core';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import {
  button,
  firstVisit,
  SIZES,
  saved,
  scene,
  throwPicks,
  toWarps,
  weavePlan,
} from '../bench.ts';
import { type ChromiumHandle, openChromium, serveDist } from '../harness.ts';
import { planWeaving, solid } from '../plans.ts';
import { backupOf, fromKeep, look, toKeep } from './keeping.ts';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const OPTIONS = {
  resultTypes: ['violations'],
  rules: { 'color-contrast-enhanced': { enabled: true } },
};
const PLAN = {
  ...planWeaving('A', [solid('A', 200)]),
  name: 'A scarf with rather a long name for its narrow warp',
};

let server: Awaited<ReturnType<typeof serveDist>>;
let browser: ChromiumHandle;
let page: Page;
let text = '';

beforeAll(async () => {
  server = await serveDist();
  browser = await openChromium({ reducedMotion: 'reduce' });
  page = browser.page;
  await firstVisit(page, server.url);
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
});

afterAll(async () => {
  await browser.close();
  await server.stop();
});

function faultsOfSize(): readonly string[] {
  const faults: string[] = [];
  const { scrollWidth, clientWidth } = document.documentElement;
  if (scrollWidth > clientWidth) faults.push(`${scrollWidth - clientWidth} px too wide`);
  for (const it of document.querySelectorAll('button, summary, select, a.button, main > p > a')) {
    const { width, height, right } = it.getBoundingClientRect();
    if (width > 0 && (width < 44 || height < 44))
      faults.push(`“${it.textContent}” is ${width} by ${height}`);
    if (right > clientWidth) faults.push(`“${it.textContent}” is cut off`);
  }
  return faults;
}

async function findings(): Promise<readonly string[]> {
  const found = new Set<string>();
  for (const { name, width, height } of SIZES) {
    await page.setViewportSize({ width, height });
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme });
      await page.waitForTimeout(100);
      await page.evaluate(`typeof axe === 'undefined' && (() => { ${axe} })()`);
      const { violations } = (await page.evaluate(
        `axe.run(${JSON.stringify(OPTIONS)})`,
      )) as AxeResults;
      for (const { id, nodes } of violations)
        for (const node of nodes)
          found.add(`${name}, ${colorScheme}: ${id} at ${node.target.join(' ')}`);
    }
    for (const fault of await page.evaluate(faultsOfSize)) found.add(`${name}: ${fault}`);
  }
  return [...found];
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
  await page.goto(`${server.url}rescue.html`);
  await page.locator('#save:enabled').waitFor();
  expect(await findings()).toEqual([]);
});
