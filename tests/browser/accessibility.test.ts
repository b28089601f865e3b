import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { AxeResults, RunOptions } from 'axe-core';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  button,
  chooseFile,
  closed,
  dueCard,
  firstVisit,
  openMore,
  SIZES,
  setBounce,
  throwPicks,
  toWarps,
  weaveDemo,
  weavePlan,
} from './bench.ts';
import { demoText } from './expected.ts';
import { type ChromiumHandle, openChromium, serveDist } from './harness.ts';
import { planWeaving, solid } from './plans.ts';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** All rules, and text against its ground 7:1 (WCAG 2.2, 1.4.6), which axe leaves off by itself. */
const OPTIONS: RunOptions = {
  resultTypes: ['violations'],
  rules: { 'color-contrast-enhanced': { enabled: true } },
};

const SCHEMES = ['light', 'dark'] as const;

let server: Awaited<ReturnType<typeof serveDist>>;
let browser: ChromiumHandle;
let page: Page;

beforeAll(async () => {
  server = await serveDist();
  browser = await openChromium({ reducedMotion: 'reduce' });
  page = browser.page;
  await firstVisit(page, server.url);
});

afterAll(async () => {
  await browser.close();
  await server.stop();
});

/** What is too wide for the screen, and what is too small to hit. */
function faultsOfSize(): readonly string[] {
  const faults: string[] = [];
  const root = document.documentElement;
  for (const it of [root, ...document.querySelectorAll('dialog[open]')]) {
    if (it.scrollWidth > it.clientWidth) faults.push(`${it.tagName} scrolls sideways`);
  }
  const top = document.querySelector('dialog[open]') ?? root;
  for (const it of top.querySelectorAll('button')) {
    const { width, height } = it.getBoundingClientRect();
    if (width < 44 || height < 44) faults.push(`“${it.textContent}” is ${width} by ${height}`);
  }
  return faults;
}

/** What is wrong with what stands on the screen, at every size, in both themes; once each. */
async function findings(): Promise<readonly string[]> {
  const found = new Set<string>();
  for (const { name, width, height } of SIZES) {
    await page.setViewportSize({ width, height });
    for (const colorScheme of SCHEMES) {
      await page.emulateMedia({ colorScheme });
      await page.locator(`html[data-theme="${colorScheme}"]`).waitFor();
      for (const finding of await runAxe()) found.add(`${name}, ${colorScheme}: ${finding}`);
    }
    for (const fault of await page.evaluate(faultsOfSize)) found.add(`${name}: ${fault}`);
  }
  return [...found];
}

async function runAxe(): Promise<readonly string[]> {
  // Evaluated, not loaded: the page's policy lets no foreign script in.
  await page.evaluate(`typeof axe === 'undefined' && (() => { ${axe} })()`);
  const { violations, passes } = (await page.evaluate(
    `axe.run(${JSON.stringify(OPTIONS)})`,
  )) as AxeResults;
  expect(passes.length).toBeGreaterThan(5);
  return violations.flatMap(({ id, nodes }) =>
    nodes.map((node) => `${id} at ${node.target.join(' ')} ${node.failureSummary}`),
  );
}

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
  moreSheet('Settings'),
  {
    what: 'Weave after a length, the loom to be looked at',
    go: async () => {
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
    what: 'Warps, with warps on the loom and planned, and a notice',
    go: async () => {
      await toWarps(page);
      await chooseFile(page, 'plan.json', demoText('ink-oat-ochre'));
      await page.locator('.notice').waitFor();
    },
  },
  {
    what: 'the question before a warp is removed',
    go: () => button(page, 'Remove').first().click(),
  },
];

describe('axe finds nothing, and nothing is too wide or too small, at three sizes, light and dark:', () => {
  it.each(screens)('$what', async ({ go }) => {
    await go();
    expect(await findings()).toEqual([]);
  });
});

describe('the call', () => {
  const parts = ['.call-name', '.call-pick', '.call-of', '.call-shed', '.call-side', '.call-hand'];

  it.each(SCHEMES)('stands 10:1 against its ground when it is %s', async (colorScheme) => {
    await page.reload();
    await weaveDemo(page, 'moss-and-chalk');
    await page.emulateMedia({ colorScheme });
    await page.locator(`html[data-theme="${colorScheme}"]`).waitFor();
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
