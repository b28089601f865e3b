import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { openApp } from './app.ts';
import {
  button,
  chooseFile,
  closed,
  dueCard,
  openMore,
  setBounce,
  takeAlong,
  throwPicks,
  toWarps,
  weaveDemo,
  weavePlan,
} from './bench.ts';
import { demoText } from './expected.ts';
import { planByEye, yarnButton } from './eye.ts';
import { findingsOn } from './findings.ts';
import { planWeaving, solid } from './plans.ts';

const THEMES = [
  { theme: 'light', contrast: 'no-preference' },
  { theme: 'dark', contrast: 'no-preference' },
  { theme: 'light', contrast: 'more' },
  { theme: 'dark', contrast: 'more' },
] as const;

let page: Page;

beforeAll(async () => {
  const app = await openApp({ reducedMotion: 'reduce' });
  ({ page } = app);
  return app.close;
});

interface Screen {
  readonly what: string;
  readonly go: () => Promise<unknown>;
}

const closeSheet = async () => {
  await page.keyboard.press('Escape');
  await closed(page);
};

const moreSheet = (entry: string): Screen => ({
  what: `the sheet “${entry}”`,
  go: async () => {
    await closeSheet();
    await openMore(page, entry);
  },
});

let sharedLink = '';

/** Each starts where the one before it ended. */
const screens: readonly Screen[] = [
  { what: 'Warps, with nothing on it but the demos', go: async () => undefined },
  {
    what: 'a refused file',
    go: () => chooseFile(page, 'plan.json', demoText('moss-and-chalk').replaceAll('"A"', '"a"')),
  },
  {
    what: 'Weave at its first pick, a card waiting',
    go: async () => {
      await closeSheet();
      await weaveDemo(page, 'moss-and-chalk');
      await setBounce(page, 'at once');
    },
  },
  {
    what: 'Weave in an alternation, one card put off and the next one open',
    go: async () => {
      await throwPicks(page, 4);
      await (await dueCard(page, 'Hemstitch')).getByRole('button', { name: 'Later' }).click();
      await throwPicks(page, 50);
      await dueCard(page, 'Advance the warp');
    },
  },
  {
    what: 'the list of what was put off',
    go: async () => {
      await (await dueCard(page, 'Advance')).getByRole('button', { name: 'Later' }).click();
      await button(page, '2 put off').click();
    },
  },
  {
    what: 'the More sheet',
    go: async () => {
      await closeSheet();
      await button(page, 'More').click();
    },
  },
  moreSheet('Several picks'),
  moreSheet('A length woven'),
  moreSheet('Take picks out'),
  moreSheet('Find my place'),
  {
    what: 'the settings, with everything switched on',
    go: async () => {
      await closeSheet();
      await openMore(page, 'Settings');
      await button(page, 'Every pick').click();
      await button(page, 'Calls the turns').click();
      await page.getByRole('button', { name: 'Teach' }).first().click();
      await page.getByText('Press your pedal now').waitFor();
    },
  },
  {
    what: 'Weave after a length, the loom to be looked at',
    go: async () => {
      // The first Escape only ends the teaching.
      await page.keyboard.press('Escape');
      await page.getByText('Press your pedal now').waitFor({ state: 'detached' });
      await closeSheet();
      await openMore(page, 'A length woven');
      await button(page, '5').click();
      await button(page, 'Count this length').click();
      await dueCard(page, 'Look at the loom');
    },
  },
  {
    what: 'the sheet “Look at the loom”',
    go: async () => (await dueCard(page, 'Look')).getByRole('button', { name: 'Tell' }).click(),
  },
  {
    what: 'Weave at the end of a warp, the tail on the wrong side',
    go: async () => {
      await closeSheet();
      await weavePlan(page, planWeaving('Short', [solid('A', 7)]));
      await throwPicks(page, 7);
      await dueCard(page, 'Leave a tail');
    },
  },
  {
    what: 'Weave in the runners, three colours and a locked edge',
    go: async () => {
      await weaveDemo(page, 'ink-oat-ochre');
      await throwPicks(page, 157);
      await dueCard(page, 'The edge end is not caught');
    },
  },
  {
    what: 'weaving by eye, with edges to lock and the yarn in hand',
    go: async () => {
      await weavePlan(page, planByEye('By eye', [[{ kind: 'free', loomLength: 700 }]]));
      for (const letter of 'AABC') await yarnButton(page, letter).click();
    },
  },
  { what: 'what there is to say by eye', go: () => page.locator('.eye-more').click() },
  {
    what: 'a length woven by eye',
    go: () => page.locator('.menu-button', { hasText: 'Log a length' }).click(),
  },
  {
    what: 'what is asked before a warp is woven by eye, one yarn open',
    go: async () => {
      await closeSheet();
      await toWarps(page);
      await button(page, 'Weave by eye').click();
      await page.locator('.yarn-door').first().click();
    },
  },
  {
    what: 'Warps, with warps on the loom and planned, and a notice',
    go: async () => {
      await closeSheet();
      await toWarps(page);
      await chooseFile(page, 'plan.json', demoText('ink-oat-ochre'));
      await page.locator('.notice').waitFor();
    },
  },
  {
    what: 'the question before a warp is removed',
    go: () => button(page, 'Remove').first().click(),
  },
  {
    what: 'what can be taken along from a warp',
    go: async () => {
      await closeSheet();
      await button(page, 'Share or print').first().click();
    },
  },
  {
    what: 'ways to share a plan',
    go: () => page.locator('.menu-button', { hasText: 'Share this plan' }).click(),
  },
  {
    what: 'the code of a plan',
    go: async () => {
      sharedLink = await page.getByLabel('The link').inputValue();
      await button(page, 'Show the code').click();
      await page.locator('.qr').waitFor();
    },
  },
  {
    what: 'scanning, with no camera',
    go: async () => {
      await closeSheet();
      await button(page, 'Scan a plan').click();
      await button(page, 'Start the camera').waitFor();
      await page.locator('dialog[open]', { hasText: 'camera' }).waitFor();
    },
  },
  {
    what: 'a plan that has come',
    go: async () => {
      await page.getByLabel('Or paste the link').fill(sharedLink);
      await button(page, 'Read the link').click();
      await button(page, 'Keep it').waitFor();
    },
  },
  {
    what: 'a plan that did not come whole',
    go: async () => {
      await closeSheet();
      await page.evaluate((link) => location.assign(link), sharedLink.slice(0, -50));
      await page.getByText('did not come whole').waitFor();
    },
  },
  ...['Loom card', 'Warping card', 'Tape'].map((card) => ({
    what: `the ${card} on paper`,
    go: async () => {
      if (card === 'Loom card') {
        await closeSheet();
        await takeAlong(page, 'On paper');
      }
      await button(page, card).click();
      await page.locator('.page').first().waitFor();
    },
  })),
];

