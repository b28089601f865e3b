// Warping in a real browser: ticked by tap and by pedal, taken back, resumed, finished.
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import type { Plan } from '../../src/core/plan/plan.ts';
import type { WarpingList, WarpingStep } from '../../src/core/plan/warping/list.ts';
import { usualWay, warpingList } from '../../src/core/plan/warping.ts';
import { sheetOf } from '../../src/core/planner/sheet.ts';
import {
  button,
  chooseFile,
  closed,
  DEMOS,
  type DemoName,
  firstVisit,
  SIZES,
  saved,
  scene,
  setBounce,
  weaveDemo,
} from './bench.ts';
import { demoPlan } from './expected.ts';
import { axeEverywhere, LIGHT_AND_DARK } from './findings.ts';
import { openVisitor, serveDist, type Visitor } from './harness.ts';

let browser: Visitor;
let page: Page;

beforeAll(async () => {
  const server = await serveDist();
  browser = await openVisitor({ hasTouch: true, viewport: { width: 820, height: 1180 } });
  page = browser.page;
  await firstVisit(page, server.url);
  // From here on without a network.
  await server.stop();
  await weaveDemo(page, 'moss-and-chalk');
  await setBounce(page, 'at once');
  await toWarps();
  await button(page, 'Remove').click();
  await button(page, 'Remove it').click();
  await page.getByRole('heading', { name: 'Try a demo warp' }).waitFor();
});

afterAll(() => browser.close());

afterEach(removeAll);

/** Back to the first screen with nothing on it. */
async function removeAll(): Promise<void> {
  if ((await page.locator('dialog[open]').count()) > 0) await page.keyboard.press('Escape');
  await toWarps();
  while ((await button(page, 'Remove').count()) > 0) {
    const before = await button(page, 'Remove').count();
    await button(page, 'Remove').first().click();
    await button(page, 'Remove it').click();
    await expect.poll(() => button(page, 'Remove').count()).toBe(before - 1);
  }
}

async function toWarps(): Promise<void> {
  await page.locator('.weave, .warping, .warps').first().waitFor();
  if ((await page.locator('.warps').count()) === 0) await button(page, '‹ Warps').click();
  await page.getByRole('heading', { name: 'Fellmark' }).waitFor();
}

async function warpDemo(name: DemoName): Promise<void> {
  await weaveDemo(page, name);
  await toWarps();
  await button(page, 'Warp it').tap();
  await page.locator('.step-call').waitFor();
}

async function warpPlan(plan: Plan): Promise<void> {
  await chooseFile(page, 'plan.json', JSON.stringify(plan));
  await button(page, 'Warp it').tap();
  await page.locator('.step-call').waitFor();
}

const listOf = (plan: Plan): WarpingList =>
  warpingList(plan, { ...usualWay(plan), warpLength: sheetOf(plan).warpLength.wound });

const tapDone = () => page.locator('.tick').tap();
const undo = () => button(page, 'Undo').tap();

/** Ticks steps in the page itself: the way there and back costs more than a tap. */
function tapSteps(steps: number): Promise<void> {
  return page.locator('.tick').evaluate(async (it: HTMLElement, times) => {
    for (let i = 0; i < times; i++) {
      it.click();
      await new Promise((resolve) => setTimeout(resolve));
    }
  }, steps);
}

/** The step on the screen: its number, how much of what, and where. */
function shown(): Promise<{
  readonly step: string;
  readonly much: string;
  readonly place: string;
}> {
  return page.evaluate(() => {
    const text = (selector: string) => document.querySelector(selector)?.textContent?.trim() ?? '';
    return {
      step: text('.step-of'),
      much: `${text('.step-count')} ${text('.step-unit')}`.trim(),
      place: text('.step-place'),
    };
  });
}

/** The same from the list itself. */
function expected(list: WarpingList, done: number) {
  const step = list.steps[done];
  if (step === undefined) throw new Error(`got step ${done} of ${list.steps.length}`);
  return { step: `step ${done + 1} of ${list.steps.length}`, ...told(list, step) };
}

function told({ start }: WarpingList, step: WarpingStep) {
  const range = (what: string, from: number, to: number) =>
    to - from === 1 ? `${what} ${to}` : `${what}s ${from + 1}–${to}`;
  switch (step.kind) {
    case 'setup':
      return { much: '', place: `from ${start.kind} ${start.index + 1} of ${start.of}` };
    case 'wind':
      return { much: '', place: '' };
    case 'loops':
      return { much: `${step.loops} loops`, place: range('slot', step.from, step.to) };
    case 'move':
      return { much: `${step.to - step.from} ends`, place: range('slot', step.from, step.to) };
    case 'thread':
      return {
        much: `${step.to - step.from} ends`,
        place: range('dent', step.dents?.from ?? 0, step.dents?.to ?? 0),
      };
    default:
      throw new Error(`got a ${step.kind} in a demo`);
  }
}

const expectStep = (list: WarpingList, done: number) =>
  expect
    .poll(shown, { message: `step ${done + 1}`, interval: 20, timeout: 5000 })
    .toEqual(expected(list, done));

