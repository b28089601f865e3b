import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { button, closed, firstVisit } from './bench.ts';
import { openVisitor, serveDist, type Visitor } from './harness.ts';

let browser: Visitor;
let page: Page;

beforeAll(async () => {
  const server = await serveDist();
  browser = await openVisitor({ reducedMotion: 'reduce' });
  page = browser.page;
  await firstVisit(page, server.url);
  // From here on without a network.
  await server.stop();
  await page.reload();
  await page.getByRole('heading', { name: 'Fellmark' }).waitFor();
});

afterAll(() => browser.close());

const sheet = () => page.locator('dialog[open]');
const title = () => sheet().locator('h2').textContent();

const close = async () => {
  await button(page, 'Close').click();
  await closed(page);
};

describe('without a network', () => {
  it('every word of the trade is explained, and drawn where words alone do not tell', async () => {
    await button(page, 'Words').click();
    await sheet().locator('.all-words button').first().waitFor();
    const words = await sheet().locator('.all-words button').allTextContents();
    expect(words.length).toBeGreaterThan(20);
    const drawings = new Set<string>();
    const says = new Set<string>();
    for (const word of words) {
      await sheet().getByRole('button', { name: word, exact: true }).click();
      expect(await title()).toBe(word);
      says.add((await sheet().locator('.one-word > p').first().textContent()) ?? '');
      for (const it of await sheet().locator('.drawing').all()) drawings.add(await it.innerHTML());
      await button(page, 'All words').click();
    }
    expect(says.size).toBe(words.length);
    // Turn and alternation share one.
    expect(drawings.size).toBeGreaterThanOrEqual(7);
    expect(says).not.toContain('');
    await close();
  });

  it('a word in the planner explains itself where it stands', async () => {
    await button(page, 'Plan a warp').click();
    await button(page, 'Warp').click();
    await page.locator('.word', { hasText: 'Floating selvedges' }).click();
    await sheet().locator('.one-word').waitFor();
    expect(await title()).toBe('Floating selvedge');
    await close();
    await page.reload();
    await page.getByRole('heading', { name: 'Fellmark' }).waitFor();
  });
});

describe('a screen with nothing on it yet says what to do next', () => {
  it.each([
    { door: 'Yarns', next: 'Add a yarn' },
    { door: 'Motifs', next: 'stretch' },
  ])('$door', async ({ door, next }) => {
    await button(page, door).click();
    await page.getByText(next).first().waitFor();
    await page.reload();
    await page.getByRole('heading', { name: 'Fellmark' }).waitFor();
  });
});
