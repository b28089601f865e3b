import type { Page } from 'playwright-core';
import { beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { type App, openApp } from '../app.ts';
import {
  behindTheFrame,
  button,
  closed,
  openMore,
  readCall,
  scene,
  setBounce,
  weaveDemo,
} from '../bench.ts';
import { openFirefox } from '../harness.ts';

const THROW = ['PageDown', 'ArrowRight', 'ArrowDown', 'Space', 'Enter'] as const;
const UNDO = ['PageUp', 'ArrowLeft', 'ArrowUp', 'Backspace'] as const;

let app: App;
let page: Page;

beforeAll(async () => {
  app = await openApp({ hasTouch: true });
  ({ page } = app);
  return app.close;
});

/** A warp of its own for every test: the first stripe of this demo is 24 picks long. */
beforeEach(() => weaveDemo(page, 'moss-and-chalk'));

const woven = async () => (await readCall(page)).pick - 1;
const becomes = (picks: number, note = '') =>
  expect.poll(woven, { interval: 10, message: note }).toBe(picks);
const focused = () =>
  page.evaluate(() => `${document.activeElement?.tagName} ${document.activeElement?.className}`);
/** The pick that is counted after all that was pressed before it has been seen. */
const settled = () => page.evaluate(() => new Promise((done) => requestAnimationFrame(done)));

describe('a pedal', () => {
  /** What may have the focus when the foot comes down: whatever the hand tapped last. */
  const taps: readonly { readonly last: string; readonly tap: () => Promise<unknown> }[] = [
    { last: 'nothing', tap: async () => undefined },
    {
      last: 'the scene',
      tap: () =>
        scene(page)
          .click()
          .then(() => button(page, 'Undo').click()),
    },
    { last: 'the name of the piece', tap: () => page.locator('.weave-head h1').tap() },
    { last: 'a due card', tap: () => button(page, 'Later').tap() },
    {
      last: 'a sheet, now closed',
      tap: async () => {
        await button(page, 'More').tap();
        await button(page, 'Close').tap();
        await closed(page);
      },
    },
  ];

  it.each(taps)('throws and undoes one pick a press after a tap on $last', async ({ tap }) => {
    await setBounce(page, 'at once');
    await tap();
    await behindTheFrame(page);
    const focus = await focused();
    let picks = await woven();
    for (const key of THROW) {
      await page.keyboard.press(key);
      picks += 1;
      await becomes(picks, key);
    }
    for (const key of UNDO) {
      await page.keyboard.press(key);
      picks -= 1;
      await becomes(picks, key);
    }
    expect(await focused()).toBe(focus);
    expect(await page.evaluate(() => scrollY)).toBe(0);
  });

  it.each(['tap', 'click'] as const)(
    'throws one pick after a %s on the scene as the last thing too',
    async (touch) => {
      await setBounce(page, 'at once');
      await scene(page)[touch]();
      await page.keyboard.press('Enter');
      await page.keyboard.press('Space');
      await becomes(3);
      await settled();
      expect(await woven()).toBe(3);
    },
  );

  it.each([...THROW, ...UNDO])('held down, %s is one step', async (key) => {
    await setBounce(page, 'at once');
    for (let i = 0; i < 6; i++) await page.keyboard.press('PageDown');
    await scene(page).click();
    await becomes(7);
    // Every further `down` without an `up` is a repeat, as a held key sends them.
    for (let i = 0; i < 20; i++) await page.keyboard.down(key);
    await page.keyboard.up(key);
    await settled();
    expect(await woven()).toBe((THROW as readonly string[]).includes(key) ? 8 : 6);
  });

  it.each(['Control', 'Alt', 'Meta'])('%s with a key is no step', async (modifier) => {
    await page.keyboard.press(`${modifier}+ArrowDown`);
    await page.keyboard.press('Shift');
    await settled();
    expect(await woven()).toBe(0);
  });

  it('does nothing to the count while a sheet is open', async () => {
    await openMore(page, 'Settings');
    await page.keyboard.press('PageDown');
    await page.keyboard.press('ArrowRight');
    await settled();
    expect(await woven()).toBe(0);
    await page.keyboard.press('Escape');
    await closed(page);
  });
});

describe('by keyboard alone', () => {
  async function tabTo(name: string): Promise<void> {
    for (let i = 0; i < 24; i++) {
      await page.keyboard.press('Tab');
      const label = await page.evaluate(
        () =>
          document.activeElement?.getAttribute('aria-label') ?? document.activeElement?.textContent,
      );
      if (label?.includes(name)) return;
    }
    throw new Error(`got no control ${name} by Tab`);
  }

  it('Enter and Space press the button that Tab has reached', async () => {
    await setBounce(page, 'at once');
    await page.keyboard.press('PageDown');
    await tabTo('Throw the pick');
    await page.keyboard.press('Enter');
    await becomes(2);
    await page.keyboard.press('Space');
    await becomes(3);
    await tabTo('Later');
    await page.keyboard.press('Enter');
    await page.locator('.waiting').waitFor();
    await becomes(3);
    await tabTo('Undo');
    await page.keyboard.press('Enter');
    await page.keyboard.press('Enter');
    await becomes(2);
    await tabTo('More');
    await page.keyboard.press('Space');
    await page.locator('dialog[open]').waitFor();
    await page.keyboard.press('Escape');
    await closed(page);
    await page.keyboard.press('PageDown');
    await becomes(3);
  });

  it('a closed sheet gives the focus back to the button it was opened by', async () => {
    await tabTo('More');
    await page.keyboard.press('Enter');
    await tabTo('Settings');
    await page.keyboard.press('Enter');
    await page.locator('dialog h2', { hasText: 'Settings' }).waitFor();
    await page.keyboard.press('Escape');
    await closed(page);
    expect(await page.evaluate(() => document.activeElement?.textContent)).toContain('More');
  });

  it.each(['Enter', 'Space'])('a held %s on the throwing area is one pick', async (key) => {
    await setBounce(page, 'at once');
    await tabTo('Throw the pick');
    for (let i = 0; i < 20; i++) await page.keyboard.down(key);
    await page.keyboard.up(key);
    await becomes(1);
    await settled();
    expect(await woven()).toBe(1);
  });
});

describe('a second tap', () => {
  const tapTwice = (apart: number) =>
    scene(page).evaluate(async (area, ms) => {
      const start = performance.now();
      (area as HTMLElement).click();
      while (performance.now() - start < ms) await new Promise(requestAnimationFrame);
      (area as HTMLElement).click();
    }, apart);

  it('within a quarter of a second of the first is its bounce', async () => {
    await setBounce(page, '¼ s');
    await tapTwice(0);
    await settled();
    expect(await woven()).toBe(1);
  });

  it('counts later than that', async () => {
    await tapTwice(260);
    await becomes(2);
  });

  it('is a bounce for a whole second when that is set', async () => {
    await setBounce(page, 'at once');
    await page.keyboard.press('PageDown');
    // After an undo the next tap counts in any case: what was tapped before plays no part here.
    await page.keyboard.press('PageUp');
    await setBounce(page, '1 s');
    await tapTwice(500);
    await settled();
    expect(await woven()).toBe(1);
  });

  it('counts at once when that is set', async () => {
    await setBounce(page, 'at once');
    await tapTwice(0);
    await becomes(2);
  });

  it('on Undo always counts, and a throw right after it', async () => {
    await setBounce(page, 'at once');
    for (let i = 0; i < 5; i++) await page.keyboard.press('PageDown');
    await setBounce(page, '1 s');
    await page.evaluate(() => {
      const find = (name: string) =>
        [...document.querySelectorAll('button')].find((it) => it.textContent?.includes(name));
      find('Undo')?.click();
      find('Undo')?.click();
      document.querySelector<HTMLElement>('.scene')?.click();
    });
    await becomes(4);
  });
});

describe('in Firefox', () => {
  it('Space and Enter after a tap on the scene are one pick each', async () => {
    const firefox = await openFirefox();
    try {
      const tab = firefox.page;
      const tap = (selector: string) => tab.locator(selector).click();
      await tab.goto(app.url);
      await tap('::-p-text(Weave this)');
      await tap('::-p-text(More)');
      await tap('::-p-text(Settings)');
      await tap('::-p-text(at once)');
      await tap('::-p-text(Close)');
      await tap('.scene');
      const pick = () => tab.$eval('.call-pick', (it) => Number(it.textContent));
      await expect.poll(pick).toBe(2);
      for (const key of [' ', 'Enter', ' '] as const) await tab.keyboard.press(key);
      await tab.evaluate(() => new Promise((done) => requestAnimationFrame(done)));
      expect(await pick()).toBe(5);
    } finally {
      await firefox.close();
    }
  });
});
