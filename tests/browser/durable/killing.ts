// Weaving until the power goes: how a round of it runs, and what must be there afterwards.
import { setTimeout as sleep } from 'node:timers/promises';
import type { Page } from 'playwright-core';
import type { LogEvent } from '../../../src/core/bench/events.ts';
import { progressOf } from '../../../src/core/bench/progress.ts';
import {
  firstVisit,
  readCall,
  saved,
  scene,
  setBounce,
  storedEvents,
  weavePlan,
} from '../bench.ts';
import { courseOf, expectedCall } from '../expected.ts';
import {
  type ChromiumHandle,
  kill9,
  openChromium,
  removeDir,
  serveDist,
  waitUntil,
} from '../harness.ts';
import { planWeaving, solid } from '../plans.ts';
import { copied, LEAN, makeProfileDir } from './profile.ts';

/** Long enough for 200 rounds, with sides and shuttles that tell one pick from another. */
export const plan = planWeaving('Never lost', [
  {
    kind: 'repeat',
    times: 600,
    of: Array.from({ length: 5 }, (_, i) => solid('ABC'.charAt(i % 3), 4 + i)),
  },
]);
const course = courseOf(plan);

/** Milliseconds from the first saved tap of a round to the end of all processes, at most. */
const LONGEST_MS = 900;

/** A profile in which the plan is on the bench, and the address the app was fetched from. */
export interface Ready {
  readonly profileDir: string;
  readonly url: string;
}

/** The server is stopped: from now on the app is all there is, as in a room without a network. */
export async function readyToWeave(): Promise<Ready> {
  const server = await serveDist();
  const profileDir = makeProfileDir('ready');
  const browser = await openChromium({ profileDir, args: LEAN });
  try {
    await firstVisit(browser.page, server.url);
    await weavePlan(browser.page, plan);
    await setBounce(browser.page, 'at once');
    await saved(browser.page);
    return { profileDir, url: server.url };
  } finally {
    await browser.close();
    await server.stop();
  }
}

export interface Killing {
  readonly ready: Ready;
  readonly rounds: number;
  readonly seed: number;
  /** Run in every page before the app: takes a protection out. */
  readonly initScript?: string;
  /** The rounds end when this answers true. */
  readonly isEnough?: (round: Round) => boolean;
}

/** One round: what the weaver was told, and what was found after the kill. */
export interface Round {
  readonly number: number;
  /** Events told to be saved before the kill, in this round and all before it. */
  readonly acknowledged: number;
  /** Taps made: each is told before it is. */
  readonly tapped: number;
  readonly kept: number;
  /** Milliseconds from the start of the navigation to the call on the screen, by the page's clock. */
  readonly shownAfter: number;
  /** The same for an ordinary reload right after it; not in every round. */
  readonly reloadedAfter: number | null;
  /** Everything that is wrong; empty when nothing is. */
  readonly wrong: readonly string[];
}

/** How often it is measured what the machine takes for a start without a kill. */
const RELOAD_EVERY = 4;

export const WHEN_SHOWN = `new MutationObserver((_, watch) => {
  if (document.querySelector('.call-pick') === null) return;
  window.shownAfter = performance.now();
  watch.disconnect();
}).observe(document, { childList: true, subtree: true });`;

/** Weaves and kills, on a profile of its own; answers every round. */
export async function killRounds(killing: Killing): Promise<readonly Round[]> {
  const profileDir = copied(killing.ready.profileDir);
  const random = chances(killing.seed);
  const rounds: Round[] = [];
  let browser = await open(profileDir, killing);
  try {
    if (!(await opened(browser.page, killing.ready.url))) throw new Error('got no bench');
    let before = 0;
    for (let number = 1; number <= killing.rounds; number += 1) {
      const told = await weaveAndKill(browser, random);
      browser = await open(profileDir, killing);
      const round = await found(browser.page, killing.ready.url, { ...told, number, before });
      rounds.push(round);
      if (killing.isEnough?.(round) === true) break;
      before = round.kept;
    }
    return rounds;
  } finally {
    await browser.close();
    removeDir(profileDir);
  }
}

async function open(profileDir: string, { initScript }: Killing): Promise<ChromiumHandle> {
  const browser = await openChromium({ profileDir, args: LEAN });
  await browser.context.addInitScript(WHEN_SHOWN);
  if (initScript !== undefined) await browser.context.addInitScript(initScript);
  return browser;
}

interface Told {
  readonly tapped: number;
  readonly acknowledged: number;
}

