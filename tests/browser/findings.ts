// What is wrong with a screen: to axe, too wide, or too small to hit.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { AxeResults, RunOptions } from 'axe-core';
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { SIZES } from './bench.ts';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** All rules, and text against its ground 7:1 (WCAG 2.2, 1.4.6), which axe leaves off by itself. */
const OPTIONS: RunOptions = {
  resultTypes: ['violations'],
  rules: { 'color-contrast-enhanced': { enabled: true } },
};

const SCHEMES = ['light', 'dark'] as const;

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

/** What is wrong with what stands on the screen, at every size, in both themes; once each. */
export async function findingsOn(page: Page): Promise<readonly string[]> {
  const found = new Set<string>();
  for (const { name, width, height } of SIZES) {
    await page.setViewportSize({ width, height });
    for (const colorScheme of SCHEMES) {
      await page.emulateMedia({ colorScheme });
      // The rescue page has no theme of its own to wait for.
      if ((await page.locator('html[data-theme]').count()) > 0)
        await page.locator(`html[data-theme="${colorScheme}"]`).waitFor({ state: 'attached' });
      for (const finding of await runAxe(page)) found.add(`${name}, ${colorScheme}: ${finding}`);
    }
    for (const fault of await page.evaluate(faultsOfSize)) found.add(`${name}: ${fault}`);
  }
  return [...found];
}

async function runAxe(page: Page): Promise<readonly string[]> {
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
