// The app as a weaver uses it: what is tapped, what is pressed, and what the screen then shows.
import { expect } from 'vitest';
import type { Locator, Page } from 'playwright-core';

/** The demo warps in the order the first screen offers them. */
export const DEMOS = ['moss-and-chalk', 'ink-oat-ochre'] as const;
export type DemoName = (typeof DEMOS)[number];

/** The three sizes every screen is made for, in CSS px. */
export const SIZES = [
  { name: 'landscape', width: 1180, height: 820 },
  { name: 'portrait', width: 820, height: 1180 },
  { name: 'phone', width: 390, height: 844 },
] as const;

export const button = (page: Page, name: string): Locator =>
  page.getByRole('button', { name, exact: true });

/** The area that throws the pick. */
export const scene = (page: Page): Locator => page.locator('.scene');

/** Opens the app, and waits until it works without a network. */
export async function firstVisit(page: Page, url: string): Promise<void> {
  await page.goto(url);
  await page.getByRole('heading', { name: 'Fellmark' }).waitFor();
  await page.evaluate('navigator.serviceWorker.ready.then(() => true)');
}

/** Puts a demo warp on the bench from the Warps screen. */
export async function weaveDemo(page: Page, name: DemoName): Promise<void> {
  await button(page, 'Weave this').nth(DEMOS.indexOf(name)).click();
  await scene(page).waitFor();
}

/** How soon a second tap counts, as the settings say it. */
export type Bounce = 'at once' | '¼ s' | '½ s' | '1 s';

export async function setBounce(page: Page, words: Bounce): Promise<void> {
  await openMore(page, 'Settings');
  await button(page, words).click();
  await button(page, 'Close').click();
  await closed(page);
}

/** Opens one page of the More sheet, or does what its entry does at once. */
export async function openMore(page: Page, entry: string): Promise<void> {
  await button(page, 'More').click();
  await page.locator('.menu-button', { hasText: entry }).click();
}

/** Waits until no sheet is open. */
export async function closed(page: Page): Promise<void> {
  await expect.poll(() => page.locator('dialog[open]').count()).toBe(0);
}

/** Throws picks by pedal. Bounces must be off for more than one. */
export async function throwPicks(page: Page, picks: number): Promise<void> {
  for (let i = 0; i < picks; i++) await page.keyboard.press('PageDown');
}

export async function undoTimes(page: Page, times: number): Promise<void> {
  for (let i = 0; i < times; i++) await page.keyboard.press('PageUp');
}

/** Counts picks at one go through the More sheet. */
export async function countPicks(page: Page, picks: number): Promise<void> {
  await openMore(page, 'Several picks');
  await setStepper(page, 'Picks thrown', picks);
  await button(page, `Count ${picks}`).click();
  await closed(page);
}

/** Brings a stepper to a value by its two buttons; taps inside the page, as there may be hundreds. */
export async function setStepper(page: Page, label: string, value: number): Promise<void> {
  const stepper = page.locator('.stepper', { hasText: label });
  await stepper.waitFor();
  const left = async () => value - Number(await stepper.locator('output').textContent());
  for (let by = await left(); by !== 0; by = await left()) {
    const name = `${label}: one ${by > 0 ? 'more' : 'less'}`;
    const steps = Math.abs(by);
    await stepper.getByRole('button', { name }).evaluate(async (element, times) => {
      for (let i = 0; i < times; i++) {
        (element as HTMLButtonElement).click();
        await new Promise((resolve) => requestAnimationFrame(resolve));
      }
    }, steps);
  }
}

/** Waits until the bench says that everything is on the disk. */
export async function saved(page: Page): Promise<void> {
  await page.locator('.saved[data-saved="true"]').waitFor();
}

/** The next pick, as the bench shows it. */
export interface ShownCall {
  readonly letter: string;
  readonly name: string;
  /** Pick of the stripe, from 1, and its picks. */
  readonly pick: number;
  readonly of: number;
  readonly shed: string;
  readonly from: string;
  /** Letters of the shuttles on each side, nearest the weaver first; the one to take has a star. */
  readonly left: string;
  readonly right: string;
  /** What is read aloud. */
  readonly spoken: string;
}

/** What stands on the bench now, in one look. */
export function readCall(page: Page): Promise<ShownCall> {
  return page.evaluate(() => {
    const text = (selector: string) =>
      (document.querySelector(`.call ${selector}`)?.textContent ?? '').trim();
    const shuttles = (side: string) =>
      [...document.querySelectorAll<SVGElement>(`.shuttle[data-side="${side}"]`)]
        // What lies nearest the weaver lies lowest.
        .sort((a, b) => b.getBoundingClientRect().bottom - a.getBoundingClientRect().bottom)
        .map((it) => `${it.dataset.yarn}${it.classList.contains('shuttle-working') ? '*' : ''}`)
        .join(' ');
    return {
      letter: text('.swatch-letter'),
      name: text('.call-name'),
      pick: Number(text('.call-pick')),
      of: Number(text('.call-of').replace('of ', '')),
      shed: text('.call-shed'),
      from: text('.call-side').replace('from ', ''),
      left: shuttles('left'),
      right: shuttles('right'),
      spoken: text('[aria-live]'),
    };
  });
}

/** Waits until the bench shows this call. */
export async function expectCall(page: Page, wanted: ShownCall, note: string): Promise<void> {
  await expect.poll(() => readCall(page), { message: note, interval: 20 }).toEqual(wanted);
}

/** Titles of the due cards that are open on the bench; only the first of several is shown. */
export function dueTitles(page: Page): Promise<readonly string[]> {
  return page.locator('.weave-foot .dues > .due strong').allTextContents();
}

/** Waits for the card with this title. */
export async function dueCard(page: Page, title: string | RegExp): Promise<Locator> {
  const card = page.locator('.dues > .due').filter({ has: page.locator('strong', { hasText: title }) });
  await card.waitFor();
  return card;
}