/** Taps at random, as fast as two hands on two pedals, until every process is gone. */
async function weaveAndKill(browser: ChromiumHandle, random: () => number): Promise<Told> {
  const { page } = browser;
  const told = { tapped: 0, acknowledged: 0 };
  await page.exposeFunction('tell', (what: keyof Told, n: number) => {
    told[what] = n;
  });
  await page.evaluate(tapOn, Math.floor(random() * 1_000_000_000));
  await waitUntil(() => told.acknowledged > 0, 10_000);
  await sleep(random() * LONGEST_MS);
  const atKill = { ...told };
  await kill9(browser);
  return { tapped: Math.max(told.tapped, atKill.tapped), acknowledged: atKill.acknowledged };
}

declare global {
  interface Window {
    shownAfter?: number;
    tell: (what: 'tapped' | 'acknowledged', n: number) => Promise<void>;
  }
}

/** In the page: nine throws and one undo in ten taps, 10 to 130 ms apart. */
function tapOn(seed: number): void {
  let state = seed + 1;
  let tapped = 0;
  const chance = () => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
  const mark = document.querySelector<HTMLElement>('.saved');
  const watch = new MutationObserver(() => {
    if (mark?.dataset.saved === 'true') void window.tell('acknowledged', tapped);
  });
  if (mark !== null) watch.observe(mark, { attributes: true });
  const tap = async () => {
    // Heard of before it is made: a kill cannot come between, and nothing unheard can be saved.
    await window.tell('tapped', tapped + 1);
    const key = tapped > 0 && chance() < 0.1 ? 'PageUp' : 'PageDown';
    tapped += 1;
    for (const type of ['keydown', 'keyup']) {
      dispatchEvent(new KeyboardEvent(type, { key, cancelable: true }));
    }
    setTimeout(() => void tap(), 10 + chance() * 120);
  };
  void tap();
}

/** Opens the app again as the weaver would, and looks for everything that could be wrong. */
async function found(
  page: Page,
  url: string,
  round: Told & { readonly number: number; readonly before: number },
): Promise<Round> {
  const wrong: string[] = [];
  const acknowledged = round.before + round.acknowledged;
  const isShown = await opened(page, url);
  if (!isShown) wrong.push('the bench did not come back by itself');
  if ((await page.locator('dialog, [role="alert"]').count()) > 0)
    wrong.push('something was asked or told');
  const events = isShown ? await settledEvents(page) : [];
  if (events.length < acknowledged)
    wrong.push(`${acknowledged - events.length} saved taps are lost`);
  if (events.length > round.before + round.tapped) wrong.push('more than was tapped');
  if (new Set(events.map(({ id }) => id)).size !== events.length)
    wrong.push('an event is there twice');
  wrong.push(...brokenChain(events));
  if (isShown) wrong.push(...(await wrongPlace(page, events)));
  const shownAfter = await timeIn(page);
  const { number, tapped } = round;
  const isToReload = isShown && number % RELOAD_EVERY === 1;
  const reloadedAfter = isToReload && (await opened(page, url)) ? await timeIn(page) : null;
  const kept = events.length;
  return { number, acknowledged, tapped, kept, shownAfter, reloadedAfter, wrong };
}

const timeIn = (page: Page) => page.evaluate(() => window.shownAfter ?? Number.POSITIVE_INFINITY);

async function opened(page: Page, url: string): Promise<boolean> {
  await page.goto(url);
  return scene(page)
    .waitFor({ timeout: 20_000 })
    .then(
      () => true,
      () => false,
    );
}

/** The log, once the copies have been compared and nothing more comes. */
async function settledEvents(page: Page): Promise<readonly LogEvent[]> {
  await page.evaluate('navigator.locks.query().then(() => true)');
  let events = await storedEvents(page);
  await waitUntil(async () => {
    const before = events.length;
    await sleep(150);
    events = await storedEvents(page);
    return events.length === before;
  }, 5_000);
  return events;
}

function brokenChain(events: readonly LogEvent[]): readonly string[] {
  const broken = events.findIndex(({ after }, i) => after !== (events[i - 1]?.id ?? null));
  return broken < 0 ? [] : [`event ${broken} does not follow the one before it`];
}

async function wrongPlace(page: Page, events: readonly LogEvent[]): Promise<readonly string[]> {
  const { pick } = progressOf(plan, events);
  const expected = expectedCall(course, pick);
  const isThere = async () => {
    const { spoken: _, ...shown } = await readCall(page);
    return JSON.stringify(shown) === JSON.stringify(expected);
  };
  return (await waitUntil(isThere, 3_000)) ? [] : [`the bench is not at pick ${pick}`];
}

/** Numbers from 0 to 1 that are the same in every run (Park and Miller's generator, 1988). */
export function chances(seed: number): () => number {
  let state = seed % 2_147_483_647;
  return () => {
    state = (state * 16_807) % 2_147_483_647;
    return state / 2_147_483_647;
  };
}
