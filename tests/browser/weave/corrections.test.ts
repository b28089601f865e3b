import type { Page } from 'playwright-core';
import { beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { NO_ADJUSTMENTS } from '../../../src/core/bench/adjustments.ts';
import { type Course, layCourse } from '../../../src/core/bench/course.ts';
import { pickAt, shedAt } from '../../../src/core/bench/pickAt.ts';
import { formatLength, MM_PER_INCH } from '../../../src/core/measure/length.ts';
import { SHED_WORDS, type Side } from '../../../src/core/plan/plan.ts';
import { openApp } from '../app.ts';
import {
  button,
  closed,
  countPicks,
  dueCard,
  dueTitles,
  openMore,
  readCall,
  saved,
  scene,
  setBounce,
  setStepper,
  throwPicks,
  weaveDemo,
} from '../bench.ts';
import { courseOf, demoPlan, expectedCall } from '../expected.ts';

const plan = demoPlan('moss-and-chalk');
const course = courseOf(plan);
const words = SHED_WORDS[plan.loom.kind];

let page: Page;

beforeAll(async () => {
  const app = await openApp();
  ({ page } = app);
  await weaveDemo(page, 'moss-and-chalk');
  await setBounce(page, 'at once');
  return app.close;
});

beforeEach(() => weaveDemo(page, 'moss-and-chalk'));

const shown = async () => {
  const { spoken: _, ...call } = await readCall(page);
  return call;
};

const expectPick = (pick: number, of: Course = course) =>
  expect.poll(shown, { interval: 20, message: `pick ${pick}` }).toEqual(expectedCall(of, pick));

describe('the other shed', () => {
  it('is taken from this pick to the end of the piece, and the next piece starts as planned', async () => {
    const at = 245;
    const flipped = layCourse(plan, { ...NO_ADJUSTMENTS, shedFlips: [at] });
    await throwPicks(page, at);
    await expectPick(at);
    const planned = (await readCall(page)).shed;
    await openMore(page, 'Other shed');
    await closed(page);
    await expectPick(at, flipped);
    expect((await readCall(page)).shed).not.toBe(planned);
    await throwPicks(page, 6);
    await expectPick(251, flipped);
    await throwPicks(page, 1);
    await expectPick(252, flipped);
    expect((await readCall(page)).shed).toBe('up');
  });

  it('taken twice is the shed of the plan, also after a reload', async () => {
    await throwPicks(page, 5);
    await openMore(page, 'Other shed');
    await closed(page);
    await openMore(page, 'Other shed');
    await closed(page);
    await saved(page);
    await page.reload();
    await scene(page).waitFor();
    await expectPick(5);
  });
});

describe('picks taken out', () => {
  it('bring back the pick, the shed and the sides of before', async () => {
    await throwPicks(page, 55);
    await openMore(page, 'Take picks out');
    await setStepper(page, 'Picks taken out', 7);
    await button(page, 'Take out 7').click();
    await closed(page);
    await expectPick(48);
  });

  it('take with them the other shed of a pick that is out', async () => {
    await throwPicks(page, 10);
    await openMore(page, 'Other shed');
    await closed(page);
    await throwPicks(page, 2);
    await openMore(page, 'Take picks out');
    await setStepper(page, 'Picks taken out', 4);
    await button(page, 'Take out 4').click();
    await closed(page);
    await throwPicks(page, 4);
    await expectPick(12);
  });

  it('cannot be more than are woven', async () => {
    await throwPicks(page, 2);
    await openMore(page, 'Take picks out');
    await setStepper(page, 'Picks taken out', 2);
    const more = page.getByRole('button', { name: 'Picks taken out: one more' });
    expect(await more.isDisabled()).toBe(true);
    await button(page, 'Take out 2').click();
    await closed(page);
    await expectPick(0);
    await button(page, 'More').click();
    const entry = page.locator('.menu-button', { hasText: 'Take picks out' });
    expect(await entry.isDisabled()).toBe(true);
    await page.keyboard.press('Escape');
    await closed(page);
  });
});

describe('several picks at once', () => {
  it('are counted by a stepper and by buttons of round numbers', async () => {
    await countPicks(page, 7);
    await expectPick(7);
    await openMore(page, 'Several picks');
    await button(page, '20').click();
    await button(page, 'Count 20').click();
    await closed(page);
    await expectPick(27);
  });
});

/** What lies at the fell after `picks` picks of the plan, as a weaver would tell it. */
function seenAfter(picks: number) {
  const last = pickAt(course, picks - 1);
  const next = pickAt(course, picks);
  const yarn = plan.yarns[last?.yarn ?? -1];
  if (last === null || next === null || yarn === undefined) throw new Error(`no pick ${picks}`);
  return {
    yarn: `${yarn.letter} ${yarn.name}`,
    picks: last.stripe.done + 1,
    shed: words[shedAt(course, next.piece, picks)] ?? '',
    side: last.from === 'left' ? 'right' : 'left',
  };
}

/** How the screen names a place, with the length of what is woven: ten picks an inch. */
function proposal(picks: number): string {
  const isFirst = picks <= 252;
  const ofPiece = isFirst ? picks : picks - 252;
  const name = plan.pieces[isFirst ? 0 : 1]?.name;
  const woven = formatLength((ofPiece / 10) * MM_PER_INCH, 'inch');
  return `After pick ${ofPiece} of ${name}, about ${woven}`;
}

type Seen = ReturnType<typeof seenAfter>;

async function tell(seen: Seen): Promise<void> {
  await button(page, seen.yarn).click();
  await setStepper(page, 'Picks of it, counted back from the fell', seen.picks);
  await button(page, seen.shed).click();
  await button(page, seen.side).click();
}

describe('a length woven', () => {
  async function countLength(keys: readonly string[]): Promise<void> {
    await openMore(page, 'A length woven');
    for (const key of keys) await button(page, key).click();
    await button(page, 'Count this length').click();
    await closed(page);
  }

  // At ten picks an inch: the whole number of picks nearest to the length (ties go down).
  it.each([
    { keys: ['3'], picks: 30 },
    { keys: ['1', '⅛'], picks: 11 },
    { keys: ['⅞'], picks: 9 },
    { keys: ['2', '.', '4'], picks: 24 },
    { keys: ['1', '2', 'delete', '½'], picks: 15 },
  ])('of $keys is counted as $picks picks and marked as estimated', async ({ keys, picks }) => {
    await throwPicks(page, 20);
    expect(await page.locator('.tape-fell').textContent()).not.toContain('≈');
    await countLength(keys);
    await expectPick(20 + picks);
    await dueCard(page, 'Look at the loom');
    expect(await page.locator('.tape-fell').textContent()).toContain('≈');
  });

  it('never goes beyond the end of the piece', async () => {
    await throwPicks(page, 240);
    await countLength(['9', '9']);
    await expectPick(252);
  });

  it('leaves shed and side to be told once, and then has them as told', async () => {
    await throwPicks(page, 4);
    await (await dueCard(page, 'Hemstitch')).getByRole('button', { name: 'Stitched' }).click();
    await countLength(['1']);
    await expectPick(14);
    const planned = await readCall(page);
    const shed = planned.shed === 'up' ? 'down' : 'up';
    const side: Side = planned.from === 'left' ? 'right' : 'left';
    const card = await dueCard(page, 'Look at the loom');
    await card.getByRole('button', { name: 'Tell' }).click();
    await button(page, shed).click();
    await button(page, side).click();
    await page.locator('.place', { hasText: 'After pick 14 of Towel one' }).click();
    await closed(page);
    await expect.poll(async () => (await readCall(page)).shed).toBe(shed);
    expect((await readCall(page)).from).toBe(side);
    const told = { ...NO_ADJUSTMENTS, shedFlips: [14], sides: [{ pick: 14, yarn: 0, side }] };
    await expectPick(14, layCourse(plan, told));
    expect(await dueTitles(page)).toEqual([]);
    await throwPicks(page, 20);
    await expectPick(34, layCourse(plan, told));
  });

  it('can be settled by one tap where the loom agrees with the app', async () => {
    await throwPicks(page, 60);
    await countLength(['2']);
    await (await dueCard(page, 'Look')).getByRole('button', { name: 'Tell' }).click();
    await page.locator('.place').first().click();
    await closed(page);
    await expectPick(80);
    expect(await dueTitles(page)).not.toContain('Look at the loom');
  });
});

describe('find my place', () => {
  // The app says one thing, the cloth another: a pick too many or too few, or a stripe too many.
  it.each([
    { app: 107, cloth: 106 },
    { app: 107, cloth: 108 },
    { app: 85, cloth: 88 },
    { app: 26, cloth: 24 },
    { app: 60, cloth: 77 },
    { app: 252, cloth: 250 },
    { app: 252, cloth: 254 },
  ])(
    'the app at $app, the cloth at $cloth: the first proposal is where the cloth is',
    async ({ app, cloth }) => {
      await throwPicks(page, app);
      await openMore(page, 'Find my place');
      await tell(seenAfter(cloth));
      const first = page.locator('.place').first();
      await expect.poll(() => first.textContent()).toContain(proposal(cloth));
      expect(await first.textContent()).not.toContain('as told');
      await first.click();
      await closed(page);
      await expectPick(cloth);
    },
  );

  it('proposes a place whose shed or side must be set, and says so', async () => {
    await throwPicks(page, 10);
    const seen = seenAfter(10);
    const other: Side = seen.side === 'left' ? 'right' : 'left';
    await openMore(page, 'Find my place');
    await tell({ ...seen, side: other });
    const first = page.locator('.place').first();
    await expect.poll(() => first.textContent()).toContain('side set as told');
    await first.click();
    await closed(page);
    await expect.poll(async () => (await readCall(page)).from).toBe(other);
  });

  it('goes to a pick by its number in the piece, told in words before it counts', async () => {
    await throwPicks(page, 3);
    await openMore(page, 'Find my place');
    await button(page, 'The pick, as on the loom card').click();
    await button(page, plan.pieces[1]?.name ?? '').click();
    const weaveOn = button(page, 'Weave on from there');
    expect(await weaveOn.isDisabled()).toBe(true);
    for (const digit of '108') await button(page, digit).click();
    const status = page.locator('dialog [role=status]');
    await expect
      .poll(() => status.textContent())
      .toMatch(/from the (left|right), heddle (up|down)/);
    await weaveOn.click();
    await closed(page);
    await expectPick(252 + 107);
  });

  it('proposes nothing where no stripe of the piece is that long', async () => {
    await throwPicks(page, 10);
    await openMore(page, 'Find my place');
    await tell({ ...seenAfter(10), picks: 60 });
    await page.getByText('No place in this piece ends like that').waitFor();
    expect(await page.locator('.place').count()).toBe(0);
    await button(page, 'Close').click();
    await closed(page);
    await expectPick(10);
  });
});
