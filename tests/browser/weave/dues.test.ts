import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { openApp } from '../app.ts';
import {
  button,
  dueCard,
  dueTitles,
  readCall,
  scene,
  setBounce,
  throwPicks,
  toWarps,
  weaveDemo,
  weavePlan,
} from '../bench.ts';
import { courseOf, demoPlan, expectedCall } from '../expected.ts';
import { planWeaving, solid } from '../plans.ts';

let page: Page;

beforeAll(async () => {
  const app = await openApp();
  ({ page } = app);
  await weaveDemo(page, 'moss-and-chalk');
  await setBounce(page, 'at once');
  return app.close;
});

const titlesBecome = (titles: readonly string[]) =>
  expect.poll(() => dueTitles(page), { interval: 20 }).toEqual(titles);

async function settle(title: string, name: string): Promise<void> {
  const card = await dueCard(page, title);
  await card.getByRole('button', { name, exact: true }).click();
}

async function expectPick(pick: number, course = courseOf(demoPlan('moss-and-chalk'))) {
  const shown = async () => {
    const { spoken: _, ...call } = await readCall(page);
    return call;
  };
  await expect.poll(shown, { interval: 20 }).toEqual(expectedCall(course, pick));
}

describe('the towels', () => {
  it('begin with the tail, three and a half widths long, on the working side', async () => {
    await titlesBecome(['Leave a tail of 56 in']);
    const card = await dueCard(page, 'Leave a tail of 56 in');
    expect(await card.innerText()).toContain('On the right');
    await card.getByRole('button', { name: 'Done' }).click();
    await titlesBecome([]);
  });

  it('want hemstitching after exactly four picks', async () => {
    await throwPicks(page, 3);
    await expectPick(3);
    expect(await dueTitles(page)).toEqual([]);
    await throwPicks(page, 1);
    await titlesBecome(['Hemstitch the beginning']);
    // 200 ends in groups of four, as the plan has them.
    expect(await page.locator('.due-words').innerText()).toContain('50 groups of 4 ends');
  });

  it('are woven on while a card waits', async () => {
    await throwPicks(page, 2);
    await scene(page).click();
    await expectPick(7);
    expect(await dueTitles(page)).toEqual(['Hemstitch the beginning']);
  });

  it('keep what was put off until it is found again and done', async () => {
    await settle('Hemstitch the beginning', 'Later');
    await titlesBecome([]);
    await throwPicks(page, 5);
    await button(page, '1 put off').click();
    const sheet = page.locator('dialog[open]');
    expect(await sheet.locator('strong').allTextContents()).toEqual(['Hemstitch the beginning']);
    expect(await sheet.getByRole('button', { name: 'Later' }).count()).toBe(0);
    await sheet.getByRole('button', { name: 'Stitched' }).click();
    await sheet.waitFor({ state: 'hidden' });
    await expect.poll(() => page.locator('.waiting').count()).toBe(0);
    await expectPick(12);
  });

  it('want the warp advanced when the fell has travelled the weaving depth, and again after that', async () => {
    // 5 in of depth at ten picks an inch are 50 picks; the sum of their spacings may be a hair less.
    const depth = 50;
    await throwPicks(page, depth - 1 - 12);
    await expectPick(depth - 1);
    expect(await dueTitles(page)).toEqual([]);
    await throwPicks(page, 2);
    await settle('Advance the warp', 'Advanced');
    await titlesBecome([]);
    await throwPicks(page, depth - 1);
    await expectPick(2 * depth);
    expect(await dueTitles(page)).toEqual([]);
    await throwPicks(page, 2);
    await settle('Advance the warp', 'Advanced');
    await titlesBecome([]);
    await expectPick(2 * depth + 2);
  });

  it('end with tail, hemstitching, cut yarns and gap, one after the other, then the next tail', async () => {
    await throwPicks(page, 252 - 102);
    await expectPick(252);
    await settle('Leave a tail of 56 in', 'Done');
    await settle('Hemstitch the ending', 'Stitched');
    await settle('Cut the yarns', 'Cut');
    // 1½ in fringe each, with what relaxing and washing will take.
    await settle('Leave a gap of 3⅜ in', 'Done');
    await settle('Leave a tail of 56 in', 'Done');
    await settle('Advance the warp', 'Advanced');
    await titlesBecome([]);
    expect(await page.locator('.weave-head h1').textContent()).toContain('2 of 2');
    await throwPicks(page, 4);
    await titlesBecome(['Hemstitch the beginning']);
    await expectPick(256);
  });

  it('ask to hemstitch before the warp is advanced, where both are due', async () => {
    await throwPicks(page, 50);
    const card = page.locator('.dues > .due');
    await expect.poll(() => card.innerText()).toContain('+1 more');
    await settle('Hemstitch the beginning', 'Stitched');
    await titlesBecome(['Advance the warp']);
  });
});

