// The planner as a weaver uses it: its parts, its rows, its figures, and the draft on the disk.
import type { Locator, Page } from 'playwright-core';
import { expect } from 'vitest';
import type { Plan } from '../../../src/core/plan/plan.ts';
import type { StoredRecord } from '../../../src/store/store.ts';
import { button, chooseFile, storedRecords, toWarps } from '../bench.ts';

export const PARTS = ['Loom', 'Yarns', 'Warp', 'Pieces', 'Weaving'] as const;
export type PartName = (typeof PARTS)[number];

/** The Warps screen, from the planner or from anywhere else. */
export async function leave(page: Page): Promise<void> {
  await page.locator('#app main').waitFor();
  if ((await page.locator('.plan, .shelf').count()) > 0) await button(page, '‹ Warps').click();
  else await toWarps(page);
  await page.getByRole('heading', { name: 'Fellmark' }).waitFor();
}

/** A new plan, as the app begins one. */
export async function planNew(page: Page): Promise<void> {
  await leave(page);
  await button(page, 'Plan a warp').click();
  await page.locator('.plan').waitFor();
}

/** A draft that starts from this plan. */
export async function planFrom(page: Page, plan: Plan): Promise<void> {
  await leave(page);
  await chooseFile(page, 'plan.json', JSON.stringify(plan));
  // Until it is said to be there, another of the same name may be the one on the screen.
  await page.locator('.notice').waitFor();
  await tileOf(page, plan.name).getByRole('button', { name: 'Plan another' }).click();
  await page.locator('.plan').waitFor();
}

export const tileOf = (page: Page, name: string): Locator =>
  page
    .locator('.warp-tile')
    .filter({ has: page.getByRole('heading', { name, exact: true }) })
    .first();

export const partTab = (page: Page, name: PartName): Locator =>
  page.locator('.part-tab', { hasText: name });

export async function openPart(page: Page, name: PartName): Promise<void> {
  await partTab(page, name).click();
  await page
    .locator('.plan-part')
    .and(page.getByRole('region', { name, exact: true }))
    .waitFor();
}

/** The head of a row, counted from 0 down the whole list, groups and what is in them alike. */
export const row = (page: Page, n: number): Locator => page.locator('.row-head').nth(n);

/** A field of the row that is open. */
export const rowField = (page: Page, label: string): Locator =>
  page.locator('.row-card').getByLabel(label, { exact: true });

/** Types over what stands in a field, key by key, as a weaver does. */
export async function write(field: Locator, words: string): Promise<void> {
  await field.click();
  await field.page().keyboard.type(words);
}

export const putOnLoom = (page: Page): Locator => button(page, 'Put on the loom');

export type KeyFigure = 'Ends' | 'In the reed' | 'Washed width' | 'Warp to wind';

/** What a key figure says now. */
export async function figure(page: Page, name: KeyFigure): Promise<string> {
  const place = page.locator('.key-figures > div', { has: page.getByText(name, { exact: true }) });
  return (await place.locator('dd').textContent()) ?? '';
}

/** What is wrong, in the words that stand beside the field with this label. */
export function wordsBeside(page: Page, label: string): Promise<readonly string[]> {
  return page
    .locator('.field', { has: page.getByLabel(label, { exact: true }) })
    .last()
    .locator('.problem')
    .allTextContents();
}

/** The drafts on the disk, read past the app. */
export async function storedDrafts(page: Page): Promise<readonly StoredRecord[]> {
  const records = (await storedRecords(page, 'records')) as readonly StoredRecord[];
  return records.filter(({ kind }) => kind === 'draft');
}

/** The plan of the draft changed last, once everything that was typed is on the disk. */
export async function storedPlan(page: Page): Promise<Plan> {
  const read = async () => {
    const drafts = [...(await storedDrafts(page))];
    return drafts.sort((a, b) => a.changedAt.localeCompare(b.changedAt)).at(-1)?.body;
  };
  let before = await read();
  for (let tries = 0; tries < 40; tries++) {
    await page.waitForTimeout(40);
    const now = await read();
    if (now !== undefined && JSON.stringify(now) === JSON.stringify(before)) return now as Plan;
    before = now;
  }
  throw new Error('the draft never came to rest');
}

/** Polls the plan on the disk until this holds of it. */
export function planBecomes<T>(page: Page, of: (plan: Plan) => T) {
  return expect.poll(async () => of(await storedPlan(page)), { interval: 20 });
}
