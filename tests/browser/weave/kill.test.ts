import { isDeepStrictEqual } from 'node:util';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { progressOf } from '../../../src/core/bench/progress.ts';
import {
  button,
  dueTitles,
  firstVisit,
  readCall,
  saved,
  scene,
  setBounce,
  storedEvents,
  throwPicks,
  weaveDemo,
} from '../bench.ts';
import { chances } from '../durable/killing.ts';
import { LEAN, makeProfileDir } from '../durable/profile.ts';
import { courseOf, demoPlan, expectedCall } from '../expected.ts';
import { type ChromiumHandle, kill9, openChromium, removeDir, serveDist } from '../harness.ts';

const ROUNDS = 6;
const SEED = 20_240_611;

const plan = demoPlan('moss-and-chalk');
const course = courseOf(plan);
const profileDir = makeProfileDir('bench-kill');
let url = '';
let browser: ChromiumHandle;

beforeAll(async () => {
  const server = await serveDist();
  url = server.url;
  browser = await openChromium({ profileDir, args: LEAN });
  await firstVisit(browser.page, url);
  await weaveDemo(browser.page, 'moss-and-chalk');
  await setBounce(browser.page, 'at once');
  await server.stop();
});

afterAll(async () => {
  await browser.close();
  removeDir(profileDir);
});

it(`after each of ${ROUNDS} kills the bench opens without a question, at a pick no acknowledged tap is missing from`, async () => {
  const random = chances(SEED);
  const pickOnDisk = async () => progressOf(plan, await storedEvents(browser.page)).pick;
  let least = 0;
  let most = 0;
  for (let round = 0; round < ROUNDS; round++) {
    const note = `round ${round} of seed ${SEED}`;
    const acknowledged = 1 + Math.floor(random() * 30);
    const unacknowledged = Math.floor(random() * 4);
    await throwPicks(browser.page, acknowledged);
    await saved(browser.page);
    const woven = await pickOnDisk();
    expect(woven, note).toBeGreaterThanOrEqual(least + acknowledged);
    expect(woven, note).toBeLessThanOrEqual(most + acknowledged);
    least = woven;
    most = woven + unacknowledged;
    await throwPicks(browser.page, unacknowledged);
    await kill9(browser);

    browser = await openChromium({ profileDir, args: LEAN });
    const { page } = browser;
    await page.goto(url);
    await scene(page).waitFor();
    expect(await page.locator('dialog').count(), note).toBe(0);

    // A tap that was not acknowledged may come back from the journal a moment after the start.
    let pick = -1;
    const isAtItsPick = async () => {
      pick = await pickOnDisk();
      const { spoken: _, ...shown } = await readCall(page);
      return isDeepStrictEqual(shown, expectedCall(course, pick));
    };
    await expect.poll(isAtItsPick, { message: note }).toBe(true);
    expect(pick, note).toBeGreaterThanOrEqual(least);
    expect(pick, note).toBeLessThanOrEqual(most);
  }
});

it('what was settled before a kill stays settled, and what was put off stays put off', async () => {
  expect(await dueTitles(browser.page)).toEqual(['Hemstitch the beginning']);
  await button(browser.page, 'Later').click();
  await expect.poll(() => dueTitles(browser.page)).not.toContain('Hemstitch the beginning');
  const titles = await dueTitles(browser.page);
  await saved(browser.page);
  await kill9(browser);
  browser = await openChromium({ profileDir, args: LEAN });
  await browser.page.goto(url);
  await scene(browser.page).waitFor();
  await expect.poll(() => dueTitles(browser.page)).toEqual(titles);
});
