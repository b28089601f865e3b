/** From the tap to the painted frame and to the disk, app and floors in turns in one Chromium. */
import type { BrowserContext, Page } from 'playwright-core';
import { openChromium, serveDist } from '../../browser/harness.ts';
import { largePlan } from '../core/layPlan.ts';
import type { Ground } from '../ground.ts';
import { type TapProbe, type TapTimes, watchTaps } from '../pages/probe.ts';
import { type Bench, type Limit, type Row, spreadOf } from '../row.ts';
import { wovenUntil } from '../samples.ts';
import { type Server, SLOWER, TABLET, throttle } from './browser.ts';
import { openBench, TAPS, TURNS, tapTurn } from './tapping.ts';

const PICK = 2_000;
interface Servers {
  readonly app: Server;
  /** The app again at an address of its own, in a browser without a private file system. */
  readonly lone: Server;
  readonly counter: Server;
  readonly put: Server;
}

interface Pages {
  readonly app: Page;
  readonly lone: Page;
  readonly counter: Page;
  readonly put: Page;
}

type Times = Readonly<Record<keyof Pages, readonly TapTimes[]>>;

export const tapBench: Bench<Ground> = {
  name: 'tap',
  parts: [{ what: 'tap to painted and saved', run: tapRows }],
};

async function tapRows({ appDir, counterDir, putDir }: Ground): Promise<readonly Row[]> {
  const servers: Servers = {
    app: await serveDist({ dir: appDir }),
    lone: await serveDist({ dir: appDir }),
    counter: await serveDist({ dir: counterDir }),
    put: await serveDist({ dir: putDir }),
  };
  const browser = await openChromium(TABLET);
  try {
    const pages = await openPages(browser.context, browser.page, servers, appDir);
    const fast = await tapInTurns(pages, ['app', 'lone', 'counter', 'put'], 1);
    const slow = await tapInTurns(pages, ['app', 'counter'], SLOWER);
    const saving = await pages.put.evaluate((times) => window.benchSaving(times), TAPS * TURNS);
    return [
      paintedRow('', fast, [{ kind: 'ratio', most: 1.5 }]),
      paintedRow(`, CPU ${SLOWER} × slower`, slow, [{ kind: 'p95', most: 50 }]),
      partRow('work of the page in it, without the wait for a frame', slow, 'worked'),
      partRow('touch to its first listener, before any of it', slow, 'delay'),
      savedRow(fast),
      secondCopyRow(fast),
      savingRow(saving),
    ];
  } finally {
    await browser.close();
    for (const server of Object.values(servers)) await server.stop();
  }
}

function paintedRow(how: string, { app, counter }: Times, limits: readonly Limit[]): Row {
  const painted = (times: readonly TapTimes[]) => times.flatMap((it) => it.painted ?? []);
  return {
    what: `tap to painted bench at pick ${PICK.toLocaleString('en')} of a 20-piece warp${how}`,
    unit: 'ms',
    ours: spreadOf(painted(app)),
    floor: { what: 'tap to painted empty Preact counter', spread: spreadOf(painted(counter)) },
    limits,
  };
}

/**
 * What lies within or before the painted frame. A frame is waited for up to 16 ms, by chance; the
 * delay is the browser's own, unless a page is too busy to listen.
 */
function partRow(part: string, { app, counter }: Times, name: 'worked' | 'delay'): Row {
  const taken = (times: readonly TapTimes[]) => times.flatMap((it) => it[name] ?? []);
  return {
    what: `${part}, CPU ${SLOWER} × slower`,
    unit: 'ms',
    ours: spreadOf(taken(app)),
    floor: { what: 'the same in the counter', spread: spreadOf(taken(counter)) },
    limits: [],
  };
}

function savedRow({ app, put }: Times): Row {
  const saved = (times: readonly TapTimes[]) => times.flatMap((it) => it.saved ?? []);
  return {
    what: 'tap to saved (strict commit acknowledged)',
    unit: 'ms',
    ours: spreadOf(saved(app)),
    floor: { what: 'tap to bare idb put, strict, same record', spread: spreadOf(saved(put)) },
    limits: [{ kind: 'ratio', most: 1.5 }],
  };
}

/** What the journal beside the database costs a tap. */
function secondCopyRow({ app, lone }: Times): Row {
  const saved = (times: readonly TapTimes[]) => times.flatMap((it) => it.saved ?? []);
  return {
    what: 'tap to saved in both copies of the log',
    unit: 'ms',
    ours: spreadOf(saved(app)),
    floor: { what: 'the same app with the database alone', spread: spreadOf(saved(lone)) },
    limits: [],
  };
}

/** What of it is the store's own: no tap, no screen, nothing else for the page to do. */
function savingRow({ append, put }: Awaited<ReturnType<Window['benchSaving']>>): Row {
  return {
    what: 'the same event appended to the store, without a tap or a screen',
    unit: 'ms',
    ours: spreadOf(append),
    floor: { what: 'the same bare put, without a tap', spread: spreadOf(put) },
    limits: [],
  };
}

async function openPages(
  context: BrowserContext,
  app: Page,
  servers: Servers,
  appDir: string,
): Promise<Pages> {
  const lone = await context.newPage();
  await lone.addInitScript('delete StorageManager.prototype.getDirectory;');
  const woven = wovenUntil(largePlan(), ({ pick }) => pick >= PICK);
  await openBench(app, servers.app.url, appDir, woven);
  await openBench(lone, servers.lone.url, appDir, woven);
  const [counter, put] = [await context.newPage(), await context.newPage()];
  await counter.goto(servers.counter.url);
  await put.goto(servers.put.url);
  const probes: readonly (readonly [Page, TapProbe])[] = [
    [app, { shows: '.call', saves: true }],
    [lone, { shows: '.call', saves: true }],
    [counter, { shows: '#count', saves: false }],
    [put, { shows: null, saves: true }],
  ];
  for (const [page, probe] of probes) await page.evaluate(watchTaps, probe);
  return { app, lone, counter, put };
}

/** The first turn of each page warms it up and is not counted. */
async function tapInTurns(
  pages: Pages,
  names: readonly (keyof Pages)[],
  rate: number,
): Promise<Times> {
  const times = { app: [], lone: [], counter: [], put: [] } as Record<keyof Pages, TapTimes[]>;
  for (const name of names) await throttle(pages[name], rate);
  for (let turn = 0; turn <= TURNS; turn++) {
    for (const name of names) {
      const taken = await tapTurn(pages[name]);
      if (turn > 0) times[name].push(...taken);
    }
  }
  for (const name of names) await throttle(pages[name], 1);
  return times;
}
