/** One edit in the planner until everything that follows from it is computed, in the built app. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import type { Page } from 'playwright-core';
import { root } from '../../../scripts/ensure.mjs';
import { openChromium, serveDist, waitUntil } from '../../browser/harness.ts';
import type { Ground } from '../ground.ts';
import { watchEdits, watchFrames } from '../pages/probe.ts';
import { type Bench, type Row, spreadOf } from '../row.ts';
import { LARGE, planFile } from '../samples.ts';
import { intervalsOf, openPlanner, SLOWER, TABLET, throttle } from './browser.ts';

const EDITS = 40;
/** Edits that are not counted: the first ones compile what they use. */
const WARM_UP = 6;
const PAUSE_MS = 120;
const FRAMES_MS = 2_000;

const PLANS = [
  {
    what: 'of two towels',
    file: () => readFileSync(join(root, 'src', 'demos', 'moss-and-chalk.json'), 'utf8'),
  },
  {
    what: `of ${LARGE.pieces} pieces × ${LARGE.picks.toLocaleString('en')} picks`,
    file: () => JSON.stringify(planFile(LARGE)),
  },
] as const;

export const plannerBench: Bench<Ground> = {
  name: 'planner',
  parts: PLANS.map(({ what, file }) => ({
    what: wordsFor(what),
    run: async (ground) => [await rowFor(ground, what, file())],
  })),
};

function wordsFor(plan: string): string {
  return `the planner’s whole recompute after one edit, a plan ${plan}, CPU ${SLOWER} × slower`;
}

async function rowFor({ appDir, counterDir }: Ground, plan: string, file: string): Promise<Row> {
  const app = await serveDist({ dir: appDir });
  const counter = await serveDist({ dir: counterDir });
  const { context, page, close } = await openChromium(TABLET);
  try {
    await openPlanner(page, app.url, file);
    await throttle(page, SLOWER);
    const edits = await editTimes(page);
    const empty = await context.newPage();
    await empty.goto(counter.url);
    await throttle(empty, SLOWER);
    await empty.evaluate(watchFrames);
    await sleep(FRAMES_MS);
    const frames = intervalsOf(await empty.evaluate(() => window.benchFrames));
    return {
      what: wordsFor(plan),
      unit: 'ms',
      ours: spreadOf(edits),
      floor: { what: 'one frame of an empty page', spread: spreadOf(frames) },
      limits: [{ kind: 'median', most: 16 }],
    };
  } finally {
    await close();
    await app.stop();
    await counter.stop();
  }
}

/** Another beat each time: lengths, picks and yarn of every piece follow from it. */
async function editTimes(page: Page): Promise<readonly number[]> {
  await page.getByRole('button', { name: 'Weaving', exact: true }).click();
  await page.getByRole('textbox', { name: 'Picks on the loom', exact: true }).focus();
  await page.evaluate(watchEdits, '.sum');
  for (let edit = 1; edit <= WARM_UP + EDITS; edit++) {
    await page.keyboard.press('Control+a');
    await page.keyboard.press(edit % 2 === 0 ? '8' : '9');
    await sleep(PAUSE_MS);
    const noted = () => page.evaluate((edits) => window.benchEdits.length === edits, edit);
    if (!(await waitUntil(noted, 20_000)))
      throw new Error(`editTimes: edit ${edit} changed nothing`);
  }
  const isStale = await page.locator('.sum').getAttribute('data-stale');
  if (isStale !== 'false') throw new Error('editTimes: the figures are of an earlier state');
  return (await page.evaluate(() => window.benchEdits)).slice(WARM_UP);
}
