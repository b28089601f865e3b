/** A browser started anew with the server stopped, to the painted screen: the app and the floor in turns. */
import type { Page } from 'playwright-core';
import {
  makeTempDir,
  openChromium,
  removeDir,
  serveDist,
  waitUntil,
} from '../../browser/harness.ts';
import { EVENTS } from '../core/foldLog.ts';
import { largePlan } from '../core/layPlan.ts';
import type { Ground } from '../ground.ts';
import { type Wanted, watchStart } from '../pages/probe.ts';
import { type Bench, spreadOf } from '../row.ts';
import { wovenUntil } from '../samples.ts';
import { benchShows, install, type Server, seedApp, TABLET } from './browser.ts';

const STARTS = 10;
/** Starts that are not counted: the browser keeps compiled scripts only of pages it has seen before. */
const WARM_UP = 2;

interface Start {
  readonly url: string;
  readonly wanted: Wanted;
}

/**
 * A log as one towel leaves it, and the longest a warp is meant to bear: as the app keeps it folded
 * for the next start, and as it is met after an update, with nothing kept.
 */
const LOGS = [
  { events: 500, how: 'whole', limits: [] },
  { events: EVENTS, how: 'kept', limits: [{ kind: 'ratio', most: 2 }] },
  { events: EVENTS, how: 'whole', limits: [] },
] as const;
type Log = (typeof LOGS)[number];

export const coldStartBench: Bench<Ground> = {
  name: 'coldStart',
  parts: LOGS.map((log) => ({
    what: wordsOf(log),
    run: async (ground) => [await rowFor(ground, log)],
  })),
};

async function rowFor({ appDir, counterDir }: Ground, log: Log) {
  const app = await serveDist({ dir: appDir });
  const counter = await serveDist({ dir: counterDir });
  const profileDir = makeTempDir('cold');
  try {
    const wanted = await fill(profileDir, app, counter, appDir, log);
    await app.stop();
    await counter.stop();
    const starts = { app: { url: app.url, wanted }, counter: counterStart(counter) };
    return rowOf(await startInTurns(profileDir, starts), log);
  } finally {
    removeDir(profileDir);
  }
}

function wordsOf({ events, how }: Log): string {
  const first = how === 'whole' && events === EVENTS ? ', the first of a new version' : '';
  return `cold start offline to the bench at the right pick, ${events.toLocaleString('en')} events logged${first}`;
}

function rowOf(times: Times, log: Log) {
  return {
    what: wordsOf(log),
    unit: 'ms',
    ours: spreadOf(times.app),
    floor: { what: 'cold start offline of an empty Preact app', spread: spreadOf(times.counter) },
    limits: log.limits,
  } as const;
}

/** Visits both once and fills the app's log; answers what its bench must show from now on. */
async function fill(
  profileDir: string,
  app: Server,
  counter: Server,
  appDir: string,
  { events: most, how }: Log,
): Promise<Wanted> {
  const woven = wovenUntil(largePlan(), (_, events) => events >= most);
  const { page, close } = await openChromium({ ...TABLET, profileDir });
  try {
    await install(page, counter.url);
    await install(page, app.url);
    await seedApp(page, appDir, woven);
    if (how === 'kept') await keepFolded(page, app.url);
  } finally {
    await close();
  }
  return benchShows(woven);
}

/** Until the app has kept the log folded, as it does in a quiet moment. */
async function keepFolded(page: Page, url: string): Promise<void> {
  await page.goto(url);
  const isKept = () =>
    page.evaluate(async () => {
      const known = await indexedDB.databases();
      if (!known.some(({ name }) => name === 'fellmark-fold')) return false;
      return new Promise<boolean>((resolve) => {
        const opening = indexedDB.open('fellmark-fold');
        opening.onerror = () => resolve(false);
        opening.onsuccess = () => {
          const asking = opening.result.transaction('fold').objectStore('fold').count();
          asking.onsuccess = () => resolve(asking.result > 0);
          opening.result.close();
        };
      });
    });
  if (!(await waitUntil(isKept, 60_000)))
    throw new Error('keepFolded: the log was not kept folded');
}

function counterStart({ url }: Server): Start {
  return { url, wanted: [['#count', '0']] };
}

interface Times {
  readonly app: readonly number[];
  readonly counter: readonly number[];
}

async function startInTurns(
  profileDir: string,
  starts: Readonly<Record<keyof Times, Start>>,
): Promise<Times> {
  const times = { app: [] as number[], counter: [] as number[] };
  for (let turn = 0; turn < WARM_UP + STARTS; turn++) {
    for (const name of ['counter', 'app'] as const) {
      const time = await startOnce(profileDir, starts[name]);
      if (turn >= WARM_UP) times[name].push(time);
    }
  }
  return times;
}

/** Milliseconds from the navigation to the painted screen, in a browser just started. */
async function startOnce(profileDir: string, { url, wanted }: Start): Promise<number> {
  const { page, close } = await openChromium({ ...TABLET, profileDir });
  try {
    await page.addInitScript(watchStart, wanted);
    await page.goto(url);
    const shown = () => page.evaluate(() => window.benchShown !== undefined);
    if (!(await waitUntil(shown, 20_000))) throw new Error(await missing(page, wanted));
    return await page.evaluate(() => window.benchShown ?? Number.NaN);
  } finally {
    await close();
  }
}

async function missing(page: Page, wanted: Wanted): Promise<string> {
  const shown = await page.evaluate(() => (document.body.textContent ?? '').slice(0, 300));
  return `startOnce: wanted ${JSON.stringify(wanted)}, got ${JSON.stringify(shown)}`;
}
