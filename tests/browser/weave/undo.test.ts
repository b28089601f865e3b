import type { Page } from 'playwright-core';
import { afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { openApp } from '../app.ts';
import {
  button,
  closed,
  countPicks,
  dueCard,
  openMore,
  readBench,
  type ShownBench,
  saved,
  scene,
  setBounce,
  setStepper,
  throwPicks,
  toWarps,
  undoTimes,
  weaveDemo,
  weavePlan,
} from '../bench.ts';
import { planWeaving, solid } from '../plans.ts';

let page: Page;

beforeAll(async () => {
  const app = await openApp();
  ({ page } = app);
  return app.close;
});

const shows = (wanted: ShownBench, note = '') =>
  expect.poll(() => readBench(page), { interval: 20, message: note }).toEqual(wanted);

async function redo(): Promise<void> {
  await openMore(page, 'Redo');
  await closed(page);
}

describe('over a reload', () => {
  const PICKS = 40;
  const kept: ShownBench[] = [];

  it('undo takes back all picks one by one, to the very start', async () => {
    await weaveDemo(page, 'moss-and-chalk');
    await setBounce(page, 'at once');
    for (let i = 0; i < PICKS; i++) {
      kept.push(await readBench(page));
      await throwPicks(page, 1);
    }
    kept.push(await readBench(page));
    await saved(page);
    await page.reload();
    await scene(page).waitFor();
    for (const wanted of [...kept].reverse()) {
      await shows(wanted);
      await undoTimes(page, 1);
    }
  });

  it('one undo more says that there is nothing to undo, and changes nothing else', async () => {
    const start = kept[0];
    if (start === undefined) throw new Error('got no first bench');
    await page.locator('.next', { hasText: 'Nothing to undo.' }).waitFor();
    expect({ ...(await readBench(page)), next: '' }).toEqual({ ...start, next: '' });
  });

  it('redo gives back as many as are asked for, after another reload', async () => {
    await saved(page);
    await page.reload();
    await scene(page).waitFor();
    for (const wanted of kept.slice(1, 9)) {
      await redo();
      await shows(wanted);
    }
  });

  it('once something new was done there is nothing to give back', async () => {
    await throwPicks(page, 1);
    await button(page, 'More').click();
    const entry = page.locator('.menu-button', { hasText: 'Redo' });
    expect(await entry.isDisabled()).toBe(true);
    await button(page, 'Close').click();
    await closed(page);
  });
});

/** What a weaver can do at the bench, each by one confirming tap. */
interface Deed {
  readonly what: string;
  /** Picks thrown before. */
  readonly after: number;
  readonly act: () => Promise<unknown>;
}

const inCard = async (title: string, name: string) =>
  (await dueCard(page, title)).getByRole('button', { name, exact: true }).click();

/** Ends on the left with its tail to the right: the wrong side. */
const oddEnding = planWeaving('Odd ending', [solid('A', 4), solid('B', 5)]);

const deeds: readonly Deed[] = [
  { what: 'a pick', after: 6, act: () => throwPicks(page, 1) },
  { what: 'several picks', after: 1, act: () => countPicks(page, 5) },
  {
    what: 'a length woven',
    after: 2,
    act: async () => {
      await openMore(page, 'A length woven');
      await button(page, '½').click();
      await button(page, 'Count this length').click();
      await closed(page);
    },
  },
  {
    what: 'picks taken out',
    after: 8,
    act: async () => {
      await openMore(page, 'Take picks out');
      await setStepper(page, 'Picks taken out', 3);
      await button(page, 'Take out 3').click();
      await closed(page);
    },
  },
  {
    what: 'the other shed',
    after: 3,
    act: () => openMore(page, 'Other shed').then(() => closed(page)),
  },
  {
    what: 'a place found',
    after: 5,
    act: async () => {
      await openMore(page, 'Find my place');
      await button(page, 'right').click();
      await page.locator('.place').first().click();
      await closed(page);
    },
  },
  { what: 'a due done', after: 4, act: () => inCard('Hemstitch the beginning', 'Stitched') },
  { what: 'a due put off', after: 4, act: () => inCard('Hemstitch the beginning', 'Later') },
  { what: 'one pick more', after: 9, act: () => inCard('Leave a tail', 'One pick more') },
];

describe('one undo takes back what one tap did, and redo gives it back', () => {
  beforeEach(async () => {
    await weavePlan(page, oddEnding);
  });

  afterEach(async () => {
    await toWarps(page);
    const tile = page.locator('.warp-tile', { hasText: oddEnding.name });
    await tile.getByRole('button', { name: 'Remove' }).click();
    await button(page, 'Remove it').click();
    await tile.waitFor({ state: 'detached' });
  });

  it.each(deeds)('$what', async ({ after, act }) => {
    await throwPicks(page, after);
    const before = await readBench(page);
    await act();
    await expect.poll(() => readBench(page)).not.toEqual(before);
    const done = await readBench(page);
    await undoTimes(page, 1);
    await shows(before, 'undone');
    await redo();
    await shows(done, 'given back');
  });

  it('the warp advanced, which the next card of it shows', async () => {
    await weaveDemo(page, 'ink-oat-ochre');
    await throwPicks(page, 100);
    const before = await readBench(page);
    await inCard('Advance the warp', 'Advanced');
    await expect.poll(() => readBench(page)).not.toEqual(before);
    const done = await readBench(page);
    await undoTimes(page, 1);
    await shows(before);
    await redo();
    await shows(done);
  });

  it('the cloth cut off', async () => {
    await throwPicks(page, 9);
    for (const [title, name] of [
      ['Leave a tail', 'Done'],
      ['Hemstitch the ending', 'Stitched'],
    ] as const) {
      await inCard(title, name);
    }
    const before = await readBench(page);
    await inCard('All pieces are woven', 'Cut off');
    await page.locator('.call-name', { hasText: 'Cut off the loom' }).waitFor();
    const done = await readBench(page);
    await undoTimes(page, 1);
    await shows(before);
    await redo();
    await shows(done);
  });
});
