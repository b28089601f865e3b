// A browser without any data that goes through steps at one size and scheme, for pictures of them.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import { findChromium, wanted } from './ensure.mjs';

/** @typedef {import('playwright-core').Page} Page */
/** @typedef {{ name: string, go: (page: Page, url: string) => Promise<unknown> }} Step */
/** @typedef {{ name: string, width: number, height: number }} Size */

export const sizes = /** @type {const} */ ({
  landscape: { name: 'landscape', width: 1180, height: 820 },
  portrait: { name: 'portrait', width: 820, height: 1180 },
  phone: { name: 'phone', width: 390, height: 844 },
});

/**
 * Each step starts where the one before it ended, in the same page, with the same data. `shoot` is
 * called after each.
 *
 * @param {string} url
 * @param {readonly Step[]} steps
 * @param {Size} size
 * @param {'light' | 'dark'} scheme
 * @param {(page: Page, step: Step) => Promise<unknown>} shoot
 */
export async function walk(url, steps, { width, height }, scheme, shoot) {
  const profile = mkdtempSync(join(tmpdir(), 'fellmark-shots-'));
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: wanted(findChromium(), 'chromium'),
    args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking'],
    viewport: { width, height },
    colorScheme: scheme,
    hasTouch: true,
    reducedMotion: 'reduce',
  });
  try {
    const page = context.pages()[0] ?? (await context.newPage());
    page.on('pageerror', (error) => console.error(`error in the page: ${error.message}`));
    for (const step of steps) {
      await step.go(page, url);
      await page.waitForTimeout(300);
      await shoot(page, step);
    }
  } finally {
    await context.close();
    rmSync(profile, { recursive: true, force: true, maxRetries: 20, retryDelay: 100 });
  }
}
