// A warp woven and cut off, and the readings of its cloth, typed as a weaver types them.
import type { Locator, Page } from 'playwright-core';
import type { Plan } from '../../../src/core/plan/plan.ts';
import { button, setBounce, throwPicks, weavePlan } from '../bench.ts';
import { waitUntil } from '../harness.ts';
import { planWeaving, solid } from '../plans.ts';

/** Two short fringed towels in the yarns of a demo, of so many picks each. */
export function shortTowels(name: string, picks = 6): Plan {
  return planWeaving(name, [solid('A', picks)], [solid('B', picks)]);
}

/** Weaves a plan to its end and cuts it off, whatever falls due on the way. */
export async function weaveToTheEnd(page: Page, plan: Plan): Promise<void> {
  await weavePlan(page, plan);
  await setBounce(page, 'at once');
  await throwPicks(page, picksOf(plan));
  const card = page.locator('.weave-foot .dues > .due');
  for (let words = ''; !words.includes('Cut off'); ) {
    words = await card.evaluate(doneAtOnce);
    // The next card comes a frame later.
    const isNext = async () => (await card.textContent()) !== words;
    if (!(await waitUntil(isNext, 10_000))) throw new Error(`still due: ${words}`);
  }
  await page.locator('.due', { hasText: 'The warp’s own figures' }).waitFor();
}

/** Run in the page: ticks what a card asks for, and answers what it was; no other can come in between. */
function doneAtOnce(card: Element): string {
  card.querySelector<HTMLElement>('.strong')?.click();
  return card.textContent ?? '';
}

function picksOf({ pieces }: Plan): number {
  return pieces
    .flatMap((it) => it.weft)
    .reduce((sum, block) => {
      if (block.kind !== 'solid' || block.extent.kind !== 'picks') {
        throw new Error(`got a ${block.kind}, wanted solids of so many picks`);
      }
      return sum + block.extent.picks;
    }, 0);
}

/** Answers the question of the bench by skipping it, and goes on to the Measure screen. */
export async function toMeasure(page: Page): Promise<void> {
  await button(page, 'Skip').click();
  await button(page, 'Measure').click();
  await page.locator('.measure').waitFor();
}

export const piece = (page: Page, name: string): Locator =>
  page.locator('.measured', { hasText: name });

/** A keypad press for each sign: `27½`. */
export async function typeOnPad(page: Page, text: string): Promise<void> {
  for (const sign of text) {
    await page.locator('.pad').getByRole('button', { name: sign, exact: true }).click();
  }
}

/** Reads one size of a piece, as often as there are values. */
export async function readSize(
  page: Page,
  name: string,
  size: string,
  values: readonly string[],
): Promise<void> {
  await piece(page, name)
    .getByRole('button', { name: new RegExp(`^${name}, ${size}:`) })
    .click();
  for (const value of values) {
    await typeOnPad(page, value);
    await button(page, 'Add this reading').click();
  }
  await button(page, 'Close').click();
  await page.locator('dialog').waitFor({ state: 'detached' });
}
