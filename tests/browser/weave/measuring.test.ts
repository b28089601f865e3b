// Measuring at the bench, and what follows: lengths, aims, endings, what is left of warp and yarn.
import type { Page } from 'playwright-core';
import { beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { openApp } from '../app.ts';
import {
  button,
  closed,
  countPicks,
  dueCard,
  openMore,
  readBench,
  readCall,
  saved,
  setBounce,
  storedEvents,
  undoTimes,
  weaveDemo,
} from '../bench.ts';

let page: Page;

beforeAll(async () => {
  const app = await openApp();
  ({ page } = app);
  await weaveDemo(page, 'moss-and-chalk');
  await setBounce(page, 'at once');
  return app.close;
});

beforeEach(() => weaveDemo(page, 'moss-and-chalk'));

async function measure(keys: readonly string[], from = 'The start of the piece'): Promise<void> {
  await button(page, 'Measure the fell').click();
  await page.getByRole('button', { name: from }).click();
  for (const key of keys) await button(page, key).click();
  await button(page, 'Take this reading').click();
}

const fell = async () => (await readBench(page)).fell;

/** The last event of the warp woven on last. */
const lastEvent = async () =>
  (await storedEvents(page)).toSorted((a, b) => a.at.localeCompare(b.at)).at(-1);

describe('the width at the fell', () => {
  it('is asked for under More, kept as a reading of the piece, and said', async () => {
    await countPicks(page, 60);
    await openMore(page, 'Width at the fell');
    for (const key of ['1', '9', '½']) await button(page, key).click();
    await button(page, 'Keep this width').click();
    await closed(page);
    await page.getByText('19½ in wide at the fell.').waitFor();
    await saved(page);
    expect(await lastEvent()).toMatchObject({
      kind: 'clothRead',
      piece: 0,
      state: 'loom',
      widths: [expect.closeTo(495.3, 6)],
    });
  });
});

describe('a reading', () => {
  it('moves the fell to where it was measured and gives the block at hand other picks, said once', async () => {
    await countPicks(page, 60);
    expect(await fell()).toMatch(/^6\n/);
    expect((await readCall(page)).of).toBe(24);
    await measure(['6', '½']);
    await closed(page);
    expect(await fell()).toMatch(/^6½\n/);
    // 30 picks of an inch and a tenth in the plan are 2.4 in; at 9.2 picks an inch that is 22 picks.
    expect((await readCall(page)).of).toBe(22);
  });

  it('can be refused what it changed, and be taken back altogether', async () => {
    await countPicks(page, 60);
    await button(page, 'Later').click();
    await button(page, 'Later').click();
    await measure(['6', '½']);
    await closed(page);
    await dueCard(page, 'Aimed at the real beat');
    await button(page, 'Keep the old').click();
    await expect.poll(async () => (await readCall(page)).of).toBe(24);
    await button(page, 'Measure the fell').click();
    await button(page, 'Take back').click();
    await page.getByText('Readings of this piece').waitFor({ state: 'detached' });
    await button(page, 'Close').click();
    await closed(page);
    expect(await fell()).toMatch(/^6\n/);
    await saved(page);
    expect(await lastEvent()).toMatchObject({ kind: 'readingStruck' });
  });

  it('that can hardly be is asked about and not refused', async () => {
    await countPicks(page, 60);
    await measure(['2', '1']);
    await page.getByText('21 in is far from what was counted.').waitFor();
    await button(page, 'Take 21 in all the same').click();
    await closed(page);
    await saved(page);
    expect(await lastEvent()).toMatchObject({ kind: 'measured', loomLength: 21 * 25.4 });
  });

  it('may start from a pin, which one tap puts in', async () => {
    await countPicks(page, 40);
    await button(page, 'Pin').click();
    await countPicks(page, 20);
    await measure(['2', '¼'], 'Pin 1, at 4 in');
    await closed(page);
    // Pin at 4 in, 2¼ in further on; the pin itself moves a little with what was learnt.
    expect(await fell()).toMatch(/^6[⅛¼⅜½]/);
    await saved(page);
    expect(await lastEvent()).toMatchObject({ kind: 'measured', from: { kind: 'pin' } });
  });

  it('is undone by one tap and given back by redo', async () => {
    await countPicks(page, 60);
    await measure(['6', '½']);
    await closed(page);
    await undoTimes(page, 1);
    await expect.poll(fell).toMatch(/^6\n/);
    await openMore(page, 'Redo');
    await expect.poll(fell).toMatch(/^6½\n/);
  });

  it('is there after a reload', async () => {
    await countPicks(page, 60);
    await measure(['6', '½']);
    await closed(page);
    await saved(page);
    await page.reload();
    await page.locator('.tape-fell').waitFor();
    expect(await fell()).toMatch(/^6½\n/);
  });
});

describe('endings', () => {
  it('tell every place to stop, and one tap adopts one; what was woven stays', async () => {
    await countPicks(page, 60);
    const { call: before } = await readBench(page);
    await button(page, 'Endings').click();
    const planned = page.locator('.ending', { hasText: 'Where the plan ends' });
    await planned.waitFor();
    expect(await planned.innerText()).toContain('Reads the same from both ends');
    const rust = page.locator('.ending', { hasText: 'After rust' }).last();
    expect(await rust.innerText()).toContain('Begins in moss, ends in rust');
    await rust.getByRole('button', { name: 'Stop there' }).click();
    await closed(page);
    expect((await readBench(page)).call).toEqual(before);
    // 24 + 30 + 24 picks as planned and the 8 of rust: that is all there is now.
    expect(await fell()).toContain('of 8⅝ in');
    await undoTimes(page, 1);
    await expect.poll(fell).toContain('of 25¼ in');
  });
});

describe('blocks by hand', () => {
  it('get longer, shorter and end where the weaver is', async () => {
    await countPicks(page, 60);
    await openMore(page, 'Blocks');
    const here = page.locator('.block-here[data-state="here"]');
    await here.getByRole('button', { name: 'Longer' }).click();
    await expect.poll(() => here.innerText()).toContain('26 picks');
    await here.getByRole('button', { name: 'Shorter' }).click();
    await here.getByRole('button', { name: 'Shorter' }).click();
    await expect.poll(() => here.innerText()).toContain('22 picks');
    await here.getByRole('button', { name: 'End here' }).click();
    await button(page, 'Close').click();
    await closed(page);
    expect((await readCall(page)).letter).toBe('C');
  });
});

describe('what is left', () => {
  it('stands at the bench all the time, and a weighing corrects it', async () => {
    await countPicks(page, 30);
    await page.locator('.left-line').waitFor();
    expect(await page.locator('.left-line').innerText()).toMatch(/warp\s+\d+.* in ±/);
    await page.locator('.left-line').click();
    const moss = page.locator('.left-yarns li', { hasText: 'moss' });
    await moss.getByRole('button', { name: 'Weigh' }).click();
    await button(page, '5').click();
    await button(page, 'Of that empty cone and shuttles').click();
    await button(page, '1').click();
    await button(page, 'Keep this weight').click();
    await expect.poll(() => moss.innerText()).toContain('moss: 4 oz');
    await saved(page);
    const event = await lastEvent();
    expect(event).toMatchObject({ kind: 'weighed', yarn: 'A' });
    await button(page, 'Close').click();
    await closed(page);
  });
});
