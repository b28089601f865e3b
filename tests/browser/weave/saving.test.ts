import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { progressOf } from '../../../src/core/bench/progress.ts';
import {
  button,
  readCall,
  saved,
  scene,
  setBounce,
  storedEvents,
  throwPicks,
  toWarps,
  weaveDemo,
} from '../bench.ts';
import { courseOf, demoPlan, expectedCall } from '../expected.ts';
import { openVisitor, serveDist, type Visitor } from '../harness.ts';

const plan = demoPlan('moss-and-chalk');
const course = courseOf(plan);

/** While `window.full` is true, no event fits on the disk any more. */
const FULL_DISK = `{
  const add = IDBObjectStore.prototype.add;
  IDBObjectStore.prototype.add = function (...given) {
    if (this.name === 'events' && window.full) {
      throw new DOMException('no room', 'QuotaExceededError');
    }
    return add.apply(this, given);
  };
}`;

/** A browser that keeps nothing, as some private windows are. */
const NO_STORE = `Object.defineProperty(window, 'indexedDB', { value: undefined });`;

/** Notes in `window.asked` the pick that stood in the call whenever a write of an event was begun. */
const ASKED = `{
  window.asked = [];
  const begin = IDBDatabase.prototype.transaction;
  IDBDatabase.prototype.transaction = function (...given) {
    const isOfEvents = given[1] === 'readwrite' && given[0].includes('events');
    if (isOfEvents) window.asked.push(document.querySelector('.call-pick')?.textContent);
    return begin.apply(this, given);
  };
}`;

let server: Awaited<ReturnType<typeof serveDist>>;
let browser: Visitor;

beforeAll(async () => {
  server = await serveDist();
  browser = await openVisitor({ serviceWorkers: 'block' });
});

afterAll(async () => {
  await browser.close();
  await server.stop();
});

async function openWith(script: string): Promise<Page> {
  const page = await browser.context.newPage();
  await page.addInitScript(script);
  await page.goto(server.url);
  await weaveDemo(page, 'moss-and-chalk');
  await setBounce(page, 'at once');
  return page;
}

const isSaved = async (page: Page) =>
  (await page.locator('.saved').getAttribute('data-saved')) === 'true';

it('with a full disk the count goes on, the bar says what is wrong, and nothing says “saved”', async () => {
  const page = await openWith(FULL_DISK);
  await throwPicks(page, 3);
  await saved(page);
  await page.evaluate('window.full = true');
  await throwPicks(page, 5);
  await page.getByRole('alert').waitFor();
  expect(await page.getByRole('alert').textContent()).toContain('no room left');
  expect((await readCall(page)).pick).toBe(9);
  expect(await isSaved(page)).toBe(false);
  // The bar does not push what the hand needs off the screen.
  const more = await button(page, 'More').boundingBox();
  expect((more?.y ?? 0) + (more?.height ?? 0)).toBeLessThanOrEqual(820);

  await page.evaluate('window.full = false');
  await throwPicks(page, 1);
  await saved(page);
  expect(await page.getByRole('alert').count()).toBe(0);
  const events = await storedEvents(page);
  expect(progressOf(plan, events).pick).toBe(9);
  expect(events.map((event) => event.after)).toEqual([
    null,
    ...events.slice(0, -1).map((it) => it.id),
  ]);
  await page.reload();
  await scene(page).waitFor();
  const { spoken: _, ...shown } = await readCall(page);
  expect(shown).toEqual(expectedCall(course, 9));
  await toWarps(page);
  await page.close();
});

it('in a browser that keeps nothing the bar stays, and nothing ever says “saved”', async () => {
  const page = await openWith(NO_STORE);
  await throwPicks(page, 4);
  await expect.poll(async () => (await readCall(page)).pick).toBe(5);
  expect(await page.getByRole('alert').textContent()).toContain('refuses to store anything');
  expect(await isSaved(page)).toBe(false);
  await toWarps(page);
  await button(page, 'Go on').click();
  await scene(page).waitFor();
  expect((await readCall(page)).pick).toBe(5);
  expect(await page.getByRole('alert').count()).toBe(1);
  await page.close();
});

it('a tap is asked of the disk before the bench is drawn, and both are done in its own turn', async () => {
  const page = await openWith(ASKED);
  await throwPicks(page, 1);
  await saved(page);
  await page.evaluate('window.asked = []');
  const turn = () =>
    page.evaluate(() => {
      document.querySelector<HTMLElement>('.scene')?.click();
      return new Promise((resolve) => {
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = () => resolve(document.querySelector('.call-pick')?.textContent);
        port2.postMessage(null);
      });
    });
  expect(await turn()).toBe('3');
  expect(await page.evaluate('window.asked')).toEqual(['2']);
  await page.close();
});
