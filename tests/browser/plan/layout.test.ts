// Every part of the planner, and what it leads to, at three sizes and in both themes: nothing too
// wide, cut off, too small or on top of another, and nothing for axe to find.
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { newPlan } from '../../../src/core/planner/newPlan.ts';
import { openApp } from '../app.ts';
import { button, closed } from '../bench.ts';
import { demoPlan } from '../expected.ts';
import { axeEverywhere, LIGHT_AND_DARK } from '../findings.ts';
import { leave, openPart, planFrom, row, rowField, tileOf } from './planner.ts';

let page: Page;

beforeAll(async () => {
  const app = await openApp({ reducedMotion: 'reduce' });
  ({ page } = app);
  // As long a name as many will give, and all that a plan can hold: groups, hems, four yarns.
  await planFrom(page, demoPlan('ink-oat-ochre'));
  return app.close;
});

/** What may be tapped: each at least 44 px, and none on top of another. */
const CONTROLS = 'button, input:not([type="file"], .unseen), select, textarea, summary, a';
/** What must be read whole. A field scrolls, and a row says in its fields what it has no room for. */
const WORDS =
  'button, dt, dd, label, legend, .field-label, .unit, .hint, h1, h2, h3, p, .row-main, .alarms li';

/** Looks the screen over in the page, where boxes can be measured. */
function lookOver([controls, words]: readonly [string, string]): readonly string[] {
  const faults: string[] = [];
  const sheet = document.querySelector('dialog[open]');
  const top = sheet ?? document.documentElement;
  const nameOf = (it: Element) =>
    `${it.tagName}.${it.getAttribute('class') ?? ''} “${(it.getAttribute('aria-label') ?? it.textContent ?? '').slice(0, 40)}”`;
  const scrollers = [top, ...top.querySelectorAll('.plan-part, .sum, .plan-parts, .sheet-body')];
  for (const it of scrollers) {
    if (it.scrollWidth > it.clientWidth + 1) faults.push(`${nameOf(it)} is too wide`);
  }
  const isSeen = (it: Element) => it.checkVisibility() && it.getBoundingClientRect().width > 1;
  const isDrawn = (it: Element) =>
    getComputedStyle(it).clipPath === 'none' && getComputedStyle(it).position !== 'sticky';
  const tapped = [...top.querySelectorAll(controls)].filter((it) => isSeen(it) && isDrawn(it));
  const stuck = top.querySelector('.order-strip');
  for (const [i, one] of tapped.entries()) {
    const a = one.getBoundingClientRect();
    if (a.width < 44 || a.height < 44) {
      faults.push(`${nameOf(one)} is ${Math.round(a.width)} by ${Math.round(a.height)}`);
    }
    for (const other of tapped.slice(i + 1)) {
      const b = other.getBoundingClientRect();
      const width = Math.min(a.right, b.right) - Math.max(a.left, b.left);
      const height = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
      const isApart = one.closest('.plan-part') === other.closest('.plan-part');
      if (isApart && !one.contains(other) && width > 1 && height > 1) {
        faults.push(`${nameOf(one)} overlaps ${nameOf(other)}`);
      }
    }
  }
  for (const it of top.querySelectorAll(words)) {
    if (!isSeen(it) || !isDrawn(it) || getComputedStyle(it).display === 'inline') continue;
    if (it.scrollWidth > it.clientWidth + 1) faults.push(`${nameOf(it)} is cut off`);
    const { left, right } = it.getBoundingClientRect();
    if (left < -0.5 || right > innerWidth + 0.5) faults.push(`${nameOf(it)} leaves the screen`);
  }
  if (stuck !== null && stuck.getBoundingClientRect().width > innerWidth) faults.push('strip');
  return faults;
}

/** What is wrong with what stands on the screen, at every size, in both themes; once each. */
const findings = () =>
  axeEverywhere(page, LIGHT_AND_DARK, () => page.evaluate(lookOver, [CONTROLS, WORDS] as const));

