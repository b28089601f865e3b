// A warp woven by eye from the first touch to the last piece, by touch, through reloads and a kill.
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { FreeBlock } from '../../../src/core/plan/plan.ts';
import {
  button,
  closed,
  dueCard,
  dueTitles,
  firstVisit,
  openMore,
  readBench,
  readCall,
  saved,
  scene,
  setBounce,
  storedEvents,
  toWarps,
  undoTimes,
  weavePlan,
} from '../bench.ts';
import {
  byEyeEntry,
  clothOf,
  expectAsLogged,
  planByEye,
  storedProgress,
  tapYarns,
  yarnButton,
} from '../eye.ts';
import {
  type ChromiumHandle,
  kill9,
  makeTempDir,
  openChromium,
  removeDir,
  serveDist,
} from '../harness.ts';
import { solid } from '../plans.ts';

const FREE: FreeBlock = { kind: 'free' };
const profileDir = makeTempDir('by-eye');
let server: Awaited<ReturnType<typeof serveDist>>;
let browser: ChromiumHandle;
let page: Page;

const launch = async () => {
  browser = await openChromium({ profileDir, hasTouch: true });
  page = browser.page;
};

beforeAll(async () => {
  server = await serveDist();
  await launch();
  await firstVisit(page, server.url);
});

afterAll(async () => {
  await browser.close();
  await server.stop();
  removeDir(profileDir);
});

/** The cloth on the disk, once everything is there. */
async function cloth(): Promise<string> {
  await saved(page);
  return clothOf(await storedProgress(page));
}

const expectCloth = (letters: string) => expect.poll(cloth).toBe(letters);

/** Settles every card that is open, the one with this title last of all. */
async function settleUpTo(title: string): Promise<void> {
  for (let i = 0; i < 8; i++) {
    const [first] = await dueTitles(page);
    if (first === undefined) return;
    await page.locator('.weave-foot .dues .due-buttons .strong').tap();
    await expect.poll(async () => (await dueTitles(page))[0]).not.toBe(first);
    if (first.includes(title)) return;
  }
}

describe('a warp without a plan', () => {
  it('asks only for the warp, and stands on the bench at once', async () => {
    await button(page, 'Weave by eye').tap();
    await page.getByLabel('Name', { exact: true }).fill('Cushion backs');
    await button(page, 'Add a yarn').tap();
    await page.getByRole('button', { name: 'Pieces: more' }).tap();
    await button(page, 'hemstitched, with a fringe').tap();
    await button(page, 'Weave').tap();
    await yarnButton(page, 'C').waitFor();
    const { course } = await waitForPlan();
    expect(course.plan.pieces.map((piece) => piece.weft[0]?.kind)).toEqual(['free', 'free']);
    expect(course.plan.yarns.map((yarn) => yarn.letter)).toEqual(['A', 'B', 'C']);
    expect(course.plan.name).toBe('Cushion backs');
  });

  it('each tap on a yarn is one pick of it; sheds, sides and shuttles go on as in planned weaving', async () => {
    await setBounce(page, 'at once');
    await dueCard(page, 'Leave a tail');
    await tapYarns(page, 'AABBBC');
    await expectCloth('AABBBC');
    await expectAsLogged(page);
    expect(await readCall(page)).toMatchObject({ letter: 'C', pick: 1 });
    // A rests after two picks while four of others were thrown; B lay three, its edge end not caught.
    expect(await yarnButton(page, 'A').textContent()).toContain('over 4 picks');
  });

  it('throwing area and pedal throw one more of the yarn in hand', async () => {
    await scene(page).tap();
    await page.keyboard.press('PageDown');
    await expectCloth('AABBBCCC');
    await expectAsLogged(page);
  });

  it('a turn of two is one tap, one event and one undo, and stays set', async () => {
    await page.locator('.eye-more').tap();
    await page.locator('dialog[open]').getByRole('button', { name: '2', exact: true }).tap();
    await closed(page);
    await tapYarns(page, 'AB');
    await expectCloth('AABBBCCCAABB');
    expect((await storedEvents(page)).at(-1)).toMatchObject({ kind: 'thrownOf', picks: 2 });
    await button(page, 'Undo').tap();
    await expectCloth('AABBBCCCAA');
  });

  it('undo goes on over a reload, and redo gives back what it took', async () => {
    await page.reload();
    await yarnButton(page, 'A').waitFor();
    expect(await page.locator('.eye-more').textContent()).toContain('2 picks a tap');
    await undoTimes(page, 2);
    await expectCloth('AABBBCC');
    await openMore(page, 'Redo');
    await expectCloth('AABBBCCC');
    await expectAsLogged(page);
  });

  it('a second tap within the bounce is no second turn', async () => {
    await setBounce(page, '1 s');
    await yarnButton(page, 'A').evaluate((it) => {
      (it as HTMLButtonElement).click();
      (it as HTMLButtonElement).click();
    });
    await expectCloth('AABBBCCCAA');
    await setBounce(page, 'at once');
  });

  it('survives a kill and opens offline with every yarn in reach', async () => {
    await tapYarns(page, 'CB');
    const before = await cloth();
    await server.stop();
    await kill9(browser);
    await launch();
    await page.goto(server.url);
    await yarnButton(page, 'C').waitFor();
    expect(await cloth()).toBe(before);
    await expectAsLogged(page);
    await tapYarns(page, 'A');
    await expectCloth(`${before}AA`);
  });

  it('a long solid is logged by its length, shown as estimated, and asks for a look at the loom', async () => {
    const before = await cloth();
    await byEyeEntry(page, 'Log a length');
    await page.locator('dialog[open] .eye-choice', { hasText: 'moss' }).tap();
    await button(page, '2').tap();
    await button(page, 'Count this length').tap();
    await closed(page);
    // Ten picks to the inch are usual: two inches are twenty.
    await expectCloth(`${before}${'B'.repeat(20)}`);
    expect((await readBench(page)).fell).toContain('≈');
    await (await dueCard(page, 'Look at the loom')).getByRole('button', { name: 'Tell' }).tap();
    await page.locator('dialog[open] .place').first().tap();
    await closed(page);
    await expectAsLogged(page);
  });

  it('several picks of one yarn are counted at once', async () => {
    const before = await cloth();
    await byEyeEntry(page, 'Several picks');
    await page.locator('dialog[open] .eye-choice', { hasText: 'rust' }).tap();
    await button(page, '10').tap();
    await button(page, 'Count 10').tap();
    await closed(page);
    await expectCloth(`${before}${'C'.repeat(10)}`);
  });

  it('ended, the piece asks for its tail and hemstitching, and the next one begins by eye', async () => {
    await settleUpTo('never');
    await byEyeEntry(page, 'End the piece here');
    await closed(page);
    expect(await dueTitles(page)).toHaveLength(1);
    await dueCard(page, /Leave a tail/);
    expect((await readBench(page)).piece).toContain('Piece 2 · 2 of 2');
    await undoTimes(page, 1);
    await expect.poll(async () => (await readBench(page)).piece).toContain('1 of 2');
    await openMore(page, 'Redo');
    await settleUpTo('Leave a gap');
    await tapYarns(page, 'CA');
    expect((await cloth()).endsWith('CCAA')).toBe(true);
    await expectAsLogged(page);
  });

  it('once all is woven one piece more goes on the warp that is left', async () => {
    await byEyeEntry(page, 'End the piece here');
    await page.locator('.call-name', { hasText: 'Woven to the end' }).waitFor();
    await openMore(page, 'One piece more');
    await yarnButton(page, 'A').waitFor();
    expect((await readBench(page)).piece).toContain('Piece 3 · 3 of 3');
    await tapYarns(page, 'B');
    expect((await cloth()).endsWith('CCAABB')).toBe(true);
    await byEyeEntry(page, 'End the piece here');
    await page.locator('.call-name', { hasText: 'Woven to the end' }).waitFor();
    await server.start();
  });
});

