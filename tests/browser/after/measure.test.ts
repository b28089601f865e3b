import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import type { LearntWarp } from '../../../src/core/learn/learntWarp.ts';
import { openApp } from '../app.ts';
import {
  button,
  openMore,
  saved,
  storedEvents,
  storedRecords,
  toWarps,
  weaveDemo,
} from '../bench.ts';
import { findingsOn } from '../findings.ts';
import { piece, readSize, shortTowels, typeOnPad, weaveToTheEnd } from './cloth.ts';

let page: Page;

beforeAll(async () => {
  const app = await openApp({ reducedMotion: 'reduce', hasTouch: true });
  ({ page } = app);
  return app.close;
});

const taught = (name: string) => page.locator('.taught-row', { hasText: name });
const card = (title: string) => page.locator('.weave-foot .due', { hasText: title });

/** What is on the disk of what warps taught. */
async function storedLearnt(): Promise<readonly LearntWarp[]> {
  const records = (await storedRecords(page, 'records')) as readonly {
    readonly kind: string;
    readonly body: LearntWarp;
  }[];
  return records.filter((it) => it.kind === 'learnt').map((it) => it.body);
}

describe('after cutting off', () => {
  it('the bench asks for the warp’s own figures, and axe finds nothing', async () => {
    await weaveToTheEnd(page, shortTowels('Towel', 40));
    expect(await findingsOn(page)).toEqual([]);
    await button(page, 'Tell').click();
    expect(await findingsOn(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await page.setViewportSize({ width: 1180, height: 820 });
  });

  it('the question can be skipped, and is not asked again after a restart', async () => {
    await button(page, 'Skip').click();
    await card('Measure the cloth').waitFor();
    await saved(page);
    await page.reload();
    await card('Measure the cloth').waitFor();
    expect(await card('The warp’s own figures').count()).toBe(0);
  });

  it('undo takes the skipping back, and cutting off after it', async () => {
    await button(page, 'Undo').click();
    await card('The warp’s own figures').waitFor();
    await button(page, 'Undo').click();
    await button(page, 'Cut off').waitFor();
    await openMore(page, 'Redo');
    await openMore(page, 'Redo');
    await card('Measure the cloth').waitFor();
  });

  it('the cloth is measured from the bench as from the tile', async () => {
    await button(page, 'Measure').click();
    await page.locator('.measure').waitFor();
    await button(page, '‹ Warps').click();
    await page.locator('.warp-tile', { hasText: 'Towel' }).getByText('Measure').click();
    await page.locator('.measure').waitFor();
  });
});

describe('the Measure screen', () => {
  it('says of every figure that it is not learnt, and what it wants', async () => {
    await expect
      .poll(() => taught('Shrinkage in length').textContent())
      .toContain('Not learnt. Wants the length off the loom and the washed length.');
    expect(await taught('Draw-in').textContent()).toContain('a width at the fell');
    expect(await storedLearnt()).toEqual([]);
  });

  it('learns as readings are typed: several are averaged, with their spread', async () => {
    await readSize(page, 'Towel 1', 'length off the loom', ['27', '27½']);
    const cell = piece(page, 'Towel 1').getByRole('button', { name: /length off the loom/ });
    expect(await cell.textContent()).toContain('27¼ in');
    expect(await cell.textContent()).toContain('2\u00a0readings ±\u00a00.35\u00a0in');
    await readSize(page, 'Towel 1', 'length washed', ['25½']);
    await readSize(page, 'Towel 2', 'length off the loom', ['26']);
    await readSize(page, 'Towel 2', 'length washed', ['24']);
    // 27¼ to 25½ is 6.42 %, 26 to 24 is 7.69 %.
    await expect.poll(() => taught('Shrinkage in length').textContent()).toContain('7.1\u00a0%');
    expect(await taught('Shrinkage in length').textContent()).toContain('from 2 pieces');
  });

  it('shows the dimensional change as ISO 5077 does, a shrinkage negative', async () => {
    expect(await piece(page, 'Towel 1').textContent()).toContain('−6.4\u00a0% in length');
  });

  it('a reading struck is gone, and undo brings it back', async () => {
    const cell = piece(page, 'Towel 1').getByRole('button', { name: /length off the loom/ });
    await cell.click();
    await button(page, 'Take out 27½ in').click();
    await button(page, 'Close').click();
    await expect.poll(async () => (await cell.textContent())?.trim()).toBe('27 in');
    await button(page, '↶ Undo').click();
    await expect.poll(() => cell.textContent()).toContain('27¼ in');
  });

  it('keeps what it learnt on the disk, a function of the log', async () => {
    const [learnt] = await storedLearnt();
    expect(learnt?.name).toBe('Towel');
    const shares = learnt?.pieces.map((it) => it.shares.shrinkLength?.share ?? 0);
    expect(shares?.[0]).toBeCloseTo(1 - 25.5 / 27.25, 6);
    expect(shares?.[1]).toBeCloseTo(1 - 24 / 26, 6);
  });

  it('the other sizes, the weight, an end and the warp’s figures are read as well', async () => {
    await readSize(page, 'Towel 1', 'length on the loom', ['28']);
    await readSize(page, 'Towel 1', 'width on the loom', ['15']);
    await readSize(page, 'Towel 1', 'fringe washed', ['1½']);
    await piece(page, 'Towel 1')
      .getByRole('button', { name: /weight washed/ })
      .click();
    await typeOnPad(page, '4');
    await button(page, 'Keep this weight').click();
    await button(page, 'Close').click();
    await piece(page, 'Towel 1').getByRole('button', { name: 'One end drawn out' }).click();
    await typeOnPad(page, '9');
    await button(page, 'Next: Pulled straight').click();
    await typeOnPad(page, '9½');
    await button(page, 'Add this end').click();
    await button(page, 'Close').click();
    // D3883: 90 in the cloth pulled to 95 is a crimp of 5.56 % and a take-up of 5.26 %.
    await expect.poll(() => piece(page, 'Towel 1').textContent()).toContain('Crimp 5.6\u00a0%');
    expect(await piece(page, 'Towel 1').textContent()).toContain('take-up 5.3\u00a0%');
    expect(await taught('Draw-in').textContent()).toContain('6.3\u00a0%');
    await button(page, 'Tell its figures').click();
    await typeOnPad(page, '72');
    await button(page, 'Keep these figures').click();
    await page.locator('.warp-part', { hasText: '72 in' }).waitFor();
  });

  it('shows how a wish was met: forecast and real side by side', async () => {
    const row = page.locator('.wishes-table tr', { hasText: 'Towel 1, length washed' });
    expect(await row.textContent()).toContain('25½ in');
    expect(await row.textContent()).toContain('the forecast');
  });

  it('is there again after a restart, with everything that was read', async () => {
    const before = await page.locator('.measured-pieces').innerText();
    await page.reload();
    await page.locator('.measure').waitFor();
    expect(await page.locator('.measured-pieces').innerText()).toBe(before);
  });

  it('axe finds nothing on it and on its sheets, at every size', async () => {
    expect(await findingsOn(page)).toEqual([]);
    await piece(page, 'Towel 1')
      .getByRole('button', { name: /fringe washed/ })
      .click();
    expect(await page.locator('.care').textContent()).toContain('flames');
    expect(await findingsOn(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await piece(page, 'Towel 2')
      .getByRole('button', { name: /drawn out/ })
      .click();
    expect(await findingsOn(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await page.setViewportSize({ width: 1180, height: 820 });
  });
});

describe('the next plan', () => {
  const length = () => page.locator('.allowance', { hasText: 'Washing, of the length' });

  it('starts from what was learnt, says so, and forecasts with an interval', async () => {
    await page.setViewportSize({ width: 1180, height: 820 });
    await button(page, 'Plan another').click();
    await button(page, 'Weaving').click();
    await expect.poll(() => length().textContent()).toContain('from 2 washed pieces; likely');
    expect(await length().locator('input').inputValue()).toBe('7.1');
    const sizes = page.getByRole('region', { name: 'Sizes of the pieces' });
    expect(await sizes.textContent()).toMatch(/washed \(likely .* to .*\)/);
  });

  it('what is typed over it stays, and what was learnt is one tap away', async () => {
    await length().locator('input').fill('9');
    await length().locator('input').blur();
    expect(await length().textContent()).toContain('as you typed it');
    await length()
      .getByRole('button', { name: /^Use 7.1/ })
      .click();
    await expect.poll(() => length().textContent()).toContain('from 2 washed pieces');
  });

  it('learns nothing from a piece that is left out', async () => {
    await toTheWarp();
    await piece(page, 'Towel 2').getByRole('button', { name: 'Counts for the next plans' }).click();
    await expect.poll(() => taught('Shrinkage in length').textContent()).toContain('6.4\u00a0%');
    await button(page, 'Plan another').click();
    await button(page, 'Weaving').click();
    await expect.poll(() => length().textContent()).toContain('from 1 washed piece;');
  });

  it('at another sett starts from common practice, and offers a sample first', async () => {
    await button(page, 'Loom').click();
    await page.getByLabel('Slots and holes as sold', { exact: true }).fill('20');
    await button(page, 'Weaving').click();
    await expect.poll(() => length().textContent()).toContain('common practice');
    await button(page, 'Plan a sample first').click();
    await expect.poll(() => page.getByLabel('Name').first().inputValue()).toContain(', sample');
  });
});

/** From a plan back to the measured warp. */
async function toTheWarp(): Promise<void> {
  await button(page, '‹ Warps').click();
  await page.locator('.warp-tile', { hasText: 'Towel' }).getByText('Measure').first().click();
  await page.locator('.measure').waitFor();
}

describe('a demo', () => {
  it('teaches nothing', async () => {
    await button(page, '‹ Warps').click();
    await toWarps(page);
    const before = await storedLearnt();
    await weaveDemo(page, 'moss-and-chalk');
    await openMore(page, 'Several picks');
    await button(page, '20').click();
    await button(page, 'Count 20').click();
    await saved(page);
    expect((await storedEvents(page)).some((it) => it.kind === 'thrown')).toBe(true);
    expect(await storedLearnt()).toEqual(before);
  });
});
