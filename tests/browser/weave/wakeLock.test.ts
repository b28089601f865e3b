import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { visit } from '../app.ts';
import { button, closed, openMore, saved, scene, weaveDemo } from '../bench.ts';
import { openVisitor, serveDist, type Visitor } from '../harness.ts';

let server: Awaited<ReturnType<typeof serveDist>>;
let browser: Visitor;
let page: Page;

/** A device whose answer can be changed, and that writes down how often it was asked. */
interface Device {
  asked: number;
  answer: 'yes' | 'no';
  release: () => void;
  isHidden: boolean;
}

beforeAll(async () => {
  server = await serveDist();
  browser = await openVisitor({ serviceWorkers: 'block', reducedMotion: 'reduce' });
  page = browser.page;
  await browser.context.addInitScript(installDevice);
  await visit(page, server.url);
  await weaveDemo(page, 'moss-and-chalk');
});

afterAll(async () => {
  await browser.close();
  await server.stop();
});

function installDevice(): void {
  const device: Device = { asked: 0, answer: 'yes', release: () => undefined, isHidden: false };
  Object.assign(window, { device });
  Object.defineProperty(document, 'visibilityState', {
    get: () => (device.isHidden ? 'hidden' : 'visible'),
  });
  if (localStorage.getItem('no wake lock') !== null) {
    Reflect.deleteProperty(Navigator.prototype, 'wakeLock');
    return;
  }
  const request = async () => {
    device.asked += 1;
    if (device.answer === 'no') throw new DOMException('low battery', 'NotAllowedError');
    const lock = Object.assign(new EventTarget(), {
      released: false,
      release: async () => {
        lock.released = true;
        lock.dispatchEvent(new Event('release'));
      },
    });
    device.release = () => void lock.release();
    return lock;
  };
  Object.defineProperty(navigator, 'wakeLock', { value: { request } });
}

/** Does something to the device in the page. */
const to = <T>(work: (device: Device) => T): Promise<T> =>
  page.evaluate(`(${work})(window.device)`) as Promise<T>;
const asked = () => to((device) => device.asked);
const sign = () => page.locator('.wake-sign');

async function settingsSay(words: string): Promise<void> {
  await openMore(page, 'Settings');
  await page.locator('.settings').getByText(words).waitFor();
  await button(page, 'Close').click();
  await closed(page);
}

it('is taken at the bench, and the settings say so', async () => {
  await expect.poll(asked).toBe(1);
  await settingsSay('The screen stays on while you weave.');
  expect(await sign().count()).toBe(0);
});

it('is taken again at once when the page is seen again', async () => {
  // Asked for before the event is over, not by a timer.
  const more = await to((device) => {
    device.isHidden = true;
    device.release();
    document.dispatchEvent(new Event('visibilitychange'));
    const before = device.asked;
    device.isHidden = false;
    document.dispatchEvent(new Event('visibilitychange'));
    return device.asked - before;
  });
  expect(more).toBe(1);
  await expect.poll(() => sign().count()).toBe(0);
});

it('let go by the device it is told at the bench, and the next pedal press takes it again', async () => {
  await to((device) => device.release());
  await sign().getByText('tap once').waitFor();
  const before = await asked();
  await page.keyboard.press('PageDown');
  await sign().waitFor({ state: 'detached' });
  expect(await asked()).toBe(before + 1);
});

it('refused, every tap asks again', async () => {
  await to((device) => {
    device.answer = 'no';
    device.release();
  });
  const before = await asked();
  await scene(page).click();
  await sign().getByText('The screen may go dark').waitFor();
  await scene(page).click();
  await expect.poll(asked).toBeGreaterThanOrEqual(before + 2);
  await settingsSay('saving its battery');
  await to((device) => {
    device.answer = 'yes';
  });
  await page.keyboard.press('PageUp');
  await sign().waitFor({ state: 'detached' });
});

it('is let go when the bench is left', async () => {
  await button(page, '‹ Warps').click();
  await page.locator('.warps').waitFor();
  const before = await asked();
  await page.getByRole('heading', { name: 'Fellmark' }).click();
  expect(await asked()).toBe(before);
});

it('where there is none, one card says what to set, once', async () => {
  await page.evaluate(() => localStorage.setItem('no wake lock', 'yes'));
  await weaveDemo(page, 'moss-and-chalk');
  await saved(page);
  await page.reload();
  const card = page.locator('.wake-card');
  await card.getByText('set auto-lock').waitFor();
  await card.getByRole('button', { name: 'Understood' }).click();
  await card.waitFor({ state: 'detached' });
  await page.reload();
  await scene(page).waitFor();
  await page.locator('.weave > [aria-live]').waitFor({ state: 'attached' });
  expect(await card.count()).toBe(0);
  await settingsSay('screen timeout');
});
