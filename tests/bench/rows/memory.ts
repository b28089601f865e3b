/** What ten thousand taps leave behind in the memory of the built app. */
import type { CDPSession, Page } from 'playwright-core';
import { saved, setBounce, storedEvents } from '../../browser/bench.ts';
import { type ChromiumOptions, openChromium, serveDist } from '../../browser/harness.ts';
import { largePlan } from '../core/layPlan.ts';
import type { Ground } from '../ground.ts';
import { type Bench, type Row, spreadOf } from '../row.ts';
import { wovenUntil } from '../samples.ts';
import { openBench } from './tapping.ts';

const TAPS = 10_000;
/** Taps before the first look: what a bench loads and keeps once is no growth. */
const WARM_UP = 50;
/** What waits for a quiet moment has then been done, and timers of a tap are over. */
const QUIET_MS = 4_000;

/** The fewest pixels to paint: they are not what is looked at, and most of the time of a tap. */
const SMALL: ChromiumOptions = { viewport: { width: 390, height: 844 } };

export const memoryBench: Bench<Ground> = {
  name: 'memory',
  parts: [{ what: `memory after ${TAPS.toLocaleString('en')} taps`, run: memoryRows }],
};

async function memoryRows({ appDir }: Ground): Promise<readonly Row[]> {
  const app = await serveDist({ dir: appDir });
  const { context, page, close } = await openChromium(SMALL);
  try {
    const woven = wovenUntil(largePlan(), () => true);
    await openBench(page, app.url, appDir, woven);
    await setBounce(page, 'at once');
    const session = await context.newCDPSession(page);
    await tap(page, WARM_UP);
    const before = await heldBy(page, session);
    await tap(page, TAPS);
    const after = await heldBy(page, session);
    return [
      {
        what: `memory held after ${TAPS.toLocaleString('en')} taps, above what it was`,
        unit: 'MB',
        ours: spreadOf([(after - before) / 1e6]),
        floor: null,
        limits: [{ kind: 'median', most: 5 }],
      },
    ];
  } finally {
    await close();
    await app.stop();
  }
}

/** By pedal, as fast as the app keeps up. */
async function tap(page: Page, taps: number): Promise<void> {
  const before = (await storedEvents(page)).length;
  await page.evaluate(pressPedal, taps);
  await saved(page);
  const thrown = (await storedEvents(page)).length - before;
  if (thrown !== taps) throw new Error(`tap: got ${thrown} events of ${taps} taps`);
}

/** Run in the page. */
async function pressPedal(taps: number): Promise<void> {
  const key = { key: 'PageDown', bubbles: true, cancelable: true };
  const isSaved = () => document.querySelector('[data-saved="true"]') !== null;
  const channel = new MessageChannel();
  const turn = () =>
    new Promise((resolve) => {
      channel.port1.onmessage = resolve;
      channel.port2.postMessage(null);
    });
  for (let i = 0; i < taps; i++) {
    window.dispatchEvent(new KeyboardEvent('keydown', key));
    window.dispatchEvent(new KeyboardEvent('keyup', key));
    await turn();
    while (i % 20 === 19 && !isSaved()) await new Promise((resolve) => setTimeout(resolve));
  }
  channel.port1.close();
}

/** Bytes held once everything that nobody holds is thrown away. */
async function heldBy(page: Page, session: CDPSession): Promise<number> {
  await page.waitForTimeout(QUIET_MS);
  await session.send('HeapProfiler.enable');
  for (let times = 0; times < 3; times++) await session.send('HeapProfiler.collectGarbage');
  const held = await session.send('Runtime.getHeapUsage');
  await session.send('HeapProfiler.disable');
  return held.usedSize + held.embedderHeapUsedSize + held.backingStorageSize;
}