/** Nothing has happened yet: the plan alone lies on the disk. */
async function waitForPlan() {
  await tapYarns(page, 'A');
  await saved(page);
  const progress = await storedProgress(page);
  await button(page, 'Undo').tap();
  await saved(page);
  return progress;
}

describe('a part by eye in a planned piece', () => {
  const plan = planByEye('Band', [[solid('A', 4), FREE, solid('B', 2)], [solid('C', 2)]]);

  it('is reached by its planned block, and the planned block after it follows its end', async () => {
    await weavePlan(page, plan);
    await setBounce(page, 'at once');
    for (let i = 0; i < 4; i++) await page.keyboard.press('PageDown');
    await yarnButton(page, 'A').waitFor();
    await tapYarns(page, 'C');
    await byEyeEntry(page, 'End this part');
    await closed(page);
    await expect.poll(() => readCall(page)).toMatchObject({ letter: 'B', pick: 1, of: 2 });
    await expectCloth('AAAACC');
  });

  it('can end the piece at once, its planned block left out by one event', async () => {
    await undoTimes(page, 1);
    await yarnButton(page, 'A').waitFor();
    await byEyeEntry(page, 'End the piece here');
    await expect.poll(async () => (await readBench(page)).piece).toContain('Band 2');
    await expectCloth('AAAACC');
    await undoTimes(page, 1);
    await expect.poll(async () => (await readBench(page)).piece).toContain('Band 1');
  });

  it('is ended among the blocks as well, and stands on the Warps screen with what is woven', async () => {
    await openMore(page, 'Blocks');
    const row = page.locator('.block-here', { hasText: 'by eye' });
    expect(await row.textContent()).toContain('2 picks thrown');
    await row.getByRole('button', { name: 'End here' }).tap();
    await page.keyboard.press('Escape');
    await closed(page);
    await expect.poll(() => readCall(page)).toMatchObject({ letter: 'B', of: 2 });
    await undoTimes(page, 1);
    await toWarps(page);
    await page.locator('.warp-tile', { hasText: 'Band 1: by eye, 6 picks' }).waitFor();
  });
});
