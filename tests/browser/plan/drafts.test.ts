// A plan in the making is kept with every letter typed, weavable or not.
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { visit } from '../app.ts';
import { button, closed, storedRecords } from '../bench.ts';
import {
  type ChromiumHandle,
  kill9,
  makeTempDir,
  openChromium,
  removeDir,
  serveDist,
} from '../harness.ts';
import {
  figure,
  leave,
  openPart,
  planNew,
  row,
  rowField,
  storedDrafts,
  storedPlan,
  tileOf,
  write,
} from './planner.ts';

const profileDir = makeTempDir('drafts');
let server: Awaited<ReturnType<typeof serveDist>>;
let browser: ChromiumHandle;

beforeAll(async () => {
  server = await serveDist();
  browser = await openChromium({ profileDir, serviceWorkers: 'block' });
  await visit(browser.page, server.url);
});

afterAll(async () => {
  await browser.close();
  await server.stop();
  removeDir(profileDir);
});

const nameField = () => browser.page.getByLabel('Name of the plan');
const onTheBoard = () =>
  browser.page
    .locator('.warps-group', { hasText: 'On the drawing board' })
    .getByRole('heading', { level: 3 })
    .allTextContents();
const goOn = (name: string) =>
  tileOf(browser.page, name).getByRole('button', { name: 'Go on planning' }).click();

describe('a draft', () => {
  it('is not left behind by who only looks', async () => {
    const { page } = browser;
    await planNew(page);
    await openPart(page, 'Weaving');
    await leave(page);
    expect(await storedDrafts(page)).toEqual([]);
    expect(await onTheBoard()).toEqual([]);
  });

  it('stands on the drawing board under the last letter typed, however soon it is left', async () => {
    const { page } = browser;
    await planNew(page);
    await write(nameField(), 'Half a thought');
    await leave(page);
    await expect.poll(onTheBoard).toEqual(['Half a thought']);
  });

  it('is opened again as it was, not weavable and all', async () => {
    const { page } = browser;
    await goOn('Half a thought');
    await openPart(page, 'Warp');
    await row(page, 0).click();
    await rowField(page, 'Ends').fill('0');
    const before = await storedPlan(page);
    await leave(page);
    await goOn('Half a thought');
    expect(await storedPlan(page)).toEqual(before);
    expect(await button(page, 'Put on the loom').isDisabled()).toBe(true);
    await openPart(page, 'Warp');
    await page.locator('.order-row .problem').waitFor();
    await row(page, 0).click();
    await rowField(page, 'Ends').fill('90');
    await expect.poll(() => figure(page, 'Ends')).toBe('90');
  });

  it('survives a reload in the middle of a word', async () => {
    const { page } = browser;
    await nameField().fill('Half a thou');
    await storedPlan(page);
    await page.reload();
    await expect.poll(onTheBoard).toEqual(['Half a thou']);
    await goOn('Half a thou');
    expect(await figure(page, 'Ends')).toBe('90');
  });

  it('survives a kill in the middle of a word, without what was on its way to the disk at most', async () => {
    await nameField().fill('Sail');
    await expect.poll(async () => (await storedPlan(browser.page)).name).toBe('Sail');
    await nameField().press('End');
    await nameField().pressSequentially('cloth');
    await kill9(browser);

    browser = await openChromium({ profileDir, serviceWorkers: 'block' });
    await browser.page.goto(server.url);
    await expect
      .poll(async () => (await onTheBoard())[0] ?? '')
      .toMatch(/^Sail(c|cl|clo|clot|cloth)?$/);
    const [name = ''] = await onTheBoard();
    await goOn(name);
    expect(await nameField().inputValue()).toBe(name);
    expect(await figure(browser.page, 'Ends')).toBe('90');
    expect(await storedRecords(browser.page, 'warps')).toEqual([]);
  });

  it('is removed only after a question, and stays removed', async () => {
    const { page } = browser;
    await nameField().fill('Gone');
    await leave(page);
    await planNew(page);
    await nameField().fill('Kept');
    await leave(page);
    await expect.poll(onTheBoard).toEqual(['Kept', 'Gone']);
    await tileOf(page, 'Gone').getByRole('button', { name: 'Remove' }).click();
    await button(page, 'Remove it').click();
    await closed(page);
    await expect.poll(onTheBoard).toEqual(['Kept']);
    await page.reload();
    await expect.poll(onTheBoard).toEqual(['Kept']);
  });
});
