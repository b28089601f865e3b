// Planned against woven, and a towel kept as it was woven, by touch.
import type { Locator, Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { openApp } from '../app.ts';
import {
  button,
  closed,
  openMore,
  saved,
  setBounce,
  throwPicks,
  toWarps,
  weavePlan,
} from '../bench.ts';
import { findingsOn } from '../findings.ts';
import { planWeaving, solid } from '../plans.ts';

let page: Page;

beforeAll(async () => {
  const app = await openApp({ reducedMotion: 'reduce', hasTouch: true });
  ({ page } = app);
  await weavePlan(
    page,
    planWeaving('Cloth', [solid('A', 8), solid('B', 12), solid('A', 8)], [solid('B', 10)]),
  );
  await setBounce(page, 'at once');
  await throwPicks(page, 14);
  // The stripe of chalk is ended after 6 of its 12 picks.
  await openMore(page, 'Blocks');
  await page
    .locator('.block-here[data-state="here"]')
    .getByRole('button', { name: 'End here' })
    .tap();
  await button(page, 'Close').tap();
  await closed(page);
  await throwPicks(page, 8 + 3);
  await saved(page);
  return app.close;
});

const rows = (): Locator => page.locator('.against-table tbody tr');
const cells = async (row: number) =>
  (await rows().nth(row).locator('td').allInnerTexts()).map((it) => it.replace(/\s+/g, ' ').trim());

describe('planned against woven', () => {
  it('tells each piece block by block, and how they differ', async () => {
    await openMore(page, 'Planned and woven');
    await button(page, '1. Cloth 1').tap();
    await expect.poll(() => rows().count()).toBe(3);
    expect(await cells(0)).toEqual([
      'A 8 picks of moss 8 picks, ¾ in',
      'A 8 picks of moss 8 picks, ¾ in',
      'As planned',
    ]);
    expect(await cells(1)).toEqual([
      'B 12 picks of chalk 12 picks, 1¼ in',
      'B 6 picks of chalk 6 picks, ⅝ in',
      '6 picks fewer, ⅝ in shorter',
    ]);
    expect(await page.locator('.against-whole').innerText()).toContain(
      'Woven: 6 picks fewer, ⅝ in shorter.',
    );
    await button(page, '2. Cloth 2').tap();
    await expect.poll(() => rows().count()).toBe(1);
    expect((await cells(0))[2]).toBe('Being woven');
  });

  it('axe finds nothing on it and on its sheet', async () => {
    await button(page, '1. Cloth 1').tap();
    expect(await findingsOn(page)).toEqual([]);
    await button(page, 'Keep as woven').tap();
    expect(await findingsOn(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await closed(page);
    await page.setViewportSize({ width: 1180, height: 820 });
  });

  it('prints in ink on white, without its buttons', async () => {
    await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
    expect(await button(page, 'Keep as woven').isVisible()).toBe(false);
    const colour = await page
      .locator('.against-whole h2')
      .evaluate((it) => getComputedStyle(it).color);
    expect(colour).toBe('rgb(35, 32, 28)');
    await page.emulateMedia({ media: 'screen', colorScheme: 'light' });
  });

  it('keeps a piece as it was woven: a plan with the picks of the cloth', async () => {
    await button(page, 'Keep as woven').tap();
    await page.locator('.menu-button', { hasText: 'A plan of this piece' }).tap();
    await page.locator('.plan').waitFor();
    expect(await page.getByLabel('Name of the plan').inputValue()).toBe('Cloth, as woven');
    await button(page, 'Pieces').tap();
    expect(await page.getByLabel('In one line').inputValue()).toBe(
      '8 picks A, 6 picks B, 8 picks A',
    );
    expect(await button(page, 'Put on the loom').isEnabled()).toBe(true);
  });

  it('is reached from the journal too, and keeps a piece as a motif', async () => {
    await button(page, '‹ Warps').tap();
    await toWarps(page);
    await page
      .locator('.warp-tile', { hasText: 'Cloth' })
      .getByRole('button', { name: 'Journal' })
      .tap();
    await button(page, 'Planned and woven').tap();
    await button(page, '1. Cloth 1').tap();
    await button(page, 'Keep as woven').tap();
    await page.locator('.menu-button', { hasText: 'A motif' }).tap();
    const tile = page.locator('.motif-tile', { hasText: 'Cloth 1' });
    await tile.waitFor();
    expect(await tile.innerText()).toContain('22 picks');
    await button(page, '‹ Planned and woven').tap();
    await button(page, '‹ Journal').tap();
    await page.locator('.journal').waitFor();
  });
});
