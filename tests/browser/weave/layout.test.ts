import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { openApp } from '../app.ts';
import {
  behindTheFrame,
  button,
  closed,
  dueCard,
  openMore,
  readCall,
  SIZES,
  saved,
  scene,
  setBounce,
  throwPicks,
  undoTimes,
  weaveDemo,
  weavePlan,
} from '../bench.ts';
import { planByEye, withYarns, yarnButton } from '../eye.ts';
import { planWeaving, solid } from '../plans.ts';

/** The throwing area is at least this share of the screen, whatever else there is to see. */
const LEAST_SCENE = 0.35;

let page: Page;

beforeAll(async () => {
  const app = await openApp({ reducedMotion: 'reduce' });
  ({ page } = app);
  await weaveDemo(page, 'moss-and-chalk');
  await setBounce(page, 'at once');
  return app.close;
});

/** What stands beside one another on the bench: no two of these may share any room. */
const PARTS = [
  '.weave-head .button',
  '.weave-head h1',
  '.saved',
  '.swatch.big',
  '.call-yarn',
  '.call-count',
  '.call-shed',
  '.call-side',
  '.call-hand',
  '.scene',
  '.tape-open',
  '.due-words',
  '.due-buttons .button',
  '.waiting',
  '.bench',
  '.next',
  '.eye-yarn',
].join(',');

/** What must be read whole. */
const TEXTS = [
  '.weave-head h1',
  '.saved',
  '.call p:not(.unseen)',
  '.call-name',
  '.call-turn',
  '.call-shed span',
  '.call-side span',
  '.tape-fell',
  '.due-words',
  '.due-words > *',
  '.next',
  '.next > *',
  '.eye-words',
  '.eye-words > :not(.unseen)',
  '.eye-more > *',
  '.weave .button',
].join(',');

interface Looked {
  readonly faults: readonly string[];
  /** Of the area of the screen: what throws a pick when it is tapped. By eye the yarns do as well. */
  readonly throwShare: number;
}

/** Looks the bench over in the page, where boxes can be measured. */
function lookOver([parts, texts]: readonly [string, string]): Looked {
  const faults: string[] = [];
  const boxOf = (it: Element) => it.getBoundingClientRect();
  const nameOf = (it: Element) => `${it.tagName}.${it.getAttribute('class') ?? ''}`;
  const seen = [...document.querySelectorAll(parts)].filter((it) => boxOf(it).width > 0);
  const isOutside = (box: DOMRect) =>
    box.left < -0.5 ||
    box.top < -0.5 ||
    box.right > innerWidth + 0.5 ||
    box.bottom > innerHeight + 0.5;
  for (const [i, one] of seen.entries()) {
    const a = boxOf(one);
    if (isOutside(a)) faults.push(`${nameOf(one)} goes beyond the screen`);
    for (const other of seen.slice(i + 1)) {
      const b = boxOf(other);
      const width = Math.min(a.right, b.right) - Math.max(a.left, b.left);
      const height = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
      if (width > 1 && height > 1) faults.push(`${nameOf(one)} overlaps ${nameOf(other)}`);
    }
  }
  for (const it of document.querySelectorAll(texts)) {
    const range = document.createRange();
    range.selectNodeContents(it);
    const isInline = getComputedStyle(it).display === 'inline';
    const isCut =
      !isInline && (it.scrollWidth > it.clientWidth + 1 || it.scrollHeight > it.clientHeight + 4);
    if (isCut || isOutside(range.getBoundingClientRect())) {
      faults.push(`${nameOf(it)} “${it.textContent}” is cut off`);
    }
  }
  const tablet = Math.min(innerWidth, innerHeight) >= 744;
  for (const it of document.querySelectorAll('.weave button')) {
    const { width, height } = boxOf(it);
    // Left out where there is no room for it: then it is in the More sheet.
    if (width === 0) continue;
    const isBench = it.matches('.bench, .due-buttons .button');
    const least = isBench && tablet ? 104 : 44;
    if (width < least || height < least) faults.push(`${nameOf(it)} is ${width} by ${height}`);
  }
  const scene = boxOf(document.querySelector('.scene') ?? document.body);
  const shuttles = [...document.querySelectorAll('.shuttle')].map(boxOf);
  for (const [i, a] of shuttles.entries()) {
    if (
      a.top < scene.top ||
      a.bottom > scene.bottom ||
      a.left < scene.left ||
      a.right > scene.right
    )
      faults.push('a shuttle lies beyond the scene');
    if (
      shuttles
        .slice(i + 1)
        .some(
          (b) =>
            b.left < a.right && b.right > a.left && b.top < a.bottom - 1 && b.bottom > a.top + 1,
        )
    )
      faults.push('two shuttles lie on one another');
    const hit = document.elementFromPoint(a.left + a.width / 2, a.top + a.height / 2);
    if (hit?.closest('.scene') === null) faults.push('a tap on a shuttle is no throw');
  }
  const root = document.documentElement;
  if (root.scrollWidth > innerWidth || root.scrollHeight > innerHeight)
    faults.push('the page scrolls');
  const yarns = [...document.querySelectorAll('.eye-yarn')].map(boxOf);
  const throwing = [scene, ...yarns].reduce((sum, it) => sum + it.width * it.height, 0);
  return { faults, throwShare: throwing / (innerWidth * innerHeight) };
}

