// Two windows of one app in a real browser: one writes, the other follows, and either can take over.
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { LogEvent } from '../../../src/core/bench/events.ts';
import {
  button,
  firstVisit,
  readCall,
  saved,
  setBounce,
  storedEvents,
  weavePlan,
} from '../bench.ts';
import { courseOf, expectedCall } from '../expected.ts';
import { type ChromiumHandle, openChromium, serveDist } from '../harness.ts';
import { planWeaving, solid } from '../plans.ts';

const plan = planWeaving('Two windows', [
  {
    kind: 'repeat',
    times: 300,
    of: Array.from({ length: 5 }, (_, i) => solid('ABC'.charAt(i % 3), 4 + i)),
  },
]);
const course = courseOf(plan);

let server: Awaited<ReturnType<typeof serveDist>>;
let browser: ChromiumHandle;
let first: Page;
let second: Page;

beforeAll(async () => {
  server = await serveDist();
  browser = await openChromium();
  first = browser.page;
  await firstVisit(first, server.url);
  await weavePlan(first, plan);
  await setBounce(first, 'at once');
  await saved(first);
  second = await browser.context.newPage();
  await second.goto(server.url);
  await second.locator('.scene').waitFor();
});

afterAll(async () => {
  await browser.close();
  await server.stop();
});

/** Throws by the keys inside the page, so that a hidden window hears them too. */
async function tap(page: Page, times: number): Promise<void> {
  await page.evaluate(async (count) => {
    for (let i = 0; i < count; i += 1) {
      for (const type of ['keydown', 'keyup']) {
        dispatchEvent(new KeyboardEvent(type, { key: 'PageDown', cancelable: true }));
      }
      await new Promise((resolve) => setTimeout(resolve));
    }
  }, times);
}

async function stands(page: Page, picks: number): Promise<void> {
  const shown = async () => {
    const { spoken: _, ...call } = await readCall(page);
    return call;
  };
  await expect.poll(shown, { timeout: 20_000 }).toEqual(expectedCall(course, picks));
}

const followBar = (page: Page) => page.locator('.bar.follow');

it('the second window opens at the same pick, says that it follows, and follows every tap', async () => {
  await followBar(second).waitFor();
  expect(await followBar(first).count()).toBe(0);
  for (let picks = 1; picks <= 12; picks += 1) {
    await tap(first, 1);
    await stands(second, picks);
  }
  await stands(first, 12);
});

it('one tap takes over within two seconds; then the first one follows', async () => {
  const from = Date.now();
  await button(second, 'Weave here instead').click();
  await followBar(second).waitFor({ state: 'detached' });
  // Ours; measured from before the click, which itself takes its time.
  expect(Date.now() - from).toBeLessThan(2000);
  await followBar(first).waitFor();
  await tap(second, 3);
  await stands(first, 15);
  await stands(second, 15);
});

it('1,000 taps, now in one window, now in the other: all there, none twice, none before what it follows', async () => {
  const before = (await storedEvents(first)).length;
  let left = 1000;
  for (let turn = 0; left > 0; turn += 1) {
    const burst = Math.min(left, 1 + ((turn * 7) % 23));
    left -= burst;
    // Not waited for: the hand goes over while the other window still writes.
    await tap(turn % 2 === 0 ? first : second, burst);
  }
  await Promise.all([saved(first), saved(second)]);
  const total = before + 1000;
  await expect
    .poll(async () => (await storedEvents(first)).length, { timeout: 60_000 })
    .toBe(total);
  const events = await storedEvents(first);
  expect(new Set(events.map(({ id }) => id)).size).toBe(total);
  // A window from which the pen was seized, because it was slow, did not know the last of the other.
  const placeOf = new Map(events.map(({ id }, n) => [id, n]));
  const isAhead = ({ after }: LogEvent, n: number) =>
    after !== null && (placeOf.get(after) ?? total) >= n;
  expect(events.filter(isAhead)).toEqual([]);
  await stands(first, 1015);
  await stands(second, 1015);
});

it('a window closed in the middle of its writing leaves the pen to the other', async () => {
  await tap(second, 4);
  await stands(second, 1019);
  await saved(second);
  await second.close();
  await tap(first, 5);
  await saved(first);
  await stands(first, 1024);
  expect(await followBar(first).count()).toBe(0);
});