describe.each(DEMOS)('%s', (name) => {
  const list = listOf(demoPlan(name));
  const half = Math.floor(list.steps.length / 2);

  it('is ticked half by taps, resumed after a reload, taken back, and finished by pedal', async () => {
    await warpDemo(name);
    for (let done = 0; done < half; done++) {
      await expectStep(list, done);
      await tapDone();
    }
    await saved(page);
    await page.reload();
    await expectStep(list, half);
    await undo();
    await undo();
    await expectStep(list, half - 2);
    await page.keyboard.press('PageUp');
    await expectStep(list, half - 3);
    for (let done = half - 3; done < list.steps.length; done++) {
      await expectStep(list, done);
      await page.keyboard.press(['Space', 'Enter', 'PageDown'][done % 3] ?? 'Space');
    }
    await expect.poll(() => page.locator('.step-name').textContent()).toBe('The warp is on');
    expect((await shown()).much).toBe(`${list.ends} ends`);
  });

  it('counts every colour up to its ends', async () => {
    await warpDemo(name);
    await tapSteps(list.steps.length - 1);
    await expectStep(list, list.steps.length - 1);
    const counts = await page.locator('.running-yarn').allTextContents();
    expect(counts.map((text) => text.replace(/^.*: /, ''))).toEqual(
      list.yarns.map(({ ends }) => `${ends} of ${ends}`),
    );
  });
});

describe('when the warp is on', () => {
  const list = listOf(demoPlan('ink-oat-ochre'));

  it('Weave puts it on the bench, and undoing there takes no step of warping back', async () => {
    await warpDemo('ink-oat-ochre');
    await tapSteps(list.steps.length);
    await button(page, 'Weave').tap();
    await scene(page).waitFor();
    await page.keyboard.press('PageUp');
    await expect.poll(() => page.locator('.next').textContent()).toContain('Nothing to undo');
    await page.keyboard.press('PageDown');
    await page.keyboard.press('PageUp');
    await toWarps();
    await expect
      .poll(() => page.locator('.warp-words p').textContent())
      .toContain('the warp is on');
    await button(page, 'Warping list').tap();
    await undo();
    await expectStep(list, list.steps.length - 1);
  });

  it('a pedal pressed right after a tap on Undo ticks, and presses nothing else', async () => {
    await warpDemo('ink-oat-ochre');
    await tapSteps(3);
    await undo();
    await page.keyboard.press('Space');
    await expectStep(list, 3);
  });

  it('no tick goes beyond the last step', async () => {
    await warpDemo('ink-oat-ochre');
    await tapSteps(list.steps.length);
    await page.keyboard.press('PageDown');
    await page.keyboard.press('PageDown');
    await undo();
    await expectStep(list, list.steps.length - 1);
  });
});

describe('the way it is put on', () => {
  const plan = demoPlan('moss-and-chalk');
  const list = listOf(plan);
  const threaded = warpingList(plan, { method: 'ends', viewpoint: 'front', warpLength: 1 });

  it('begins anew with another method when asked twice, and undo gives the place back', async () => {
    await warpDemo('moss-and-chalk');
    await tapSteps(5);
    await button(page, 'More').tap();
    await button(page, 'End by end').tap();
    await button(page, 'Begin anew').tap();
    await button(page, 'Close').tap();
    await closed(page);
    await expect.poll(async () => (await shown()).step).toBe(`step 1 of ${threaded.steps.length}`);
    await tapDone();
    await saved(page);
    await page.reload();
    await expect.poll(async () => (await shown()).step).toBe(`step 2 of ${threaded.steps.length}`);
    await undo();
    await undo();
    await expectStep(list, 5);
  });

  it('seen from the other side before the first step it begins at the other end', async () => {
    const back = warpingList(plan, { method: 'direct', viewpoint: 'back', warpLength: 1 });
    await warpDemo('moss-and-chalk');
    await lookFrom('The back');
    await expectStep(back, 0);
    await expect.poll(caption).toBe('From the back · slots from the left');
  });

  it('seen from the other side at work it keeps its place, and holes change sides', async () => {
    const holes = list.steps.findIndex((step) => step.phase === 'holes');
    await warpDemo('moss-and-chalk');
    await tapSteps(holes);
    await expect.poll(hands).toBe('From every slot one end into the hole on its right.');
    await lookFrom('The back');
    await expectStep(list, holes);
    await expect.poll(hands).toBe('From every slot one end into the hole on its left.');
    await expect.poll(caption).toBe('From the back · slots from the right');
    await tapDone();
    await saved(page);
    await page.reload();
    await expectStep(list, holes + 1);
    await expect.poll(caption).toBe('From the back · slots from the right');
  });
});

async function lookFrom(words: string): Promise<void> {
  await button(page, 'More').tap();
  await button(page, words).tap();
  await button(page, 'Close').tap();
  await closed(page);
}

const hands = () => page.locator('.step-hands').textContent();
const caption = () => page.locator('.warp-view figcaption').textContent();

