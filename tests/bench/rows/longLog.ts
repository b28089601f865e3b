/** A tap at the end of a long log beside one at the end of a short one: in time and in bytes written. */
import { existsSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import type { Page } from 'playwright-core';
import { type ChromiumHandle, openChromium, serveDist } from '../../browser/harness.ts';
import { EVENTS } from '../core/foldLog.ts';
import { largePlan } from '../core/layPlan.ts';
import type { Ground } from '../ground.ts';
import { type TapTimes, watchTaps } from '../pages/probe.ts';
import { type Bench, type Limit, type Row, spreadOf, type Unit } from '../row.ts';
import { wovenUntil } from '../samples.ts';
import { type Server, TABLET } from './browser.ts';
import { openBench, tapTurn } from './tapping.ts';

const SIZES = [EVENTS, EVENTS / 10, EVENTS / 100] as const;
const SHORTEST = EVENTS / 100;
const TURNS = 8;
/** A while after its start the app compares its two copies: what was put into one it writes into the other. */
const CHECK_MS = 12_000;
/** The first tap waits for that. */
const MENDING_MS = 120_000;

export const longLogBench: Bench<Ground> = {
  name: 'longLog',
  parts: [{ what: 'a tap at the end of a long log', run: longLogRows }],
};

/** The app at one address of its own, so that its files can be told from the others'. */
interface App {
  readonly events: number;
  readonly page: Page;
  readonly server: Server;
  readonly browser: ChromiumHandle;
}

interface Taken {
  readonly times: TapTimes[];
  /** Bytes on the disk a turn of taps added. */
  readonly bytes: number[];
}

async function longLogRows({ appDir }: Ground): Promise<readonly Row[]> {
  const apps: App[] = [];
  try {
    for (const events of SIZES) apps.push(await openAt(appDir, events));
    const taken = await tapInTurns(apps);
    return SIZES.filter((events) => events > SHORTEST).flatMap((events) => rowsOf(events, taken));
  } finally {
    for (const { browser, server } of apps) {
      await browser.close();
      await server.stop();
    }
  }
}

async function openAt(appDir: string, events: number): Promise<App> {
  const server = await serveDist({ dir: appDir });
  const browser = await openChromium(TABLET);
  const { page } = browser;
  const woven = wovenUntil(largePlan(), (_, logged) => logged >= events);
  await openBench(page, server.url, appDir, woven);
  await page.evaluate(watchTaps, { shows: '.call', saves: true });
  return { events, page, server, browser };
}

/** A first turn of each warms it up and is not counted. */
async function tapInTurns(apps: readonly App[]): Promise<ReadonlyMap<number, Taken>> {
  const taken = new Map<number, Taken>(
    apps.map(({ events }) => [events, { times: [], bytes: [] }]),
  );
  await sleep(CHECK_MS);
  for (let turn = 0; turn <= TURNS; turn++) {
    for (const { events, page, browser } of apps) {
      const before = writtenIn(browser.profileDir);
      const times = await tapTurn(page, turn === 0 ? MENDING_MS : undefined);
      if (turn === 0) continue;
      taken.get(events)?.times.push(...times);
      taken.get(events)?.bytes.push((writtenIn(browser.profileDir) - before) / times.length);
    }
  }
  return taken;
}

/** Bytes of the database's own log and of the private file system: both are only ever added to by a tap. */
function writtenIn(profileDir: string): number {
  const here = join(profileDir, 'Default');
  const logs = filesIn(join(here, 'IndexedDB')).filter((path) => path.endsWith('.log'));
  const journal = filesIn(join(here, 'File System')).filter((path) => /\d{8}$/.test(path));
  return [...logs, ...journal].reduce((sum, path) => sum + statSync(path).size, 0);
}

function filesIn(dir: string): readonly string[] {
  if (!existsSync(dir)) return [];
  return readdirSync(dir, { withFileTypes: true, recursive: true })
    .filter((it) => it.isFile())
    .map((it) => join(it.parentPath, it.name));
}

const SAME = [{ kind: 'ratio', most: 1.2 }] as const;

function rowsOf(events: number, taken: ReadonlyMap<number, Taken>): readonly Row[] {
  const [long, short] = [taken.get(events), taken.get(SHORTEST)];
  if (long === undefined || short === undefined) throw new Error(`rowsOf: got no log of ${events}`);
  const row = (
    what: string,
    unit: Unit,
    limits: readonly Limit[],
    of: (it: Taken) => readonly number[],
  ): Row => ({
    what: `${what} at the end of ${events.toLocaleString('en')} events`,
    unit,
    ours: spreadOf(of(long)),
    floor: {
      what: `the same at the end of ${SHORTEST.toLocaleString('en')}`,
      spread: spreadOf(of(short)),
    },
    limits,
  });
  return [
    row('tap to saved', 'ms', SAME, ({ times }) => times.flatMap((it) => it.saved ?? [])),
    row('work of the page for a tap', 'ms', SAME, ({ times }) =>
      times.flatMap((it) => it.worked ?? []),
    ),
    row('bytes a tap writes', 'bytes', [{ kind: 'ratio', most: 1.02 }], ({ bytes }) => bytes),
  ];
}
