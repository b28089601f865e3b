/** Taps on the bench and on its floors, as a weaver taps: far enough apart to be done with each. */
import { setTimeout as sleep } from 'node:timers/promises';
import type { Page } from 'playwright-core';
import { waitUntil } from '../../browser/harness.ts';
import { isShown, type TapTimes } from '../pages/probe.ts';
import type { WovenWarp } from '../samples.ts';
import { benchShows, install, seedApp } from './browser.ts';

/**
 * Taps on one page before the other has its turn, and turns: many, as the largest part of a tap is the
 * wait for the screen's next frame, long or short by chance.
 */
export const TAPS = 6;
export const TURNS = 30;
/** Beyond the time in which a second tap is a bounce, and beyond the app's own motion. */
const PAUSE_MS = 300;
/** Spread over several frames, so that taps do not fall into step with the screen. */
const PAUSE_SPREAD_MS = 50;

/** Puts a woven warp on the bench of the app, and waits until it is seen there. */
export async function openBench(
  page: Page,
  url: string,
  appDir: string,
  woven: WovenWarp,
): Promise<void> {
  await install(page, url);
  await seedApp(page, appDir, woven);
  await page.reload();
  const wanted = benchShows(woven);
  if (!(await waitUntil(() => page.evaluate(isShown, wanted), 120_000)))
    throw new Error(`openBench: the bench does not show ${JSON.stringify(wanted)}`);
}

/** Taps one after the other, each when the one before is long over; one may take `patienceMs`. */
export async function tapTurn(page: Page, patienceMs = 20_000): Promise<readonly TapTimes[]> {
  await page.bringToFront();
  await page.evaluate(() => {
    window.benchTaps = [];
  });
  await sleep(PAUSE_MS);
  const { width = 0, height = 0 } = page.viewportSize() ?? {};
  for (let tap = 1; tap <= TAPS; tap++) {
    await page.touchscreen.tap(width / 2, height / 2);
    // Nothing is asked of the page while it works: only when all should long be over.
    await sleep(PAUSE_MS + Math.random() * PAUSE_SPREAD_MS);
    const noted = () => page.evaluate((taps) => window.benchTaps.length === taps, tap);
    if (!(await waitUntil(noted, patienceMs)))
      throw new Error(`tapTurn: tap ${tap} was not noted by ${await page.title()}`);
  }
  return page.evaluate(() => window.benchTaps);
}