describe('a piece that ends away from the working side', () => {
  const plan = planWeaving('Odd ending', [solid('A', 4), solid('B', 5)], [solid('A', 6)]);

  it('is offered one pick more, of the last yarn, and then ends on it', async () => {
    await weavePlan(page, plan);
    await throwPicks(page, 4);
    await settle('Hemstitch the beginning', 'Stitched');
    await throwPicks(page, 5);
    const card = await dueCard(page, 'Leave a tail of 56 in');
    expect(await card.innerText()).toContain('It falls on the left, away from your working side.');
    await card.getByRole('button', { name: 'One pick more' }).click();
    await expect.poll(async () => (await readCall(page)).of).toBe(6);
    const { letter, pick, from } = await readCall(page);
    expect({ letter, pick, from }).toEqual({ letter: 'B', pick: 6, from: 'left' });
    await throwPicks(page, 1);
    await expect.poll(() => card.innerText()).toContain('On the right, then cut the yarn.');
    expect(await page.getByRole('button', { name: 'One pick more' }).count()).toBe(0);
  });

  it('is offered it no more once the next piece has begun', async () => {
    await weavePlan(page, { ...plan, name: 'Odd ending again' });
    await throwPicks(page, 10);
    expect(await page.getByRole('button', { name: 'One pick more' }).count()).toBe(0);
  });
});

describe('the runners', () => {
  const course = courseOf(demoPlan('ink-oat-ochre'));

  it('begin with the hem in its own yarn, and say where it ends', async () => {
    await weaveDemo(page, 'ink-oat-ochre');
    await titlesBecome(['Hem in fine oat']);
    await settle('Hem in fine oat', 'Done');
    await throwPicks(page, 31);
    await expectPick(31, course);
    expect(await dueTitles(page)).toEqual([]);
    await throwPicks(page, 1);
    await titlesBecome(['The hem is woven']);
    await settle('The hem is woven', 'Seen');
  });

  it('say at the first change of the one and one that the edge end is not caught', async () => {
    await throwPicks(page, 156 - 32);
    await expectPick(156, course);
    await settle('Advance the warp', 'Advanced');
    expect(await dueTitles(page)).toEqual([]);
    await throwPicks(page, 1);
    await titlesBecome(['The edge end is not caught']);
    expect(await page.locator('.call-hand').textContent()).toContain('Lock the edge end.');
    await settle('The edge end is not caught', 'Seen');
    await titlesBecome([]);
  });

  it('let a note go by itself once it is too late for it', async () => {
    await throwPicks(page, 24);
    await titlesBecome(['The edge end is not caught']);
    await throwPicks(page, 68);
    await expectPick(249, course);
    expect(await dueTitles(page)).not.toContain('The edge end is not caught');
  });
});

describe('the last piece', () => {
  it('once cut off stands among the warps that are done', async () => {
    await weavePlan(page, planWeaving('Short', [solid('A', 6)]));
    await throwPicks(page, 6);
    await settle('Leave a tail of 56 in', 'Done');
    await settle('Hemstitch the ending', 'Stitched');
    await settle('All pieces are woven', 'Cut off');
    await page.locator('.call-name', { hasText: 'Cut off the loom' }).waitFor();
    // Of the weaving nothing is due any more; the warp's own figures are asked for once.
    await dueCard(page, 'The warp’s own figures');
    expect(await dueTitles(page)).toEqual(['The warp’s own figures']);
    await toWarps(page);
    const done = page
      .locator('.warps-group')
      .filter({ has: page.locator('h2', { hasText: 'Done' }) });
    expect(await done.locator('h3').allTextContents()).toEqual(['Short']);
  });
});
