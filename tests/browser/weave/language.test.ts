// A reader whose browser asks for French, and who would rather have English.
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { button, firstVisit, readCall, saved, scene, storedEvents, throwPicks } from '../bench.ts';
import { openVisitor, serveDist, type Visitor } from '../harness.ts';
import { fitEars, notedBy } from './ears.ts';

let server: Awaited<ReturnType<typeof serveDist>>;
let browser: Visitor;
let page: Page;

beforeAll(async () => {
  server = await serveDist();
  browser = await openVisitor({ reducedMotion: 'reduce', locale: 'fr-FR' });
  page = browser.page;
  await fitEars(browser.context);
  await firstVisit(page, server.url);
});

afterAll(async () => {
  await browser.close();
  await server.stop();
});

const spoken = async () => (await readCall(page)).spoken;
const languageOfPage = () => page.evaluate(() => document.documentElement.lang);
const ENGLISH = /\b(picks?|heddle|from|thrown|of)\b/;

async function openSettings(more: string, settings: string): Promise<void> {
  await button(page, more).click();
  await page.locator('.menu-button', { hasText: settings }).click();
}

/** By the setting: a press then counts at once. */
async function setUp(): Promise<void> {
  await openSettings('Plus', 'Réglages');
  await button(page, 'tout de suite').click();
  await page
    .locator('.choice', { hasText: 'Voix' })
    .getByRole('button', { name: 'Annonce les tours' })
    .click();
  await page.keyboard.press('Escape');
  await page.locator('dialog').waitFor({ state: 'detached' });
}

/** What stands on the bench whatever the language: the yarn, the pick of its stripe, the shuttles. */
async function place() {
  const { letter, name, pick, left, right } = await readCall(page);
  return { letter, name, pick, left, right };
}

/** Waits until the page has come back in the language. */
async function comesBack(language: string): Promise<void> {
  await page.locator(`html[lang="${language}"]`).waitFor();
  await scene(page).waitFor();
}

describe('a French browser', () => {
  it('is shown French', async () => {
    expect(await languageOfPage()).toBe('fr');
    await page.locator('.demo .button').first().click();
    await scene(page).waitFor();
    expect(await page.locator('.call').innerText()).not.toMatch(ENGLISH);
    await button(page, 'Lancer la duite').waitFor();
    await button(page, 'Annuler').waitFor();
  });

  it('hears French, from a French voice, over ten picks', async () => {
    await setUp();
    for (let n = 0; n < 10; n++) {
      const before = await spoken();
      await throwPicks(page, 1);
      await expect.poll(spoken).not.toBe(before);
      expect(await spoken()).toMatch(/duite|à faire/i);
      expect(await spoken()).not.toMatch(ENGLISH);
    }
    const { said } = await notedBy(page);
    const calls = said.filter(({ text }) => text !== '');
    expect(calls.length).toBeGreaterThan(0);
    expect(new Set(calls.map(({ voice }) => voice))).toEqual(new Set(['Proche']));
    expect(calls.map(({ text }) => text).join(' ')).not.toMatch(ENGLISH);
  });

  it('chooses English and stands at the same pick', async () => {
    const before = await place();
    await openSettings('Plus', 'Réglages');
    await button(page, 'Deutsch (commencé)').waitFor();
    await button(page, 'English').click();
    await comesBack('en');
    expect(await place()).toEqual(before);
    await button(page, 'Throw the pick').waitFor();
    await saved(page);
  });

  it('goes back to French without a network, still at the same pick', async () => {
    const before = await place();
    await server.stop();
    await openSettings('More', 'Settings');
    await button(page, 'Français').click();
    await comesBack('fr');
    expect(await place()).toEqual(before);
    await button(page, 'Lancer la duite').waitFor();
    await page.reload();
    await comesBack('fr');
    expect(await place()).toEqual(before);
    await server.start();
  });
});

describe('picks on their way to the disk', () => {
  const thrown = async () =>
    (await storedEvents(page)).filter(({ kind }) => kind === 'thrown').length;

  it('are all there after the change of language, however fast it is made', async () => {
    const before = await thrown();
    await openSettings('Plus', 'Réglages');
    await button(page, 'English').waitFor();
    // Faster than any hand: pedals are not listened to while a sheet is open.
    await page.evaluate(() => {
      document.querySelector('dialog')?.removeAttribute('open');
      for (let n = 0; n < 5; n++) dispatchEvent(new KeyboardEvent('keydown', { key: 'PageDown' }));
      const buttons = [...document.querySelectorAll('button')];
      buttons.find((it) => it.textContent === 'English')?.click();
    });
    await comesBack('en');
    expect(await thrown()).toBe(before + 5);
  });
});

describe('a language that is only begun', () => {
  it('is said to be English, as its words are', async () => {
    await openSettings('More', 'Settings');
    await button(page, 'Deutsch (begun)').click();
    await expect
      .poll(() => page.evaluate(() => localStorage.getItem('fellmark-language')))
      .toBe('de');
    await button(page, 'Throw the pick').waitFor();
    await expect.poll(languageOfPage, { timeout: 20_000 }).toBe('en');
  });
});
