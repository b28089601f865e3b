// Motifs and the pages of the cloth, at three sizes: nothing cut off, and nothing on top of another.
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { openApp } from '../app.ts';
import { button, closed, countPicks, openMore, SIZES, weaveDemo } from '../bench.ts';

let page: Page;

beforeAll(async () => {
  const app = await openApp({ reducedMotion: 'reduce', hasTouch: true });
  ({ page } = app);
  return app.close;
});

/** What may be tapped or drawn. */
const CONTROLS = 'button, input:not(.unseen), [role="slider"]';
/** What must be read whole. */
const WORDS =
  'button, h1, h2, p, legend, .field-label, .hint, .block-line, .found-size, .keep-size, td, th';

/** Looks the screen over in the page, where boxes can be measured. */
function lookOver([controls, words]: readonly [string, string]): readonly string[] {
  const top = document.querySelector('dialog[open]') ?? document.documentElement;
  const faults = top.scrollWidth > top.clientWidth + 1 ? ['it scrolls sideways'] : [];
  const nameOf = (it: Element) =>
    `${it.tagName}.${it.getAttribute('class') ?? ''} “${(it.getAttribute('aria-label') ?? it.textContent ?? '').slice(0, 40)}”`;
  const isSeen = (it: Element) => it.checkVisibility() && it.getBoundingClientRect().width > 1;
  // What sticks to an edge lies over what scrolls by under it, and what scrolls in a list is cut by it.
  const isApart = (it: Element) =>
    it.closest('.keep-bar, .sheet-head, .motif-keep, .found-list') !== null ||
    getComputedStyle(it).position === 'sticky';
  const tapped = [...top.querySelectorAll(controls)].filter((it) => isSeen(it) && !isApart(it));
  for (const [i, one] of tapped.entries()) {
    const a = one.getBoundingClientRect();
    if (a.width < 44 || a.height < 44) faults.push(`${nameOf(one)} is too small`);
    if (a.left < -0.5 || a.right > innerWidth + 0.5) faults.push(`${nameOf(one)} is outside`);
    for (const other of tapped.slice(i + 1)) {
      const b = other.getBoundingClientRect();
      const wide = Math.min(a.right, b.right) - Math.max(a.left, b.left);
      const high = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
      if (wide > 1 && high > 1) faults.push(`${nameOf(one)} overlaps ${nameOf(other)}`);
    }
  }
  for (const it of top.querySelectorAll(words)) {
    if (!isSeen(it) || it.classList.contains('unseen')) continue;
    const isInline = getComputedStyle(it).display === 'inline';
    if (!isInline && it.scrollWidth > it.clientWidth + 1) faults.push(`${nameOf(it)} is cut off`);
  }
  return faults;
}

async function faultsAtAllSizes(): Promise<readonly string[]> {
  const found: string[] = [];
  for (const { name, width, height } of SIZES) {
    await page.setViewportSize({ width, height });
    // Two frames: pictures measure their box in the first and are painted in the second.
    await page.evaluate(
      () => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))),
    );
    const faults = await page.evaluate(lookOver, [CONTROLS, WORDS] as const);
    found.push(...faults.map((it) => `${name}: ${it}`));
  }
  await page.setViewportSize({ width: 1180, height: 820 });
  return found;
}

const closeSheet = async () => {
  await page.keyboard.press('Escape');
  await closed(page);
};
const ofMotif = (entry: string) => async () => {
  await closeSheet();
  await button(page, 'More with The whole of the first runner so far').tap();
  await page.locator('.menu-button', { hasText: entry }).tap();
  await page.locator('.sheet .form').waitFor();
};

/** Each starts where the one before it ended. */
const sights: readonly { readonly what: string; readonly go: () => Promise<unknown> }[] = [
  {
    what: 'a stretch of the runners: hems, groups, three colours',
    go: async () => {
      await weaveDemo(page, 'ink-oat-ochre');
      await countPicks(page, 280);
      await openMore(page, 'Choose a stretch');
      await page.locator('.chooser').waitFor();
    },
  },
  {
    what: 'all that is woven of it, and a name for it',
    go: async () => {
      await page.locator('.found-block', { hasText: 'All that is woven' }).tap();
      await button(page, 'Keep as a motif').tap();
      await page.locator('.sheet .form').waitFor();
    },
  },
  {
    what: 'the stretch once it is kept',
    go: async () => {
      await page
        .getByRole('textbox', { name: 'Name' })
        .fill('The whole of the first runner so far');
      await button(page, 'Keep it').tap();
      await closed(page);
    },
  },
  {
    what: 'weaving it again',
    go: async () => {
      await button(page, 'Weave it again').tap();
      await page.locator('.motif-again').waitFor();
    },
  },
  {
    what: 'weaving it through the piece, for which there is no room',
    go: async () => {
      await button(page, 'Through the rest of the piece').tap();
      await page.getByText('There is no room').waitFor();
    },
  },
  {
    what: 'the shelf',
    go: async () => {
      await closeSheet();
      await button(page, 'Motifs').tap();
      await page.locator('.motif-tile').waitFor();
    },
  },
  {
    what: 'all that can be done with a motif',
    go: () => button(page, 'More with The whole of the first runner so far').tap(),
  },
  { what: 'a motif changed', go: ofMotif('Mirror, colours, sett') },
  { what: 'a yarn of it changed', go: () => page.locator('.yarn-door').first().tap() },
  { what: 'a new warp from it', go: ofMotif('A new warp from it') },
  { what: 'plans to put it in', go: ofMotif('Into a plan') },
  {
    what: 'planned and woven',
    go: async () => {
      await closeSheet();
      await button(page, '‹ Stretch').tap();
      await button(page, '‹ Loom').tap();
      await openMore(page, 'Planned and woven');
      await page.locator('.against-table').waitFor();
    },
  },
  {
    what: 'a piece kept as woven',
    go: () => button(page, 'Keep as woven').tap(),
  },
  {
    what: 'motifs in the planner',
    go: async () => {
      await page.locator('.menu-button', { hasText: 'A plan of this piece' }).tap();
      await page.locator('.plan').waitFor();
      await button(page, 'Pieces').tap();
      await button(page, 'From a motif').tap();
      await page.locator('.motif-choice').waitFor();
    },
  },
  {
    what: 'a motif put into a piece',
    go: async () => {
      await page.locator('.motif-choice').tap();
      await page.locator('.motif-again').waitFor();
    },
  },
];

describe('nothing is cut off, too small or on top of another, at three sizes:', () => {
  it.each(sights)('$what', async ({ go }) => {
    await go();
    expect(await faultsAtAllSizes()).toEqual([]);
  });
});
