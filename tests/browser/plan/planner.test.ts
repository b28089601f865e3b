// The planner in a real browser: what is typed counts at once, is kept, and can be taken back.
import type { Page } from 'playwright-core';
import { beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { formatLength } from '../../../src/core/measure/length.ts';
import { formatMass } from '../../../src/core/measure/mass.ts';
import { formatBlocks } from '../../../src/core/plan/orderText.ts';
import type { Plan } from '../../../src/core/plan/plan.ts';
import { newPlan } from '../../../src/core/planner/newPlan.ts';
import { sheetOf } from '../../../src/core/planner/sheet.ts';
import { openApp } from '../app.ts';
import { button, closed, countPicks, saved, storedEvents, storedRecords } from '../bench.ts';
import { demoPlan } from '../expected.ts';
import {
  figure,
  type KeyFigure,
  leave,
  openPart,
  partTab,
  planBecomes,
  planFrom,
  planNew,
  putOnLoom,
  row,
  rowField,
  storedDrafts,
  storedPlan,
  tileOf,
  wordsBeside,
  write,
} from './planner.ts';

let page: Page;

beforeAll(async () => {
  const app = await openApp();
  ({ page } = app);
  return app.close;
});

/** A plan as the app begins one, with a second yarn in an alternation of the weft. */
function twoYarns(name: string): Plan {
  const plan = newPlan('inch', 'rigid-heddle');
  const [first] = plan.yarns;
  const [piece] = plan.pieces;
  if (first === undefined || piece === undefined) throw new Error('got a plan without yarn');
  const extent = { kind: 'length', loomLength: 203.2 } as const;
  const cycle = ['A', 'B'].map((yarn) => ({ yarn, picks: 2 }));
  const alternation = {
    kind: 'alternation',
    cycle,
    path: 'round',
    opens: 'B',
    closes: 'B',
  } as const;
  return {
    ...plan,
    name,
    yarns: [first, { ...first, letter: 'B', name: 'indigo', colour: '#2d4a73' }],
    warp: {
      ...plan.warp,
      order: [
        { kind: 'solid', yarn: 'A', ends: 60 },
        { kind: 'solid', yarn: 'B', ends: 12 },
        { kind: 'solid', yarn: 'A', ends: 60 },
      ],
    },
    pieces: [{ ...piece, name: 'Towel', weft: [{ ...alternation, extent }] }],
  };
}

const figureBecomes = (name: KeyFigure, words: string) =>
  expect.poll(() => figure(page, name), { interval: 10 }).toBe(words);
const isReady = (ready: boolean) =>
  expect.poll(() => putOnLoom(page).isEnabled(), { interval: 10 }).toBe(ready);
const isPale = () => page.locator('.sum').getAttribute('data-stale');
const label = (name: string) => page.getByLabel(name, { exact: true });

/** Opens the first row of the warp of a new plan. */
async function openFirstRow(): Promise<void> {
  await openPart(page, 'Warp');
  await row(page, 0).click();
}

describe('while a number is typed', () => {
  beforeEach(() => planNew(page));

  it('all that follows from it is computed with every digit', async () => {
    await openFirstRow();
    await rowField(page, 'Ends').click();
    const plan = newPlan('inch', 'rigid-heddle');
    for (const [digit, ends] of [
      ['1', 1],
      ['2', 12],
      ['4', 124],
    ] as const) {
      await page.keyboard.type(digit);
      const order = [{ kind: 'solid', yarn: 'A', ends }] as const;
      const { widths } = sheetOf({ ...plan, warp: { ...plan.warp, order } });
      await figureBecomes('Ends', String(ends));
      await figureBecomes('In the reed', formatLength(widths.reed, 'inch'));
      await figureBecomes('Washed width', formatLength(widths.washed, 'inch'));
    }
  });

  it.each(['0', '1.5', '20000'])('%s ends stand wrong beside it, until mended', async (typed) => {
    await openFirstRow();
    await rowField(page, 'Ends').fill('120');
    await figureBecomes('Ends', '120');
    await rowField(page, 'Ends').fill(typed);
    await isReady(false);
    const [words, ...others] = await wordsBeside(page, 'Ends');
    expect(words).toMatch(/(At least 1|Give a whole number|At most 10000)\.$/);
    expect(others).toEqual([]);
    expect(await partTab(page, 'Warp').textContent()).toContain('1 to mend');
    // The last figures that could be computed stay in sight, paled.
    expect(await isPale()).toBe('true');
    expect(await figure(page, 'Ends')).toBe('120');
    await rowField(page, 'Ends').fill('80');
    await isReady(true);
    expect(await wordsBeside(page, 'Ends')).toEqual([]);
    expect(await isPale()).toBe('false');
    await figureBecomes('Ends', '80');
  });

  it('a plan without a name says so right there', async () => {
    await label('Name of the plan').fill(' ');
    await isReady(false);
    await page.locator('.plan-head .problem').waitFor();
    await label('Name of the plan').fill('Linen');
    await isReady(true);
    expect(await page.locator('.plan-head .problem').count()).toBe(0);
  });

  it('a length that cannot be read says what can, and nothing goes on the loom meanwhile', async () => {
    await label('Weaving width').fill('two feet');
    await expect.poll(() => wordsBeside(page, 'Weaving width')).not.toEqual([]);
    await isReady(false);
    await label('Weaving width').fill('2 ft 1 in');
    await isReady(true);
    expect(await wordsBeside(page, 'Weaving width')).toEqual([]);
    await planBecomes(page, (plan) => plan.loom.weavingWidth).toBeCloseTo(25 * 25.4, 6);
  });

  it('a warp wider than the loom is said with how much, and is computed all the same', async () => {
    await openFirstRow();
    await rowField(page, 'Ends').fill('350');
    await isReady(false);
    // 24 in at 12.5 to the inch are 300 ends; 350 are 28 in.
    await figureBecomes('Ends', '350');
    await figureBecomes('In the reed', '28 in too wide by 4 in');
    expect(await isPale()).toBe('false');
    const words = await page.locator('.plan-part > .part-fields > .problem').allTextContents();
    expect(words).toEqual(['350 ends are wider than the loom. At most 300 ends fit.']);
    await openPart(page, 'Loom');
    await label('Weaving width').fill('28');
    await isReady(true);
    await figureBecomes('In the reed', '28 in');
  });
});

describe('what is wrong elsewhere', () => {
  it('is marked on its part, on its piece and on its row', async () => {
    await planFrom(page, twoYarns('Marked'));
    await openPart(page, 'Pieces');
    await button(page, 'One more like it').click();
    await openPart(page, 'Yarns');
    await page.locator('.yarn-row').nth(1).click();
    await button(page, 'Take indigo out of the plan').click();
    await isReady(false);
    expect(await partTab(page, 'Warp').textContent()).toContain('1 to mend');
    expect(await partTab(page, 'Pieces').textContent()).toContain('2 to mend');
    await openPart(page, 'Warp');
    const here = page.locator('.order-row').nth(1);
    expect(await here.locator('.problem').textContent()).toBe(
      'No yarn has the letter B. The plan’s yarns are A.',
    );
    await openPart(page, 'Pieces');
    expect(await button(page, '2. Towel 2 1 to mend').count()).toBe(1);
    await button(page, 'Undo').click();
    await isReady(true);
    expect(await page.locator('.problem, .part-wrong').count()).toBe(0);
  });
});

describe('undo and redo', () => {
  it('go over the whole edit, one step a field, back to the start and forth again', async () => {
    await planFrom(page, twoYarns('Undone'));
    const states: string[] = [];
    const keep = async () => states.push(JSON.stringify(await storedPlan(page)));
    await write(label('Name of the plan'), 'Undone again');
    await keep();
    await openPart(page, 'Yarns');
    await page.locator('.yarn-row').first().click();
    await write(label('On hand'), '8 oz');
    await keep();
    await openPart(page, 'Warp');
    await row(page, 0).click();
    await write(rowField(page, 'Ends'), '48');
    await keep();
    await button(page, 'Mirror this').click();
    await keep();
    await openPart(page, 'Pieces');
    await button(page, 'One more like it').click();
    await keep();
    await openPart(page, 'Weaving');
    await label('Hemstitch tail').fill('4');
    await keep();
    expect(new Set(states).size).toBe(6);

    for (let i = states.length - 2; i >= 0; i--) {
      await button(page, 'Undo').click();
      await planBecomes(page, (plan) => JSON.stringify(plan)).toBe(states[i]);
    }
    await button(page, 'Undo').click();
    await planBecomes(page, ({ name }) => name).toBe('Undone, again');
    expect(await button(page, 'Undo').isDisabled()).toBe(true);
    for (const state of states) {
      await button(page, 'Redo').click();
      await planBecomes(page, (plan) => JSON.stringify(plan)).toBe(state);
    }
    expect(await button(page, 'Redo').isDisabled()).toBe(true);
  });

  it('show in the field what the plan then holds, also where typing had not ended', async () => {
    await planNew(page);
    await write(label('Weaving width'), '30');
    // As a tap on a tablet does: the button does not take the focus from the field.
    await button(page, 'Undo').evaluate((it) => (it as HTMLButtonElement).click());
    await expect.poll(() => label('Weaving width').inputValue()).toBe('24 in');
    await button(page, 'Redo').evaluate((it) => (it as HTMLButtonElement).click());
    await expect.poll(() => label('Weaving width').inputValue()).toBe('30 in');
  });

  it('after an edit there is nothing to redo', async () => {
    await planNew(page);
    await label('Weaving width').fill('30');
    await button(page, 'Undo').click();
    await label('Weaving width').fill('31');
    expect(await button(page, 'Redo').isDisabled()).toBe(true);
  });
});

describe('an order', () => {
  beforeEach(() => planFrom(page, twoYarns('Orders')));

  const line = () => label('In one line');

  it('typed in one line is there in rows, and a row changed is there in the line', async () => {
    await openPart(page, 'Warp');
    await line().fill('20 A, 9 turns of (2 B, 2 A), mirror (12 A, 6 B)');
    await figureBecomes('Ends', String(20 + 18 + 30));
    expect(await page.locator('.row-main').allTextContents()).toEqual([
      '20 ends',
      '9 turns',
      'Mirror',
      '12 ends',
      '6 ends',
    ]);
    await row(page, 1).click();
    await rowField(page, 'In all: more').click();
    await expect
      .poll(() => line().inputValue())
      .toBe('20 A, 10 turns of (2 B, 2 A), mirror (12 A, 6 B)');
    await figureBecomes('Ends', String(20 + 20 + 30));
  });

  it('that cannot be read says where and why, and the plan stays', async () => {
    await openPart(page, 'Warp');
    await line().fill('20 A, 9 turn');
    await page.locator('.order-line .problem').waitFor();
    expect(await line().getAttribute('aria-invalid')).toBe('true');
    await figureBecomes('Ends', '132');
  });

  it('of the weft as drawn in has a pick for every end, and squared the same stripes as long as wide', async () => {
    await openPart(page, 'Pieces');
    await button(page, 'As drawn in').click();
    await expect.poll(() => line().inputValue()).toBe('60 picks A, 12 picks B, 60 picks A');
    await button(page, 'As drawn in, squared').click();
    // Washed 14.3 ends and 11.2 picks to the inch: 60 ends are as wide as 47 picks are long.
    await expect.poll(() => line().inputValue()).toBe('47 picks A, 9 picks B, 47 picks A');
  });

  it('is copied from another piece, and stays its own', async () => {
    await openPart(page, 'Pieces');
    await button(page, 'One more like it').click();
    await line().fill('6 in B');
    await button(page, '1. Towel').click();
    await button(page, 'Copy from 2. Towel 2').click();
    await expect.poll(() => line().inputValue()).toBe('6 in B');
    await line().fill('7 in B');
    await planBecomes(page, ({ pieces }) =>
      pieces.map(({ weft }) => formatBlocks(weft, 'inch')),
    ).toEqual(['7 in B', '6 in B']);
  });
});

describe('a fit', () => {
  it('to a washed width is taken by one tap, reaches what it says, and is undone by one', async () => {
    await planFrom(page, twoYarns('Width'));
    await openPart(page, 'Warp');
    await page.getByText('Fit to a washed width').click();
    await label('Washed width wished').fill('10');
    const fit = page.locator('.fits .button').first();
    const [, reached] = /reaches (.+?), /.exec((await fit.textContent()) ?? '') ?? [];
    const before = await figure(page, 'Ends');
    await fit.click();
    await figureBecomes('Washed width', reached ?? '');
    expect(await page.locator('.fits-now').textContent()).toContain(`Now ${reached}`);
    expect(Math.abs(sheetOf(await storedPlan(page)).widths.washed - 254)).toBeLessThan(25.4 / 8);
    await button(page, 'Undo').click();
    await figureBecomes('Ends', before);
  });

  it('to a wished length too, and the piece says how far it is from the wish', async () => {
    await planFrom(page, twoYarns('Length'));
    await openPart(page, 'Pieces');
    await label('Length wished, without fringe').fill('9');
    const hint = page.locator('.wish .hint');
    const [piece] = sheetOf(await storedPlan(page)).pieces;
    const reached = formatLength(piece?.finishedLength ?? 0, 'inch');
    await expect.poll(() => hint.textContent()).toContain(`it comes to ${reached}, `);
    await page.getByText('Fit to the wished length').click();
    await page.locator('.fits .button').first().click();
    await expect.poll(async () => Math.abs(await missed())).toBeLessThan(25.4 / 4);
    const again = sheetOf(await storedPlan(page)).pieces[0]?.finishedLength ?? 0;
    expect(await hint.textContent()).toContain(`it comes to ${formatLength(again, 'inch')}, `);
  });

  const missed = async () => sheetOf(await storedPlan(page)).pieces[0]?.wish?.miss ?? 999;
});

describe('from the shelf', () => {
  it('a new plan begins with the only heddle, as wide as that takes, and with the yarns and what is left of them', async () => {
    await leave(page);
    await button(page, 'Yarns').click();
    await button(page, 'Add a yarn').click();
    await label('Name').fill('Kelp');
    await label('Cone and yarn together').fill('10 oz');
    await button(page, 'Put it on the shelf').click();
    await button(page, 'Add a heddle').click();
    await label('Name').fill('The fine one');
    await label('Weaving width').fill('15');
    await button(page, 'Put it on the shelf').click();
    await closed(page);

    await planNew(page);
    expect(await label('Weaving width').inputValue()).toBe('15 in');
    expect(await label('Slots and holes as sold').inputValue()).toBe('10');
    expect(await button(page, 'The fine one').getAttribute('aria-pressed')).toBe('true');
    await isReady(true);
    await openPart(page, 'Yarns');
    await page.locator('.yarn-row').click();
    expect(await label('Name').inputValue()).toBe('Kelp');
    expect(await label('On hand').inputValue()).toBe('10 oz');
    expect(await button(page, 'Kelp').count()).toBe(0);
  });

  it('a heddle comes with its dents and its width, a yarn in the place of another or beside it', async () => {
    await planNew(page);
    await label('Weaving width').fill('20');
    await button(page, 'The fine one').click();
    await expect.poll(() => label('Weaving width').inputValue()).toBe('15 in');
    await openPart(page, 'Yarns');
    await button(page, 'Add a yarn').click();
    await planBecomes(page, ({ yarns }) => yarns.map(({ letter }) => letter).join('')).toBe('AB');
    const kelp = (await storedPlan(page)).yarns[0]?.shelf;
    expect(kelp).toBeDefined();
    await page.locator('.yarn-row').first().click();
    await button(page, 'Take Kelp out of the plan').click();
    await page.locator('.yarn-row').click();
    await page
      .getByRole('group', { name: 'Another from the shelf instead' })
      .getByText('Kelp')
      .click();
    await planBecomes(page, ({ yarns }) =>
      yarns.map(({ letter, name, shelf }) => [letter, name, shelf]),
    ).toEqual([['B', 'Kelp', kelp]]);
    await page.locator('.yarn-row').first().click();
    expect(await button(page, 'Kelp').count()).toBe(0);
  });
});

describe('an allowance', () => {
  it('says where it comes from, and when it was typed', async () => {
    await planNew(page);
    await openPart(page, 'Weaving');
    const hint = page.locator('.field', { has: label('Washing, of the length') }).locator('.hint');
    expect(await hint.textContent()).toBe('common practice');
    await label('Washing, of the length').fill('10');
    await expect.poll(() => hint.textContent()).toBe('as you typed it');
    await planBecomes(page, (plan) => plan.allowances.shrinkLength).toEqual({
      share: 0.1,
      from: { kind: 'typed' },
    });
    await label('Washing, of the length').fill('95');
    await isReady(false);
    expect(await wordsBeside(page, 'Washing, of the length')).toHaveLength(1);
  });
});

describe('inches and centimetres', () => {
  it('tell of one and the same plan', async () => {
    await planFrom(page, twoYarns('Units'));
    await label('Name of the plan').fill('Units twice');
    const before = await storedPlan(page);
    const { widths } = sheetOf(before);
    await figureBecomes('In the reed', formatLength(widths.reed, 'inch'));
    await button(page, 'Centimetres').click();
    await figureBecomes('In the reed', formatLength(widths.reed, 'metric'));
    await figureBecomes('Washed width', formatLength(widths.washed, 'metric'));
    expect(await storedPlan(page)).toEqual({ ...before, units: 'metric' });
    await button(page, 'Inches').click();
    expect(await storedPlan(page)).toEqual(before);
  });
});

describe('in sight whatever part is open', () => {
  const alarms = () => page.locator('.alarms li').allTextContents();

  it('stands by how much a yarn is short', async () => {
    await planFrom(page, twoYarns('Short of yarn'));
    await openPart(page, 'Yarns');
    await page.locator('.yarn-row').first().click();
    await label('On hand').fill('1 oz');
    const [natural] = sheetOf(await storedPlan(page)).yarns;
    const grams = formatMass(-(natural?.left?.grams ?? 0), 'inch');
    await expect.poll(alarms).toEqual([`natural is short by ${grams}`]);
    const need = page.locator('.need[data-verdict="short"]');
    expect(await need.locator('.verdict').textContent()).toContain(grams);
    await label('On hand').fill('2 lb');
    await expect.poll(alarms).toEqual([]);
  });

  it('stands that two yarns of one lightness will not read apart', async () => {
    await planFrom(page, twoYarns('Pale on pale'));
    await openPart(page, 'Yarns');
    expect(await alarms()).toEqual([]);
    await page.locator('.yarn-row').nth(1).click();
    await button(page, 'Bleached linen').click();
    await expect.poll(alarms).toEqual(['natural and indigo will not read apart']);
    const reading = page.getByRole('region', { name: 'Will it read' }).locator('.wrong');
    expect(await reading.textContent()).toContain('natural and indigo will vanish into one colour');
    await button(page, 'Indigo').click();
    await expect.poll(alarms).toEqual([]);
  });
});

describe('another kind of loom', () => {
  it('leaves the plan weavable, there and back', async () => {
    await planFrom(page, demoPlan('ink-oat-ochre'));
    for (const kind of ['Rigid heddle', 'Shafts']) {
      await button(page, kind).click();
      await label('Weaving width').fill('140 cm');
      await isReady(true);
    }
  });
});

describe('planning another', () => {
  it('from a warp that is being woven leaves that warp and its log alone', async () => {
    await planFrom(page, twoYarns('Woven'));
    await leave(page);
    await tileOf(page, 'Woven').getByRole('button', { name: 'Weave', exact: true }).click();
    await countPicks(page, 3);
    await saved(page);
    const log = await storedEvents(page);
    await button(page, '‹ Warps').click();
    await tileOf(page, 'Woven').getByRole('button', { name: 'Plan another' }).click();
    await expect.poll(() => label('Name of the plan').inputValue()).toBe('Woven, again');
    await openFirstRow();
    await rowField(page, 'Ends').fill('64');
    await isReady(true);
    await putOnLoom(page).click();
    await page.locator('.warping').waitFor();

    expect(await storedEvents(page)).toEqual(log);
    const warps = (await storedRecords(page, 'warps')) as readonly { id: string; name: string }[];
    const [one, other] = ['Woven', 'Woven, again'].map((name) =>
      warps.find((warp) => warp.name === name),
    );
    expect(other?.id).not.toBe(one?.id);
    const revisions = (await storedRecords(page, 'revisions')) as readonly {
      readonly warp: string;
      readonly plan: Plan;
    }[];
    const endsOf = (id: string | undefined) =>
      revisions.find(({ warp }) => warp === id)?.plan.warp.order[0];
    expect(endsOf(one?.id)).toMatchObject({ ends: 60 });
    expect(endsOf(other?.id)).toMatchObject({ ends: 64 });
    await leave(page);
    expect(await tileOf(page, 'Woven').textContent()).toContain('pick 4 of');
  });

  it('put on the loom by two quick taps is one warp, and its draft is gone', async () => {
    await planFrom(page, twoYarns('Once'));
    await label('Name of the plan').fill('Once only');
    await isReady(true);
    await putOnLoom(page).evaluate((it) => {
      (it as HTMLButtonElement).click();
      (it as HTMLButtonElement).click();
    });
    await page.locator('.warping').waitFor();
    const warps = (await storedRecords(page, 'warps')) as readonly { name: string }[];
    expect(warps.filter(({ name }) => name === 'Once only')).toHaveLength(1);
    const drafts = (await storedDrafts(page)).map(({ body }) => (body as Plan).name);
    expect(drafts).not.toContain('Once only');
  });
});