describe('axe finds nothing, and nothing is too wide or too small, at three sizes, light, dark and in high contrast:', () => {
  it.each(screens)('$what', async ({ go }) => {
    await go();
    expect(await findingsOn(page)).toEqual([]);
  });
});

describe('the call', () => {
  const parts = ['.call-name', '.call-pick', '.call-of', '.call-shed', '.call-side', '.call-hand'];

  it.each(THEMES)('stands 10:1 against its ground, $theme, contrast $contrast', async (it) => {
    await page.reload();
    await weaveDemo(page, 'moss-and-chalk');
    await page.emulateMedia({ colorScheme: it.theme, contrast: it.contrast });
    const contrast = it.contrast === 'more' ? 'more' : 'usual';
    await page.locator(`html[data-theme="${it.theme}"][data-contrast="${contrast}"]`).waitFor();
    for (const part of parts) expect(await contrastOf(part), part).toBeGreaterThanOrEqual(10);
  });
});

/** Contrast ratio of a text to the ground of the call (WCAG 2.2, relative luminance). */
async function contrastOf(selector: string): Promise<number> {
  const colours = await page.evaluate((it) => {
    const styleOf = (found: string) =>
      getComputedStyle(document.querySelector(found) ?? document.body);
    return [styleOf(it).color, styleOf('.call').backgroundColor];
  }, selector);
  const [text, ground] = colours.map(luminance);
  if (text === undefined || ground === undefined) throw new Error(`got no colours of ${selector}`);
  return (Math.max(text, ground) + 0.05) / (Math.min(text, ground) + 0.05);
}

function luminance(rgb: string): number {
  const [r, g, b] = (rgb.match(/[\d.]+/g) ?? []).map((part) => {
    const share = Number(part) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * (r ?? 0) + 0.7152 * (g ?? 0) + 0.0722 * (b ?? 0);
}