interface Shown {
  readonly what: string;
  readonly go: () => Promise<unknown>;
}

const closeSheet = async () => {
  await page.keyboard.press('Escape');
  await closed(page);
};

/** Each starts where the one before it ended. */
const screens: readonly Shown[] = [
  { what: 'Loom', go: () => openPart(page, 'Loom') },
  {
    what: 'Yarns, one open',
    go: async () => {
      await openPart(page, 'Yarns');
      await page.locator('.yarn-row').nth(1).click();
    },
  },
  {
    what: 'Warp, a mirror open',
    go: async () => {
      await openPart(page, 'Warp');
      await row(page, 1).click();
    },
  },
  {
    what: 'Warp, an alternation inside it open',
    go: () => row(page, 4).click(),
  },
  {
    what: 'Warp, ways to a width',
    go: async () => {
      await page.getByText('Fit to a washed width').click();
      await page.getByLabel('Washed width wished').fill('34');
      await page.locator('.fits .button').first().waitFor();
    },
  },
  {
    what: 'Pieces, three colours there and back open, with all that is seldom set',
    go: async () => {
      await openPart(page, 'Pieces');
      await row(page, 2).click();
      await page.getByText(/^More: /).click();
    },
  },
  {
    what: 'Pieces, a solid open and ways to a length',
    go: async () => {
      await row(page, 1).click();
      const wish = page.getByLabel('Length wished, without fringe');
      await wish.fill('26 in');
      await wish.blur();
      await page.getByText('Fit to the wished length').click();
      await page.locator('.fits .button').first().waitFor();
    },
  },
  { what: 'Weaving', go: () => openPart(page, 'Weaving') },
  {
    what: 'problems: no name, no ends, colours that vanish, too little yarn',
    go: async () => {
      await openPart(page, 'Yarns');
      await page.locator('.yarn-row').nth(2).click();
      await button(page, 'Oat husk').click();
      await page.getByLabel('On hand').fill('1 g');
      await openPart(page, 'Warp');
      await row(page, 0).click();
      await rowField(page, 'Ends').fill('0');
      await page.getByLabel('Name of the plan').fill('');
    },
  },
  {
    what: 'the figures open, a warp too wide',
    go: async () => {
      await rowField(page, 'Ends').fill('900');
      await page.getByLabel('Name of the plan').fill('Too wide');
      await page.setViewportSize({ width: 820, height: 1180 });
      await page.locator('.sum-toggle').click();
    },
  },
  {
    what: 'the picture',
    go: async () => {
      await page.locator('.sum-toggle').click();
      await page.locator('.sum-picture').click();
      await page.locator('.viewer-canvas').waitFor();
    },
  },
  {
    what: 'the picture, about to be saved',
    go: () => button(page, 'Save picture').click(),
  },
  {
    what: 'a new plan in inches, on a rigid heddle',
    go: async () => {
      await closeSheet();
      await planFrom(page, { ...newPlan('inch', 'rigid-heddle'), name: 'Plain' });
    },
  },
  {
    what: 'the first screen with plans on the drawing board',
    go: async () => {
      await page.getByLabel('Name of the plan').fill('Plain and simple');
      await leave(page);
      await tileOf(page, 'Plain and simple').waitFor();
    },
  },
  {
    what: 'the shelf with nothing on it',
    go: async () => {
      await button(page, 'Yarns').click();
      await page.getByRole('heading', { name: 'Yarns', exact: true }).waitFor();
    },
  },
  {
    what: 'the list to warp from',
    go: async () => {
      await leave(page);
      await tileOf(page, 'Plain').getByRole('button', { name: 'Warp it' }).click();
      await page.locator('.step-call').waitFor();
    },
  },
];

describe('nothing is too wide, cut off, too small or hard to read, at three sizes, light and dark:', () => {
  it.each(screens)('$what', async ({ go }) => {
    await go();
    expect(await findings()).toEqual([]);
  });
});
