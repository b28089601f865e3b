// From the woven cloth to motifs and plans, by touch.
import type { Locator, Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { decodeMotif, type Motif } from '../../../src/core/plan/motif.ts';
import { openApp } from '../app.ts';
import {
  button,
  closed,
  openMore,
  readCall,
  saved,
  setBounce,
  storedRecords,
  throwPicks,
  toWarps,
  undoTimes,
  weaveDemo,
  weavePlan,
} from '../bench.ts';
import { findingsOn } from '../findings.ts';
import { planWeaving, solid } from '../plans.ts';

let page: Page;

beforeAll(async () => {
  const app = await openApp({ reducedMotion: 'reduce', hasTouch: true });
  ({ page } = app);
  await weavePlan(
    page,
    planWeaving('Band', [solid('A', 8), solid('B', 4), solid('C', 2), solid('A', 20)]),
  );
  await setBounce(page, 'at once');
  await throwPicks(page, 14);
  await saved(page);
  return app.close;
});

const found = (words: string): Locator => page.locator('.found-block', { hasText: words });
const size = (): Promise<string> => page.locator('.keep-size').innerText();
const tile = (name: string): Locator =>
  page.locator('.motif-tile', { has: page.getByRole('heading', { name, exact: true }) });
const entry = (title: string): Locator => page.locator('.menu-button', { hasText: title });
const inOneLine = (): Promise<string> => page.getByLabel('In one line').inputValue();

async function storedMotifs(): Promise<readonly Motif[]> {
  const records = (await storedRecords(page, 'records')) as readonly {
    readonly kind: string;
    readonly body: unknown;
  }[];
  return records.flatMap(({ kind, body }) => {
    const read = kind === 'motif' ? decodeMotif(body) : null;
    return read?.ok ? [read.value] : [];
  });
}

/** A finger laid on something and drawn across the screen. */
async function drag(from: Locator, dx: number): Promise<void> {
  const box = await from.boundingBox();
  if (box === null) throw new Error('drag: wanted something on the screen');
  const cdp = await page.context().newCDPSession(page);
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  const touch = (type: 'touchStart' | 'touchMove', at: number) =>
    cdp.send('Input.dispatchTouchEvent', { type, touchPoints: [{ x: at, y }] });
  await touch('touchStart', x);
  for (let step = 1; step <= 8; step++) await touch('touchMove', x + (dx * step) / 8);
  await cdp.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
  await cdp.detach();
}

describe('a stretch of the woven cloth', () => {
  it('is chosen by a block found in it, by handles and by buttons', async () => {
    await openMore(page, 'Choose a stretch');
    await found('4 picks of chalk').tap();
    expect(await size()).toContain('4 picks in 1 stripe');
    await button(page, 'End: a stripe on').tap();
    await expect.poll(size).toContain('6 picks in 2 stripes');
    await button(page, 'Beginning: a pick back').tap();
    await expect.poll(size).toContain('7 picks in 3 stripes');
    await button(page, 'Beginning: a stripe on').tap();
    await expect.poll(size).toContain('6 picks in 2 stripes');
  });

  it('follows a finger that draws a handle, and the arrow keys', async () => {
    const cloth = await page.locator('.strip-cloth').boundingBox();
    const handle = page.getByRole('slider', { name: 'Beginning of the stretch' });
    // 14 picks are woven: two of them to the left.
    await drag(handle, (-2 * (cloth?.width ?? 0)) / 14);
    await expect.poll(size).toContain('8 picks in 3 stripes');
    await handle.focus();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowRight');
    await expect.poll(size).toContain('6 picks in 2 stripes');
    expect(await handle.getAttribute('aria-valuetext')).toBe('before pick 9');
  });

  it('axe finds nothing on it, light and dark, at three sizes', async () => {
    expect(await findingsOn(page)).toEqual([]);
    await button(page, 'Keep as a motif').tap();
    expect(await findingsOn(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await closed(page);
    await page.setViewportSize({ width: 1180, height: 820 });
  });

  it('is kept on the disk under a name, with the warp it is from', async () => {
    await button(page, 'Keep as a motif').tap();
    await page.getByRole('textbox', { name: 'Name' }).fill('Border');
    await button(page, 'Keep it').tap();
    await page.getByText('“Border” is on the shelf.').waitFor();
    await expect.poll(async () => (await storedMotifs()).map((it) => it.name)).toEqual(['Border']);
    const [motif] = await storedMotifs();
    expect(motif?.blocks).toEqual([solid('B', 4), solid('C', 2)]);
    expect(motif?.from).toEqual({ warp: 'Band', piece: 'Band 1' });
  });

  it('comes next when it is woven again; the call follows it; undo takes it back', async () => {
    await button(page, 'Weave it again').tap();
    await button(page, 'Weave it next').tap();
    await page.locator('.scene').waitFor();
    const told = async () => {
      const { letter, pick, of } = await readCall(page);
      return `${letter} ${pick} of ${of}`;
    };
    await expect.poll(told).toBe('B 1 of 4');
    await throwPicks(page, 4);
    await expect.poll(told).toBe('C 1 of 2');
    await throwPicks(page, 2);
    // Then what was to come: its twenty picks are all there.
    await expect.poll(told).toBe('A 1 of 20');
    await undoTimes(page, 7);
    await expect.poll(told).toBe('A 1 of 20');
    await throwPicks(page, 1);
    await expect.poll(told).toBe('A 2 of 20');
    await undoTimes(page, 1);
    await saved(page);
  });

  it('goes through the rest of the piece, in the place of what was to come', async () => {
    await openMore(page, 'Motifs');
    await button(page, 'Weave it again: Border').tap();
    await button(page, 'Through the rest of the piece').tap();
    // 20 picks are left, 2 in: twice 6 picks and 4 to close, 16 of them.
    await page.getByText('2 times, and its first stripe to close: 1⅝ in').waitFor();
    await button(page, 'Weave it next').tap();
    await page.locator('.scene').waitFor();
    await throwPicks(page, 16);
    await page.locator('.call', { hasText: 'woven' }).waitFor();
    await undoTimes(page, 17);
    await expect.poll(async () => (await readCall(page)).of).toBe(20);
    await saved(page);
  });
});

describe('the shelf of motifs', () => {
  beforeAll(async () => {
    await toWarps(page);
    await button(page, 'Motifs').tap();
    await tile('Border').waitFor();
  });

  it('tells what a motif is made of and where it is from', async () => {
    const text = await tile('Border').innerText();
    expect(text).toContain('6 picks, ⅝ in on the loom');
    expect(text).toContain('4 picks of chalk');
    expect(text).toContain('from Band: Band 1');
  });

  it('renames a motif, and takes that back', async () => {
    await button(page, 'More with Border').tap();
    await entry('Rename').tap();
    await page.getByRole('textbox', { name: 'Name' }).fill('Edge');
    await button(page, 'Rename it').tap();
    await tile('Edge').waitFor();
    await button(page, 'As it was').tap();
    await tile('Border').waitFor();
  });

  it('deletes a motif, and puts it back', async () => {
    await button(page, 'More with Border').tap();
    await entry('Delete').tap();
    await tile('Border').waitFor({ state: 'detached' });
    await expect.poll(storedMotifs).toEqual([]);
    await button(page, 'Put it back').tap();
    await tile('Border').waitFor();
    await expect.poll(async () => (await storedMotifs()).length).toBe(1);
  });

  it('keeps another of it: mirrored, yarn for yarn, at another sett', async () => {
    await button(page, 'More with Border').tap();
    await entry('Mirror, colours, sett').tap();
    await button(page, 'There and back').tap();
    const chalk = page.getByRole('group', { name: 'B chalk, woven in' });
    await chalk.getByRole('button', { name: 'A moss' }).tap();
    await page.getByLabel('Sett', { exact: true }).fill('25');
    await button(page, 'Length').tap();
    await button(page, 'Keep as another').tap();
    await tile('Border, mirrored').waitFor();
    await expect.poll(async () => (await storedMotifs()).length).toBe(2);
    const other = (await storedMotifs()).find((it) => it.name === 'Border, mirrored');
    // Twice as many ends to the inch, half the way from pick to pick: twice as many picks.
    expect(other?.blocks).toEqual([
      { kind: 'mirror', centre: 'shared', of: [solid('A', 8), solid('C', 4)] },
    ]);
    expect(other?.endsPerMm).toBeCloseTo(25 / 25.4, 6);
  });

  it('axe finds nothing on it and on its sheets', async () => {
    expect(await findingsOn(page)).toEqual([]);
    for (const page_ of [
      'Weave it again now',
      'Mirror, colours, sett',
      'A new warp',
      'Into a plan',
    ]) {
      await button(page, 'More with Border').tap();
      if (page_ === 'Weave it again now') expect(await findingsOn(page)).toEqual([]);
      await entry(page_).tap();
      await page.locator('.sheet-body .form, .sheet-body > p').first().waitFor();
      expect(await findingsOn(page), page_).toEqual([]);
      await page.keyboard.press('Escape');
      await closed(page);
    }
    await page.setViewportSize({ width: 1180, height: 820 });
  });

  it('starts a new warp from a motif', async () => {
    await button(page, 'More with Border').tap();
    await entry('A new warp').tap();
    await button(page, 'Plan it').tap();
    await page.locator('.plan').waitFor();
    expect(await page.getByLabel('Name of the plan').inputValue()).toBe('Border');
    await button(page, 'Pieces').tap();
    expect(await inOneLine()).toMatch(/^\d+ times \(4 picks B, 2 picks C\), 4 picks B$/);
    expect(await button(page, 'Put on the loom').isEnabled()).toBe(true);
  });
});

describe('a motif in the planner', () => {
  it('goes behind the blocks of a piece, its yarns with it; undo takes it out', async () => {
    await button(page, '‹ Warps').tap();
    await button(page, 'Plan a warp').tap();
    await button(page, 'Pieces').tap();
    const before = await inOneLine();
    await button(page, 'From a motif').tap();
    await page.locator('.motif-choice', { has: page.getByText('Border', { exact: true }) }).tap();
    expect(await findingsOn(page)).toEqual([]);
    await page.setViewportSize({ width: 1180, height: 820 });
    // Chalk is of the colour of the yarn there is; rust comes along.
    await button(page, 'Put it in').tap();
    await closed(page);
    expect(await inOneLine()).toBe(`${before}, 1 times (4 picks A, 2 picks B)`);
    await button(page, 'Yarns').tap();
    await page.locator('.plan-yarn', { hasText: 'rust' }).waitFor();
    await page.getByRole('button', { name: 'Undo' }).tap();
    await button(page, 'Pieces').tap();
    expect(await inOneLine()).toBe(before);
  });

  it('goes through the whole of it', async () => {
    await button(page, 'From a motif').tap();
    await page.locator('.motif-choice', { has: page.getByText('Border', { exact: true }) }).tap();
    await button(page, 'Through the whole piece').tap();
    await button(page, 'Put it in').tap();
    await closed(page);
    expect(await inOneLine()).toMatch(/^\d+ times \(4 picks A, 2 picks B\), 4 picks A$/);
    await button(page, '‹ Warps').tap();
    await page.locator('.warps').waitFor();
  });
});

describe('a motif on its way into a plan', () => {
  it('opens the planner with it', async () => {
    await button(page, 'Motifs').tap();
    await button(page, 'More with Border').tap();
    await entry('Into a plan').tap();
    await button(page, 'A new plan').tap();
    await page.locator('.plan').waitFor();
    await button(page, 'Put it in').tap();
    await closed(page);
    expect(await inOneLine()).toContain('1 times (4 picks A, 2 picks B)');
    await button(page, '‹ Warps').tap();
    // Only the motif that was sent is put in: the next plan opens as ever.
    await button(page, 'Plan a warp').tap();
    await page.getByRole('region', { name: 'Loom' }).waitFor();
    await button(page, '‹ Warps').tap();
    await page.locator('.warps').waitFor();
  });
});

describe('a motif on another warp', () => {
  it('asks on which, is woven in the yarns of that, and the call follows it', async () => {
    await weaveDemo(page, 'ink-oat-ochre');
    await throwPicks(page, 40);
    await saved(page);
    await toWarps(page);
    await button(page, 'Motifs').tap();
    await button(page, 'Weave it again: Border').tap();
    await page.getByRole('button', { name: /runners.*, Runner one/ }).tap();
    const told = async () => {
      const { letter, pick, of } = await readCall(page);
      return `${letter} ${pick} of ${of}`;
    };
    await page.getByText('The beat is another there.').waitFor();
    await button(page, 'Picks').tap();
    await button(page, 'Weave it next').tap();
    await page.locator('.scene').waitFor();
    // Eight picks of oat are woven of 38: four more of the motif melt into them.
    await expect.poll(told).toBe('B 9 of 12');
    await throwPicks(page, 4);
    await expect.poll(told).toBe('C 1 of 2');
    await throwPicks(page, 2);
    await expect.poll(told).toBe('B 1 of 30');
  });

  it('cannot come next in a hem, and says so', async () => {
    await weaveDemo(page, 'ink-oat-ochre');
    await throwPicks(page, 4);
    await openMore(page, 'Motifs');
    await button(page, 'Weave it again: Border').tap();
    await page.getByText('the fell lies in a hem').waitFor();
    expect(await button(page, 'Weave it next').isDisabled()).toBe(true);
  });
});