/** 11 moss, 9 chalk, 1 and 1, and an odd end: a tie, swaps and a single end. */
function oddPlan(): Plan {
  const plan = demoPlan('moss-and-chalk');
  const order: Plan['warp']['order'] = [
    { kind: 'solid', yarn: 'A', ends: 11 },
    { kind: 'solid', yarn: 'B', ends: 9 },
    {
      kind: 'alternation',
      cycle: [
        { yarn: 'C', ends: 1 },
        { yarn: 'B', ends: 1 },
      ],
      turns: 24,
    },
    { kind: 'solid', yarn: 'A', ends: 7 },
  ];
  return { ...plan, name: 'Odd', warp: { ...plan.warp, order, floatingSelvedges: { yarn: 'B' } } };
}

describe('odd places', () => {
  it('are told beforehand, with what would mend them', async () => {
    await warpPlan(oddPlan());
    const places = await page.locator('.odd-places li').allTextContents();
    expect(places).toEqual([
      'Slot 6: half moss, half chalk: cut and tie at the peg. Or plan 10 moss and 10 chalk here instead of 11 and 9.',
      'Slots 11–22: rust and chalk go in unmixed; neighbours swap an end when the holes are threaded.',
      'Slot 26: one end of moss by itself.',
    ]);
  });

  it('and at their step', async () => {
    await warpPlan(oddPlan());
    await tapSteps(2);
    await expect.poll(shown).toMatchObject({ much: '1 loop of both', place: 'slot 6' });
    await expect.poll(hands).toContain('bring moss to the peg and cut it there, tie chalk to it');
    const { steps } = listOf(oddPlan());
    await tapSteps(steps.findIndex((step) => step.kind === 'swap') - 2);
    await expect.poll(shown).toMatchObject({ much: '6 swaps', place: 'slots 11–22' });
    await expect.poll(hands).toContain('so that they lie rust, chalk, rust, chalk');
  });
});

describe('a bounce', () => {
  const countsAfter = async (words: string) => {
    await removeAll();
    await warpDemo('moss-and-chalk');
    await button(page, 'More').tap();
    await button(page, words).tap();
    await button(page, 'Close').tap();
    await closed(page);
  };

  afterEach(() => countsAfter('at once'));

  it('of a tap counts once; after an undo the next tap counts at once', async () => {
    const list = listOf(demoPlan('moss-and-chalk'));
    await countsAfter('1 s');
    // The last tick of the test before this one may be younger than that.
    await page.waitForTimeout(1100);
    await page.locator('.tick').evaluate((it: HTMLElement) => {
      it.click();
      it.click();
    });
    await expectStep(list, 1);
    await undo();
    await tapDone();
    await expectStep(list, 1);
  });
});

describe('the screen', () => {
  const { steps } = listOf(oddPlan());
  const at = (kind: WarpingStep['kind']) => steps.findIndex((step) => step.kind === kind);
  const screens = [
    ['set up', 0],
    ['at a tie', at('tie')],
    ['at loops by turns', at('tie') + 2],
    ['winding on', at('wind')],
    ['at swaps', at('swap')],
    ['at the floating selvedges', at('floating')],
    ['done', steps.length],
  ] as const;

  it.each(screens)(
    '%s has nothing cut off, no target too small, nothing for axe, at any size',
    async (_, step) => {
      await warpPlan(oddPlan());
      await tapSteps(step);
      expect(await flawsEverywhere()).toEqual([]);
    },
  );

  it('so has the sheet', async () => {
    await warpPlan(oddPlan());
    await button(page, 'More').tap();
    expect(await flawsEverywhere()).toEqual([]);
  });

  it('gives the tick at least 128 px of height and the most of the width', async () => {
    await warpPlan(oddPlan());
    for (const { width, height } of SIZES) {
      await page.setViewportSize({ width, height });
      const box = await page.locator('.tick').boundingBox();
      expect(box?.height).toBeGreaterThanOrEqual(128);
      expect(box?.width).toBeGreaterThanOrEqual(0.6 * width);
    }
  });
});

async function flawsEverywhere(): Promise<readonly string[]> {
  const found = await axeEverywhere(page, LIGHT_AND_DARK, flawsOfLayout);
  await page.setViewportSize({ width: 820, height: 1180 });
  await page.emulateMedia({ colorScheme: 'light' });
  return found;
}

/** What sticks out of the window, and targets below 44 px. */
function flawsOfLayout(): Promise<readonly string[]> {
  return page.evaluate(() => {
    const sheet = document.querySelector('dialog[open]');
    const root = sheet ?? document.documentElement;
    const small = [...root.querySelectorAll('button')].filter((it) => {
      const box = it.getBoundingClientRect();
      return box.width < 43.5 || box.height < 43.5;
    });
    const parts = sheet === null ? document.querySelectorAll('.step-call *, .warping-foot *') : [];
    const out = [...parts].filter((it) => {
      const box = it.getBoundingClientRect();
      return box.right > innerWidth + 0.5 || box.left < -0.5 || box.bottom > innerHeight + 0.5;
    });
    const wide = root.scrollWidth > root.clientWidth ? ['scrolls sideways'] : [];
    return [
      ...wide,
      ...small.map((it) => `small: ${it.textContent}`),
      ...out.map((it) => `out: ${it.className} ${it.textContent}`),
    ];
  });
}