async function lookAt(width: number, height: number): Promise<Looked> {
  await page.setViewportSize({ width, height });
  await behindTheFrame(page);
  // Once more for the cloth: it measures its box in one frame and is painted in the next.
  await behindTheFrame(page);
  return page.evaluate(lookOver, [PARTS, TEXTS] as const);
}

async function putOffAll(): Promise<void> {
  for (let i = 0; i < 6 && (await page.locator('.due').count()) > 0; i++) {
    await button(page, 'Later').click();
    await behindTheFrame(page);
  }
}

const FREE = { kind: 'free', loomLength: 700 } as const;

interface Sight {
  readonly what: string;
  readonly go: () => Promise<unknown>;
}

/** Each starts where the one before it ended. Chosen for the most words and the longest names. */
const sights: readonly Sight[] = [
  { what: 'the first pick of the towels, with the tail to leave', go: async () => undefined },
  {
    what: 'a change of colour in the towels, hemstitching still to do and the warp to advance',
    go: () => throwPicks(page, 54),
  },
  {
    what: 'a yarn coming back over many picks',
    go: () => throwPicks(page, 100 - 54),
  },
  { what: 'the warp to advance', go: () => button(page, 'Stitched').click() },
  {
    what: 'the towels with everything settled',
    go: async () => {
      await button(page, 'Advanced').click();
      await expect.poll(() => page.locator('.due').count()).toBe(0);
    },
  },
  {
    what: 'the end of the first towel',
    go: () => throwPicks(page, 152),
  },
  {
    what: 'a length that was counted, the loom to be looked at',
    go: async () => {
      await throwPicks(page, 30);
      await openMore(page, 'A length woven');
      await button(page, '2').click();
      await button(page, 'Count this length').click();
      await closed(page);
      await dueCard(page, 'Look at the loom');
    },
  },
  { what: 'the hem of the runners', go: () => weaveDemo(page, 'ink-oat-ochre') },
  { what: 'three colours there and back', go: () => throwPicks(page, 79) },
  { what: 'an edge end not caught', go: () => throwPicks(page, 181 - 79) },
  { what: 'the last change of the one and one', go: () => throwPicks(page, 273 - 181) },
  { what: 'the hem at the end of a runner', go: () => throwPicks(page, 398 - 273) },
  {
    what: 'an end on the wrong side, with three things to choose from',
    go: async () => {
      await weavePlan(
        page,
        planWeaving('Odd ending', [solid('A', 4), solid('B', 5)], [solid('A', 6)]),
      );
      await throwPicks(page, 9);
      await button(page, 'One pick more').waitFor();
    },
  },
  {
    what: 'a card put off',
    go: async () => {
      await putOffAll();
      await page.locator('.waiting').waitFor();
    },
  },
  {
    what: 'by eye at its first pick, the tail to leave',
    go: async () => {
      const edge = { kind: 'hemstitch', fringe: 50, twisted: false } as const;
      await weavePlan(page, planByEye('By eye', [[FREE], [FREE]], edge));
      await yarnButton(page, 'C').waitFor();
    },
  },
  {
    what: 'by eye with shuttles to bring up, edges to lock and hemstitching to do',
    go: async () => {
      for (const letter of 'AABBBCA') await yarnButton(page, letter).click();
    },
  },
  {
    what: 'by eye with nothing due, a hundred picks of one yarn',
    go: async () => {
      await button(page, 'Stitched').click();
      await expect.poll(() => page.locator('.due').count()).toBe(0);
      await openMore(page, 'Several picks');
      await button(page, '50').click();
      await button(page, 'Count 50').click();
      await closed(page);
    },
  },
  {
    what: 'by eye with five yarns of long names',
    go: async () => {
      const five = withYarns(planByEye('Five', [[FREE]]), ['heathered slate', 'bleached linen']);
      await weavePlan(page, five);
      for (const letter of 'ABCDEA') await yarnButton(page, letter).click();
    },
  },
  {
    what: 'by eye with eight yarns, in two rows',
    go: async () => {
      const names = ['ochre', 'slate', 'bleached linen', 'dark teal', 'plum'];
      await weavePlan(page, withYarns(planByEye('Eight', [[FREE]]), names));
      for (const letter of 'ABCDEFGHA') await yarnButton(page, letter).click();
    },
  },
  {
    what: 'the end of a warp',
    go: async () => {
      await weavePlan(page, planWeaving('Short', [solid('A', 6)]));
      await throwPicks(page, 6);
      await page.locator('.call-name', { hasText: 'Woven to the end' }).waitFor();
    },
  },
];

