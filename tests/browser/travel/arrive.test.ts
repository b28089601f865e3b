import type { Page } from 'playwright-core';
import { afterEach, beforeAll, describe, expect, it } from 'vitest';
import type { Plan } from '../../../src/core/plan/plan.ts';
import { type App, openApp } from '../app.ts';
import { button, closed, scene, storedRecords, weaveDemo } from '../bench.ts';
import { demoPlan } from '../expected.ts';
import { openFirefox, openVisitor, openWebKit } from '../harness.ts';
import { linkOf } from './noted.ts';

let app: App;
let page: Page;
const plan = demoPlan('ink-oat-ochre');

beforeAll(async () => {
  app = await openApp();
  ({ page } = app);
  return app.close;
});

/** Opens an address as a browser does that was not there before: in a page of its own. */
async function openNew(address: string): Promise<void> {
  const fresh = await app.browser.context.newPage();
  await page.close();
  page = fresh;
  await page.goto(address);
}

const everything = async () => ({
  warps: await storedRecords(page, 'warps'),
  revisions: await storedRecords(page, 'revisions'),
  records: await storedRecords(page, 'records'),
});

const sheet = () => page.locator('dialog[open]');
const addressIsBare = () => expect.poll(() => page.url()).toBe(app.url);

describe('a link that is opened', () => {
  it('shows what plan it is and stores nothing; sent away, it leaves the address too', async () => {
    const before = await everything();
    await openNew(await linkOf(plan, app.url));
    await sheet().getByText('A plan has come').waitFor();
    const words = await sheet().innerText();
    expect(words).toContain(plan.name);
    for (const yarn of plan.yarns) expect(words).toContain(yarn.name);
    // 388 ends at 7 per cm are 55.4 cm in the reed; two runners of one length.
    expect(words).toMatch(/2, [\d.]+ cm finished/);
    expect(words).toContain('in the reed');
    expect(await sheet().locator('canvas').count()).toBe(1);
    expect(await everything()).toEqual(before);
    await button(page, 'Not now').click();
    await closed(page);
    await addressIsBare();
    expect(await everything()).toEqual(before);
    await page.reload();
    await page.getByRole('heading', { name: 'Fellmark' }).waitFor();
    expect(await sheet().count()).toBe(0);
  });

  it('is still offered after a reload, as long as nothing was decided', async () => {
    await openNew(await linkOf(plan, app.url));
    await sheet().getByText('A plan has come').waitFor();
    await page.reload();
    await sheet().getByText('A plan has come').waitFor();
    await page.keyboard.press('Escape');
    await closed(page);
    await addressIsBare();
  });

  it('kept, is a new warp with exactly this plan', async () => {
    await openNew(await linkOf(plan, app.url));
    await button(page, 'Keep it').click();
    await page.locator('.warp-tile', { hasText: plan.name }).waitFor();
    await page.getByText(`“${plan.name}” is saved on this device.`).waitFor();
    await addressIsBare();
    const revisions = (await storedRecords(page, 'revisions')) as readonly { plan: Plan }[];
    expect(revisions.map((it) => it.plan)).toEqual([plan]);
  });

  it('come once more, changed by the teacher, says that the warp of its name stays as it is', async () => {
    const changed = { ...plan, pieces: plan.pieces.slice(0, 1) };
    await openNew(await linkOf(changed, app.url));
    await sheet().getByText('There is a warp of this name here.').waitFor();
    expect(await page.getByText(/^begun today/).count()).toBe(0);
    await button(page, 'Keep it').click();
    await addressIsBare();
    await expect.poll(() => page.getByText(/^begun today/).count()).toBe(2);
  });

  it('to be changed first, is a draft that is there after a reload', async () => {
    const other = { ...plan, name: 'Runners to be changed' };
    await openNew(await linkOf(other, app.url));
    await button(page, 'Change it first').click();
    await page.locator('.plan').waitFor();
    await addressIsBare();
    await page.reload();
    await page.locator('.warp-tile', { hasText: 'Runners to be changed' }).waitFor();
    const records = (await storedRecords(page, 'records')) as readonly { body: unknown }[];
    expect(records.map((it) => it.body)).toEqual([other]);
  });

  it('in the address of a window that is open already, is offered as well', async () => {
    const link = await linkOf({ ...plan, name: 'Pasted over the address' }, app.url);
    await page.evaluate((it) => location.assign(it), link);
    await sheet().getByText('Pasted over the address').waitFor();
    await button(page, 'Not now').click();
    await closed(page);
  });

  it('comes over the bench, and the bench is there again behind it', async () => {
    await weaveDemo(page, 'moss-and-chalk');
    await openNew(await linkOf(plan, app.url));
    await sheet().getByText('A plan has come').waitFor();
    await button(page, 'Not now').click();
    await closed(page);
    await scene(page).waitFor();
  });
});

describe('a link that did not come whole', () => {
  afterEach(async () => {
    await button(page, 'Close').click();
    await closed(page);
    await addressIsBare();
  });

  const cases: readonly [string, (link: string) => string, string][] = [
    ['cut short', (link) => link.slice(0, -200), 'The link was cut short'],
    ['cut to nothing', (link) => link.slice(0, link.indexOf('#plan=') + 6), 'changed on its way'],
    [
      'changed in one sign',
      (link) => `${link.slice(0, -9)}${link.at(-9) === 'A' ? 'B' : 'A'}${link.slice(-8)}`,
      'changed on its way',
    ],
  ];

  it.each(cases)('%s: it says so and stores nothing', async (_, spoil, words) => {
    const before = await everything();
    await openNew(spoil(await linkOf(plan, app.url)));
    await sheet().getByText(words).waitFor();
    await sheet().getByText('Nothing was stored').waitFor();
    expect(await everything()).toEqual(before);
  });
});

describe('on a tablet', () => {
  it('a tab of the browser says where the app on the home screen takes a plan in', async () => {
    const tablet = await openVisitor({
      serviceWorkers: 'block',
      hasTouch: true,
      viewport: { width: 820, height: 1180 },
    });
    try {
      await tablet.page.goto(await linkOf(plan, app.url));
      const hint = tablet.page.locator('dialog[open]', { hasText: 'This is a tab of the browser' });
      await hint.waitFor();
      expect(await hint.innerText()).toContain('Scan a plan');
    } finally {
      await tablet.close();
    }
  });

  it('a computer is not told so', async () => {
    await openNew(await linkOf(plan, app.url));
    await sheet().getByText('A plan has come').waitFor();
    expect(await sheet().innerText()).not.toContain('tab of the browser');
  });
});

const shown = "document.querySelector('dialog[open]')?.textContent ?? ''";

describe('in other engines a link opens too:', () => {
  it('Firefox', async () => {
    const { page: tab, close } = await openFirefox();
    try {
      await tab.goto(await linkOf(plan, app.url));
      await tab.waitForFunction(`(${shown}).includes('A plan has come')`);
      expect(await tab.evaluate(shown)).toContain(plan.name);
    } finally {
      await close();
    }
  });

  it('WebKit', async () => {
    const { driver, close } = await openWebKit();
    try {
      await driver.get(await linkOf(plan, app.url));
      await driver.wait(
        () => driver.executeScript(`return (${shown}).includes('A plan has come')`),
        20_000,
      );
      expect(await driver.executeScript(`return ${shown}`)).toContain(plan.name);
    } finally {
      await close();
    }
  });
});
