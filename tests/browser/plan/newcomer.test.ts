// From the first screen to the loom as a newcomer goes: by touch alone, every touch counted.
import type { Locator, Page } from 'playwright-core';
import { beforeAll, expect, it } from 'vitest';
import { checkPlan } from '../../../src/core/plan/checkPlan.ts';
import type { Plan } from '../../../src/core/plan/plan.ts';
import { type PlanSheet, sheetOf } from '../../../src/core/planner/sheet.ts';
import { openApp } from '../app.ts';
import { button, dueCard, readCall, scene, storedRecords } from '../bench.ts';
import { storedDrafts } from './planner.ts';

/** Touches from the first screen to a plan that can be woven; what is typed is not counted. */
const BUDGET = 60;

const INCH = 25.4;

let page: Page;
let touches = 0;

beforeAll(async () => {
  const app = await openApp({ hasTouch: true, viewport: { width: 820, height: 1180 } });
  ({ page } = app);
  return app.close;
});

async function tap(target: Locator): Promise<void> {
  touches += 1;
  await target.tap();
}

/** One touch into a field, then typing over what stood there, as the keyboard on the glass does. */
async function write(field: Locator, words: string): Promise<void> {
  await tap(field);
  await page.keyboard.type(words);
}

const label = (name: string) => page.getByLabel(name, { exact: true });
const add = (where: string, kind: string) =>
  page.locator('.order-add', { hasText: where }).getByRole('button', { name: kind });
const inRow = (name: string) => page.locator('.row-card').getByLabel(name, { exact: true });

async function yarn(name: string, colour: string, onHand: string): Promise<void> {
  await write(label('Name'), name);
  await tap(button(page, colour));
  await write(label('On hand'), onHand);
}

async function threeYarns(): Promise<void> {
  await tap(button(page, 'Yarns ›'));
  await tap(page.locator('.yarn-row'));
  await yarn('sailcloth', 'Bleached linen', '12 oz');
  await tap(button(page, 'Add a yarn'));
  await yarn('deep water', 'Indigo', '8 oz');
  await tap(button(page, 'Add a yarn'));
  await yarn('buoy', 'Rose hip', '100 g');
}

/** Stripes from the edge to the middle, mirrored, then made as wide as wished. */
async function warp(): Promise<void> {
  await tap(button(page, 'Warp ›'));
  await tap(page.locator('.row-head'));
  await write(inRow('Ends'), '30');
  await tap(button(page, 'Mirror this'));
  await tap(add('Add inside', 'Solid'));
  await tap(inRow('Ends: more'));
  await tap(inRow('Ends: more'));
  await tap(add('Add below', 'Alternation'));
  await tap(add('Add below', 'Solid'));
  await tap(page.locator('.row-card').getByRole('button', { name: 'C buoy' }));
  await write(inRow('Ends'), '8');
  await tap(add('Add below', 'Solid'));
  await write(inRow('Ends'), '40');
  await tap(page.getByText('Fit to a washed width'));
  await write(label('Washed width wished'), '17');
  await tap(page.locator('.fits .button').first());
}

/** A solid, two and two, a solid, with a fringe at both ends; fitted, then twice more. */
async function towels(): Promise<void> {
  await tap(button(page, 'Pieces ›'));
  await write(label('Name'), 'Towel 1');
  await write(label('Length wished, without fringe'), '26');
  await tap(page.locator('.row-head'));
  await write(inRow('Length on the loom'), '6');
  await tap(add('Add at the end', 'Alternation'));
  await write(inRow('Length on the loom'), '8');
  await tap(add('Add at the end', 'Solid'));
  await write(inRow('Length on the loom'), '12');
  await tap(page.getByText('Fit to the wished length'));
  await tap(page.locator('.fits .button').first());
  for (const edge of ['It begins with', 'It ends with']) {
    await tap(
      page.getByRole('group', { name: edge }).getByRole('button', { name: 'hemstitching' }),
    );
  }
  await tap(button(page, 'One more like it'));
  await tap(button(page, 'One more like it'));
}

async function plannedOnLoom(): Promise<Plan> {
  const [revision] = (await storedRecords(page, 'revisions')) as readonly { plan: unknown }[];
  const checked = checkPlan(revision?.plan);
  if (!checked.ok) throw new Error(`got no plan: ${JSON.stringify(checked.problem)}`);
  return checked.value;
}

it(`three hand towels of invented yarns are planned in ${BUDGET} touches, and can be woven`, async () => {
  await tap(button(page, 'Plan a warp'));
  await write(label('Name of the plan'), 'Harbour towels');
  await threeYarns();
  await warp();
  await towels();
  await expect.poll(() => button(page, 'Put on the loom').isEnabled()).toBe(true);
  console.info(`${touches} touches to a plan that can be woven`);
  expect(touches).toBeLessThanOrEqual(BUDGET);
});

let plan: Plan;
let sheet: PlanSheet;

it('and go on the loom in one touch more, by way of the warping list to the bench', async () => {
  await tap(button(page, 'Put on the loom'));
  await page.locator('.warping').waitFor();
  await tap(button(page, 'Weave'));
  await scene(page).waitFor();
  plan = await plannedOnLoom();
  sheet = sheetOf(plan);
  expect(plan.name).toBe('Harbour towels');
  expect(await storedDrafts(page)).toEqual([]);
});

it('as they were wished: the yarns, the mirrored warp, the width', () => {
  expect(plan.yarns.map(({ name, onHand }) => [name, Math.round(onHand ?? 0)])).toEqual([
    ['sailcloth', 340],
    ['deep water', 227],
    ['buoy', 100],
  ]);
  expect(sheet.warp.mirrored).toBe(true);
  expect(sheet.warp.endsOfYarn.every((ends) => ends > 0)).toBe(true);
  // In proportion every stripe moves by whole ends, and the mirrored ones by two at a time.
  expect(Math.abs(sheet.widths.washed - 17 * INCH)).toBeLessThan(INCH / 4);
  expect(sheet.dents.fits).toBe(true);
  expect(sheet.yarns.map(({ verdict }) => verdict)).toEqual(['enough', 'enough', 'enough']);
});

it('as they were wished: three alike, of the length, hemstitched at both ends', () => {
  expect(plan.pieces.map(({ name }) => name)).toEqual(['Towel 1', 'Towel 2', 'Towel 3']);
  for (const [i, piece] of plan.pieces.entries()) {
    expect([piece.beginning.kind, piece.ending.kind]).toEqual(['hemstitch', 'hemstitch']);
    expect(piece.weft.map(({ kind }) => kind)).toEqual(['solid', 'alternation', 'solid']);
    // Two picks are two tenths of an inch on the loom; a solid is never odd.
    expect(Math.abs(sheet.pieces[i]?.wish?.miss ?? INCH)).toBeLessThan(INCH / 8);
  }
});

it('and are woven: the tail, four picks, the hemstitching', async () => {
  await tap((await dueCard(page, /^Leave a tail/)).getByRole('button', { name: 'Done' }));
  for (let picks = 1; picks <= 4; picks++) {
    await tap(scene(page));
    await expect.poll(async () => (await readCall(page)).pick).toBe(picks + 1);
    // A second touch sooner than this is a bounce.
    await page.waitForTimeout(260);
  }
  const { name, shed, from } = await readCall(page);
  expect({ name, shed, from }).toEqual({ name: 'sailcloth', shed: 'up', from: 'right' });
  await dueCard(page, 'Hemstitch the beginning');
});