describe('nothing overlaps, is cut off, or too small to hit, and the cloth has its room: ', () => {
  it.each(sights)('$what', async ({ go }) => {
    await go();
    await saved(page);
    const faults: string[] = [];
    for (const { name, width, height } of SIZES) {
      const looked = await lookAt(width, height);
      faults.push(...looked.faults.map((fault) => `${name}: ${fault}`));
      if (looked.throwShare < LEAST_SCENE)
        faults.push(`${name}: the throwing area is ${looked.throwShare}`);
      if (process.env.SHARES) console.log(name, looked.throwShare.toFixed(3));
    }
    expect(faults).toEqual([]);
  });
});

/** Chooses in the settings what stands under a label. */
async function choose(label: string, words: string): Promise<void> {
  await openMore(page, 'Settings');
  await page
    .locator('.choice', { hasText: label })
    .getByRole('button', { name: words, exact: true })
    .click();
  await button(page, 'Close').click();
  await closed(page);
}

const LOOKS = [
  ...['0.6 m', '0.7 m', '0.9 m', '1.2 m', '1.5 m'].map((words) => ({
    what: `at ${words}`,
    set: () => choose('The screen stands away', words),
  })),
  {
    what: 'with gloves',
    set: async () => {
      await choose('The screen stands away', '0.7 m');
      await choose('Gloves or wet hands', 'Large controls');
      await choose('A second tap counts after', 'at once');
    },
  },
  { what: 'with gloves, for the left hand', set: () => choose('Controls under', 'Left hand') },
  {
    what: 'at 1.5 m, for the left hand',
    set: async () => {
      await choose('Gloves or wet hands', 'Bare hands');
      await choose('A second tap counts after', 'at once');
      await choose('The screen stands away', '1.5 m');
    },
  },
];

describe('nothing overlaps, is cut off or too small to hit ', () => {
  beforeAll(async () => {
    await page.setViewportSize({ width: 1180, height: 820 });
    await weaveDemo(page, 'moss-and-chalk');
  });

  it.each(LOOKS)('$what', async ({ set }) => {
    await page.setViewportSize({ width: 1180, height: 820 });
    await set();
    const faults: string[] = [];
    const lookAll = async (sight: string) => {
      await saved(page);
      for (const { name, width, height } of SIZES) {
        const looked = await lookAt(width, height);
        faults.push(...looked.faults.map((fault) => `${sight}, ${name}: ${fault}`));
        if (process.env.SHARES) console.log(sight, name, looked.throwShare.toFixed(3));
      }
    };
    await lookAll('a tail to leave');
    // The first change back to a yarn that rested, with the most words for the hands.
    await throwPicks(page, 54);
    await lookAll('hemstitching still to do and the warp to advance');
    await putOffAll();
    await lookAll('everything put off');
    await undoTimes(page, 60);
    expect(faults).toEqual([]);
  });

  it('brings the size of the words back', () => choose('The screen stands away', '0.7 m'));
});

