// What is wrong with a screen: to axe, too wide, or too small to hit.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { AxeResults, RunOptions } from 'axe-core';
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { SIZES } from './bench.ts';
import { seenOn } from './looks.ts';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/**
 * All rules, and text against its ground 7:1 (WCAG 2.2, 1.4.6), which axe leaves off by itself. That
 * rule passes over what is below 4.5:1 (1.4.3), as the other one tells of it: it takes both.
 */
const OPTIONS: RunOptions = {
  resultTypes: ['violations'],
  rules: { 'color-contrast-enhanced': { enabled: true } },
};

/** Where only the colours differ only the colours are looked at again. */
const ONLY_COLOURS: RunOptions = {
  resultTypes: ['violations'],
  runOnly: ['color-contrast', 'color-contrast-enhanced'],
};

interface Theme {
  readonly name: string;
  readonly colorScheme: 'light' | 'dark';
  readonly contrast: 'no-preference' | 'more';
  readonly options: RunOptions;
}

const THEMES: readonly [Theme, ...Theme[]] = [
  { name: 'light', colorScheme: 'light', contrast: 'no-preference', options: OPTIONS },
  { name: 'dark', colorScheme: 'dark', contrast: 'no-preference', options: ONLY_COLOURS },
  { name: 'high contrast', colorScheme: 'light', contrast: 'more', options: ONLY_COLOURS },
  { name: 'high contrast, dark', colorScheme: 'dark', contrast: 'more', options: ONLY_COLOURS },
];

/** 1280 CSS px at four times their size: no page may need scrolling to the side (WCAG 2.2, 1.4.10). */
const NARROW = { width: 320, height: 640 };

/** Where texts are small they need the most contrast. */
const SMALLEST_FIRST = SIZES.toReversed();

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
    const isShown = it.checkVisibility();
    if (isShown && (width < 44 || height < 44))
      faults.push(`“${it.textContent}” is ${width} by ${height}`);
  }
  return faults;
}

/**
 * What scrolls to the side, the page or a sheet over it; and what of the bench cannot be reached. Tables
 * and pages as they are printed have two directions: the criterion leaves them out.
 */
function lostOnNarrow(): readonly string[] {
  const lost: string[] = [];
  const sheets = [...document.querySelectorAll('dialog[open], dialog[open] .sheet-body')];
  for (const it of [document.documentElement, ...sheets]) {
    const isFlat = it.querySelector('table, .page, .story-page') === null;
    if (isFlat && it.scrollWidth > it.clientWidth)
      lost.push(`${it.tagName.toLowerCase()} scrolls sideways`);
  }
  const stage = document.querySelector('.weave, .warping');
  if (stage !== null && stage.scrollHeight > stage.clientHeight + 1)
    lost.push(`of the bench ${stage.scrollHeight - stage.clientHeight} px are cut off`);
  return lost;
}

/** Waits in the page: asking it again and again from outside takes longer than axe does. */
function hasTheme(wanted: { readonly colorScheme: string; readonly contrast: string }) {
  const { dataset } = document.documentElement;
  // The rescue page has no theme of its own to wait for.
  const isThere = () =>
    dataset.theme === undefined ||
    (dataset.theme === wanted.colorScheme && dataset.contrast === wanted.contrast);
  return new Promise<void>((resolve) => {
    const watch = new MutationObserver(look);
    function look() {
      if (!isThere()) return;
      watch.disconnect();
      resolve();
    }
    watch.observe(document.documentElement, { attributes: true });
    look();
  });
}

/** What is wrong with what stands on the screen, at every size, in every theme; once each. */
export async function findingsOn(page: Page): Promise<readonly string[]> {
  await page.setViewportSize(NARROW);
  const lost = await page.evaluate(lostOnNarrow);
  const found = await axeEverywhere(page, THEMES, () => page.evaluate(faultsOfSize));
  await page.emulateMedia({ contrast: 'no-preference' });
  return [...lost.map((fault) => `narrow: ${fault}`), ...found];
}

/** Light and dark, for what is not looked at in high contrast. */
export const LIGHT_AND_DARK: readonly [Theme, ...Theme[]] = [THEMES[0], ...THEMES.slice(1, 2)];

/**
 * What axe finds at every size, in each of these themes, and what is found `besides` at each size. To
 * draw a screen anew costs far more than to ask axe: the themes after the first come on at the first
 * size, and again only at a size that has a text of a look that this page has not had before.
 */
export async function axeEverywhere(
  page: Page,
  [first, ...others]: readonly [Theme, ...Theme[]],
  besides: () => Promise<readonly string[]>,
): Promise<readonly string[]> {
  const found = new Set<string>();
  const seen = seenOn(page);
  for (const { name, width, height } of SMALLEST_FIRST) {
    await page.setViewportSize({ width, height });
    for (const finding of await axeIn(page, first)) found.add(`${name}, ${finding}`);
    for (const fault of await besides()) found.add(`${name}: ${fault}`);
    const isNew = await seen.isNewOn(page);
    if (!isNew && name !== SMALLEST_FIRST[0]?.name) continue;
    for (const theme of others)
      for (const finding of await axeIn(page, theme)) found.add(`${name}, ${finding}`);
  }
  // Tests go on from where the least is on the screen.
  await page.setViewportSize(SIZES[2]);
  return [...found];
}

async function axeIn(
  page: Page,
  { name, colorScheme, contrast, options }: Theme,
): Promise<readonly string[]> {
  await page.emulateMedia({ colorScheme, contrast });
  const isContrast = contrast === 'more' ? 'more' : 'usual';
  await page.evaluate(hasTheme, { colorScheme, contrast: isContrast });
  return (await runAxe(page, options)).map((finding) => `${name}: ${finding}`);
}

/** What axe finds on the screen as it stands. */
export async function runAxe(page: Page, options = OPTIONS): Promise<readonly string[]> {
  // Evaluated, not loaded: the page's policy lets no foreign script in. Asked first: it is half a
  // megabyte, and a page is looked at a dozen times.
  if (await page.evaluate(`typeof axe === 'undefined'`))
    await page.evaluate(`(() => { ${axe} })()`);
  const { violations, passes } = (await page.evaluate(
    `axe.run(${JSON.stringify(options)})`,
  )) as AxeResults;
  expect(passes.length).toBeGreaterThan(options === OPTIONS ? 5 : 0);
  return violations.flatMap(({ id, nodes }) =>
    nodes.map((node) => `${id} at ${node.target.join(' ')} ${node.failureSummary}`),
  );
}
