import type { Page } from 'playwright-core';
import { beforeAll, expect, it } from 'vitest';
import { openApp } from '../app.ts';
import { button, closed, openMore, saved, scene, throwPicks, weaveDemo } from '../bench.ts';

let page: Page;

beforeAll(async () => {
  const app = await openApp({ colorScheme: 'dark', reducedMotion: 'reduce' });
  ({ page } = app);
  await weaveDemo(page, 'moss-and-chalk');
  return app.close;
});

const theme = () => page.evaluate(() => document.documentElement.dataset.theme);
const becomes = (wanted: string) => expect.poll(theme).toBe(wanted);

/** Lightness of what is really painted: of the page's ground, and of the cloth's own beside it. */
async function grounds(): Promise<readonly ('light' | 'dark')[]> {
  const bodyColour = await page.evaluate(() => getComputedStyle(document.body).backgroundColor);
  const sceneColour = await page.evaluate(() => {
    const canvas = document.querySelector<HTMLCanvasElement>('.scene canvas');
    const copy = new OffscreenCanvas(1, 1).getContext('2d');
    if (canvas !== null) copy?.drawImage(canvas, -2, 2 - canvas.height);
    const pixel = copy?.getImageData(0, 0, 1, 1).data ?? [];
    return `rgb(${[...pixel].slice(0, 3).join(', ')})`;
  });
  const isLight = (rgb: string) => Number(rgb.match(/\d+/)?.[0]) > 128;
  return [bodyColour, sceneColour].map((rgb) => (isLight(rgb) ? 'light' : 'dark'));
}

it('is that of the device at first, and changes with it', async () => {
  await becomes('dark');
  expect(await grounds()).toEqual(['dark', 'dark']);
  await page.emulateMedia({ colorScheme: 'light' });
  await becomes('light');
  await expect.poll(grounds).toEqual(['light', 'light']);
  await page.emulateMedia({ colorScheme: 'dark' });
  await becomes('dark');
});

it('is the other one in two taps from the bench, whatever the device says, also after a reload', async () => {
  await throwPicks(page, 1);
  await button(page, 'More').click();
  await page.locator('.menu-button', { hasText: 'Light screen' }).click();
  await closed(page);
  await becomes('light');
  await expect.poll(grounds).toEqual(['light', 'light']);
  await saved(page);
  await page.reload();
  await scene(page).waitFor();
  await becomes('light');
  await openMore(page, 'Dark screen');
  await closed(page);
  await becomes('dark');
});

it('follows the device again when the settings say so', async () => {
  await openMore(page, 'Settings');
  await button(page, 'As the device').click();
  await button(page, 'Close').click();
  await closed(page);
  await page.emulateMedia({ colorScheme: 'light' });
  await becomes('light');
});