describe('from farther away', () => {
  it('pick, shed and side are larger, on a phone too', async () => {
    await weaveDemo(page, 'moss-and-chalk');
    const sizes: number[][] = [];
    for (const words of ['0.7 m', '0.9 m', '1.5 m']) {
      await page.setViewportSize({ width: 1180, height: 820 });
      await choose('The screen stands away', words);
      await page.setViewportSize({ width: 390, height: 844 });
      sizes.push(
        await page
          .locator('.call-pick, .call-shed, .call-side')
          .evaluateAll((all) => all.map((it) => Number.parseFloat(getComputedStyle(it).fontSize))),
      );
    }
    await choose('The screen stands away', '0.7 m');
    const [near, far, farthest] = sizes;
    expect(near).toHaveLength(3);
    for (const [i, size] of (near ?? []).entries()) {
      expect(far?.[i]).toBeGreaterThan(size);
      expect(farthest?.[i]).toBeGreaterThanOrEqual(far?.[i] ?? Number.POSITIVE_INFINITY);
    }
  });
});

describe('turning the tablet', () => {
  it('keeps the place, and an open sheet', async () => {
    await weaveDemo(page, 'moss-and-chalk');
    await throwPicks(page, 33);
    await page.setViewportSize({ width: 1180, height: 820 });
    const before = await readCall(page);
    await page.setViewportSize({ width: 820, height: 1180 });
    await expect.poll(() => readCall(page)).toEqual(before);
    await openMore(page, 'Several picks');
    await page.setViewportSize({ width: 1180, height: 820 });
    expect(await page.locator('dialog[open] h2').textContent()).toBe('Several picks at once');
    await button(page, 'Count 2').click();
    await closed(page);
    await expect.poll(async () => (await readCall(page)).pick).toBe(2);
    await page.setViewportSize({ width: 390, height: 844 });
    await throwPicks(page, 1);
    await expect.poll(async () => (await readCall(page)).pick).toBe(1);
  });
});

describe('a phone that was turned', () => {
  it('shows cloth and shuttles as one that was never turned', async () => {
    const picture = async () => ({
      shuttles: await page
        .locator('.shuttle')
        .evaluateAll((all) =>
          all.map((it) => `${it.getAttribute('viewBox')} ${it.getBoundingClientRect().width}`),
        ),
      cloth: await page.locator('.scene').screenshot({ animations: 'disabled' }),
    });
    await page.setViewportSize({ width: 844, height: 390 });
    await throwPicks(page, 1);
    await lookAt(390, 844);
    const turned = await picture();
    await saved(page);
    await page.reload();
    await scene(page).waitFor();
    await lookAt(390, 844);
    expect((await picture()).shuttles).toEqual(turned.shuttles);
    // The yarns are painted when they are there: a frame or two after the bench itself.
    await expect
      .poll(async () => (await picture()).cloth.equals(turned.cloth), { timeout: 20_000 })
      .toBe(true);
  });
});

describe('the hand', () => {
  beforeAll(() => choose('Controls under', 'Right hand'));

  it('brings the tape and the More button to the left, and leaves the shuttles on their sides', async () => {
    await page.setViewportSize({ width: 1180, height: 820 });
    const shuttles = async () => {
      const { left, right } = await readCall(page);
      return { left, right };
    };
    const before = await shuttles();
    await choose('Controls under', 'Left hand');
    const leftOf = async (selector: string) => (await page.locator(selector).boundingBox())?.x ?? 0;
    expect(await leftOf('.tape')).toBeLessThan(await leftOf('.scene'));
    expect(await shuttles()).toEqual(before);
    for (const { name, width, height } of SIZES) {
      const { faults } = await lookAt(width, height);
      expect({ name, faults }).toEqual({ name, faults: [] });
    }
  });
});
