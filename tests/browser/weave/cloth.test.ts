// The cloth on the bench: each pick is painted before it is thrown, and must look as if it had not been.
import type { Page } from 'playwright-core';
import { beforeAll, expect, it } from 'vitest';
import { openApp } from '../app.ts';
import { saved, scene, setBounce, weaveDemo } from '../bench.ts';

let page: Page;

beforeAll(async () => {
  const app = await openApp({ reducedMotion: 'reduce' });
  page = app.page;
  await weaveDemo(page, 'ink-oat-ochre');
  await setBounce(page, 'at once');
  return app.close;
});

/** Long enough for the beat and the quiet moment after it, in which the next pick is painted. */
const aMoment = () => page.waitForTimeout(400);

/** The scene as it is seen. */
async function glance(): Promise<string> {
  await saved(page);
  await aMoment();
  const box = await scene(page).boundingBox();
  if (box === null) throw new Error('got no scene');
  return (await page.screenshot({ clip: box })).toString('base64');
}

/** The same once it has come to rest. */
async function look(): Promise<string> {
  let before = await glance();
  for (let again = 0; again < 20; again++) {
    const now = await glance();
    if (now === before) return now;
    before = now;
  }
  throw new Error('the scene never came to rest');
}

/** Becomes it: what is painted behind the first frame of a bench comes a while after it. */
const looksLike = (wanted: string) => expect.poll(glance, { timeout: 20_000 }).toBe(wanted);

async function weave(picks: number): Promise<void> {
  for (let pick = 0; pick < picks; pick++) {
    await page.keyboard.press('PageDown');
    await aMoment();
  }
}

it.each([
  { what: 'in one colour', picks: 6 },
  { what: 'over more than a tile of it', picks: 30 },
])('looks woven pick by pick as it does anew, $what', async ({ picks }) => {
  await weave(picks);
  const before = await look();
  await page.reload();
  await looksLike(before);
});

it('looks after an undo as it did before the pick', async () => {
  const before = await look();
  await weave(1);
  expect(await look()).not.toBe(before);
  await page.keyboard.press('PageUp');
  await looksLike(before);
});
