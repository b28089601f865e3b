// The words that must be there when nothing of the app is: on the page itself and on the rescue page.
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openVisitor, serveDist } from './harness.ts';

let server: Awaited<ReturnType<typeof serveDist>>;
beforeAll(async () => {
  server = await serveDist();
});
afterAll(() => server.stop());

/** A browser in which this language was chosen before, and nothing of the app is kept. */
async function speaking<T>(language: string, work: (page: Page) => Promise<T>): Promise<T> {
  const browser = await openVisitor({ serviceWorkers: 'block' });
  try {
    await browser.page.goto(`${server.url}robots.txt`);
    await browser.page.evaluate((it) => localStorage.setItem('fellmark-language', it), language);
    return await work(browser.page);
  } finally {
    await browser.close();
  }
}

// Most of it is waiting, each in a browser of its own.
describe.concurrent('without the app', () => {
  it.each([
    ['fr', 'Page de secours', 'Tout a été lu', 'Tout enregistrer'],
    ['en', 'Rescue page', 'Everything was read', 'Save everything'],
    // Begun, not finished: the rescue page has no words in it.
    ['de', 'Rescue page', 'Everything was read', 'Save everything'],
  ])('the rescue page speaks %s as far as it can', async (language, title, read, save) => {
    await speaking(language, async (page) => {
      await page.goto(`${server.url}rescue.html`);
      await page.getByText(read).waitFor();
      const headings = page.getByRole('heading');
      expect(await headings.allInnerTexts()).toEqual([title]);
      expect(await page.getByRole('button').allInnerTexts()).toEqual([save]);
    });
  });

  it('the page says in both languages that it has not started, for want of its own script', async () => {
    await speaking('fr', async (page) => {
      await page.route('**/assets/*.js', (route) => route.abort());
      await page.goto(server.url);
      const english = page.getByRole('heading', { name: 'Fellmark has not started' });
      await english.waitFor({ timeout: 20_000 });
      expect(
        await page.getByRole('heading', { name: 'Fellmark n’a pas démarré' }).isVisible(),
      ).toBe(true);
    });
  });

  it('and in the one that is spoken where the script is there, and a screen is not', async ({
    expect,
  }) => {
    await speaking('fr', async (page) => {
      await page.route('**/assets/warps-*.js', (route) => route.abort());
      await page.goto(server.url);
      const french = page.getByRole('heading', { name: 'Fellmark n’a pas démarré' });
      await french.waitFor({ timeout: 30_000 });
      await expect
        .poll(() => page.getByRole('heading', { name: 'Fellmark has not started' }).isVisible())
        .toBe(false);
    });
  });

  it('words that cannot be fetched leave the app in English', async () => {
    await speaking('fr', async (page) => {
      await page.route('**/assets/fr-*.js', (route) => route.abort());
      await page.goto(server.url);
      await page.getByRole('button', { name: 'Words' }).waitFor({ timeout: 30_000 });
    });
  });
});
