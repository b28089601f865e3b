/** What the rows measured in Chromium share. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { pickAt } from '../../../src/core/bench/pickAt.ts';
import { progressOf } from '../../../src/core/bench/progress.ts';
import { button, chooseFile } from '../../browser/bench.ts';
import type { ChromiumOptions, serveDist } from '../../browser/harness.ts';
import type { Wanted } from '../pages/probe.ts';
import type { WovenWarp } from '../samples.ts';

export type Server = Awaited<ReturnType<typeof serveDist>>;

/** A tablet of our own choice, lying: two device pixels in a CSS pixel, touched. */
export const TABLET: ChromiumOptions = {
  viewport: { width: 1180, height: 820 },
  deviceScaleFactor: 2,
  hasTouch: true,
};

/** How many times slower a tablet is taken to be than this machine. */
export const SLOWER = 4;

/** Opens a page and waits until its service worker holds everything. */
export async function install(page: Page, url: string): Promise<void> {
  await page.goto(url);
  await page.evaluate('navigator.serviceWorker.ready.then(() => undefined)');
}

/** Puts a woven warp on the app's bench; the next load shows it. */
export async function seedApp(page: Page, appDir: string, woven: WovenWarp): Promise<void> {
  writeFileSync(join(appDir, 'bench', 'warp.json'), JSON.stringify(woven));
  await page.evaluate("import('/bench/seed.js').then((it) => it.seed('/bench/warp.json'))");
}

/** What the bench shows when it is at the right pick, told by the core. */
export function benchShows({ plan, log }: WovenWarp): Wanted {
  const { course, pick } = progressOf(plan, log);
  const facts = pickAt(course, pick);
  if (facts === null) throw new Error('benchShows: wanted a warp that is not woven to its end');
  const { piece, stripe } = facts;
  const name = plan.pieces[piece.index]?.name ?? '';
  return [
    ['.weave-head h1', `${name} · ${piece.index + 1} of ${course.pieces.length}`],
    ['.call-name', plan.yarns[facts.yarn]?.name ?? ''],
    ['.call-pick', String(stripe.done + 1)],
    ['.call-of', `of ${stripe.picks}`],
  ];
}

/** How many times slower than this machine; 1 is this machine. */
export async function throttle(page: Page, rate: number): Promise<void> {
  const session = await page.context().newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate });
}

/** Opens the app's planner on a plan, given as the text of its file. */
export async function openPlanner(page: Page, url: string, file: string): Promise<void> {
  await install(page, url);
  await chooseFile(page, 'plan.json', file);
  await button(page, 'Plan another').click();
  await page.locator('.sum-picture').waitFor();
}

/** From each moment to the next. */
export function intervalsOf(moments: readonly number[]): readonly number[] {
  return moments.slice(1).map((moment, i) => moment - (moments[i] ?? Number.NaN));
}
