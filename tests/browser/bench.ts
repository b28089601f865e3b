// The app as a weaver uses it: what is tapped, what is pressed, and what the screen then shows.

import type { Locator, Page } from 'playwright-core';
import type { LogEvent } from '../../src/core/bench/events.ts';
import type { Plan } from '../../src/core/plan/plan.ts';
import { DATABASE_NAME, type RoomName } from '../../src/store/schema.ts';
import { visit } from './app.ts';
import { waitUntil } from './harness.ts';

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
  await visit(page, url);
  await page.evaluate('navigator.serviceWorker.ready.then(() => true)');
}

/** Goes to the Warps screen, from wherever the app is. */
export async function toWarps(page: Page): Promise<void> {
  const away = '.weave, .warping, .measure, .journal';
  await page.locator(`${away}, .warps`).waitFor();
  if ((await page.locator('dialog[open]').count()) > 0) await page.keyboard.press('Escape');
  if ((await page.locator(away).count()) > 0) {
    await button(page, '‹ Warps').click();
    await keepsPlace(page, 'none');
  }
  await page.getByRole('heading', { name: 'Fellmark', exact: true }).waitFor();
}

/**
 * Waits until the disk knows what a restart comes back to, as long as no hand would take to reload;
 * where nothing can be saved it never does.
 */
async function keepsPlace(page: Page, place: 'none' | 'a warp'): Promise<void> {
  await waitUntil(async () => {
    const settings = (await storedRecords(page, 'settings')) as readonly Setting[];
    const weaving = settings.find(({ name }) => name === 'weaving')?.value ?? null;
    return (weaving === null) === (place === 'none');
  }, 2000).catch(() => false);
}

interface Setting {
  readonly name: string;
  readonly value: unknown;
}

/** Puts a demo warp of its own on the bench. */
export async function weaveDemo(page: Page, name: DemoName): Promise<void> {
  await toWarps(page);
  await button(page, 'Weave this').nth(DEMOS.indexOf(name)).click();
  await scene(page).waitFor();
  await keepsPlace(page, 'a warp');
}

/** Chooses a file in the file input, as the device's own dialogue would. */
export async function chooseFile(page: Page, name: string, bytes: string | Buffer): Promise<void> {
  const buffer = typeof bytes === 'string' ? Buffer.from(bytes) : bytes;
  await page.locator('input[type="file"]').setInputFiles({ name, mimeType: '', buffer });
}

/** Opens a plan as a file and puts it on the bench. */
export async function weavePlan(page: Page, plan: Plan): Promise<void> {
  await toWarps(page);
  await chooseFile(page, 'plan.json', JSON.stringify(plan));
  await page
    .locator('.warp-tile', { hasText: plan.name })
    .getByRole('button', { name: 'Weave', exact: true })
    .click();
  await scene(page).waitFor();
  await keepsPlace(page, 'a warp');
}

/** How soon a second tap counts, as the settings say it, in ms. */
const BOUNCE = { 'at once': 0, '¼ s': 250, '½ s': 500, '1 s': 1000 } as const;
export type Bounce = keyof typeof BOUNCE;

/** Sets it in the settings, unless the disk has it so. */
export async function setBounce(page: Page, words: Bounce): Promise<void> {
  const isSet = () => isBounceOnDisk(page, BOUNCE[words]);
  if (await isSet()) return;
  await openMore(page, 'Settings');
  await button(page, words).click();
  await button(page, 'Close').click();
  await closed(page);
  // Whoever sets it next must not find what was there before; where nothing is kept there is nothing.
  await waitUntil(isSet, 2000);
}

async function isBounceOnDisk(page: Page, ms: number): Promise<boolean> {
  const settings = (await storedRecords(page, 'settings').catch(() => [])) as readonly Setting[];
  const value = settings.find(({ name }) => name === 'settings')?.value;
  return (value as { readonly bounceMs?: number } | undefined)?.bounceMs === ms;
}

/** Opens one page of the More sheet, or does what its entry does at once. */
export async function openMore(page: Page, entry: string): Promise<void> {
  await button(page, 'More').click();
  await page.locator('.menu-button', { hasText: entry }).click();
}

/** Opens what can be taken along from the screen, and one entry of it. */
export async function takeAlong(page: Page, entry: 'Share this plan' | 'On paper'): Promise<void> {
  await button(page, 'Share or print').first().click();
  await page.locator('.menu-button', { hasText: entry }).click();
}

/** Waits until no sheet is open. */
export async function closed(page: Page): Promise<void> {
  await page.locator('dialog').waitFor({ state: 'detached' });
}

/** Throws picks by pedal. Bounces must be off for more than one. */
export function throwPicks(page: Page, picks: number): Promise<void> {
  return pressPedal(page, 'PageDown', picks);
}

export function undoTimes(page: Page, times: number): Promise<void> {
  return pressPedal(page, 'PageUp', times);
}

/** More than this, and the page presses by itself: the way there and back costs more than a pick. */
const PRESSED_FROM_OUTSIDE = 3;

async function pressPedal(page: Page, key: 'PageDown' | 'PageUp', times: number): Promise<void> {
  if (times > PRESSED_FROM_OUTSIDE)
    return page.evaluate(pressInside, { key, times, atATime: AT_A_TIME });
  for (let i = 0; i < times; i++) await page.keyboard.press(key);
}

interface Presses {
  readonly key: string;
  readonly times: number;
  readonly atATime: number;
}

/** Presses in one turn of the page; the disk and the screen come in between turns. */
const AT_A_TIME = 20;

/** In the page: what a pedal sends, without waiting for a frame after each press. */
async function pressInside({ key, times, atATime }: Presses) {
  for (let i = 0; i < times; i++) {
    for (const type of ['keydown', 'keyup']) {
      const on = document.activeElement ?? document.body;
      on.dispatchEvent(
        new KeyboardEvent(type, { key, code: key, bubbles: true, cancelable: true }),
      );
    }
    await (i % atATime === 0 ? new Promise((resolve) => setTimeout(resolve)) : null);
  }
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

/** What the eye comes to after call and cloth is painted in the frame behind theirs. */
export function behindTheFrame(page: Page): Promise<void> {
  return page.evaluate(
    () =>
      new Promise((resolve) => {
        requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(resolve)));
        // A window out of sight has no frames.
        setTimeout(resolve, 300);
      }),
  );
}

/** What stands on the bench now, in one look, once all of it does. */
export async function readCall(page: Page): Promise<ShownCall> {
  await behindTheFrame(page);
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
      spoken: (document.querySelector('.weave > [aria-live]')?.textContent ?? '').trim(),
    };
  });
}

/**
 * Everything the bench shows. Not what it says: that depends on where the weaver came from, for only
 * what is new is told.
 */
export interface ShownBench {
  readonly call: Omit<ShownCall, 'spoken'>;
  readonly piece: string;
  readonly dues: string;
  readonly next: string;
  readonly fell: string;
}

export async function readBench(page: Page): Promise<ShownBench> {
  const text = (selector: string) =>
    page.evaluate((it) => document.querySelector<HTMLElement>(it)?.innerText ?? '', selector);
  const { spoken: _, ...call } = await readCall(page);
  return {
    call,
    piece: await text('.weave-head h1'),
    dues: await text('.dues'),
    next: await text('.next'),
    fell: await text('.tape-fell'),
  };
}

/** Titles of the due cards that are open on the bench; only the first of several is shown. */
export async function dueTitles(page: Page): Promise<readonly string[]> {
  await behindTheFrame(page);
  return page.locator('.weave-foot .dues > .due strong').allTextContents();
}

/** Waits for the card with this title. */
export async function dueCard(page: Page, title: string | RegExp): Promise<Locator> {
  const card = page
    .locator('.dues > .due')
    .filter({ has: page.locator('strong', { hasText: title }) });
  await card.waitFor();
  return card;
}

/** Every event on the disk, of all warps, in the order of their keys. */
export async function storedEvents(page: Page): Promise<readonly LogEvent[]> {
  return (await storedRecords(page, 'events')) as readonly LogEvent[];
}

/** Everything in one room of the database, read past the app. */
export function storedRecords(page: Page, room: RoomName): Promise<readonly unknown[]> {
  const read = ([name, from]: readonly [string, string]) =>
    new Promise<unknown[]>((resolve, reject) => {
      const opening = indexedDB.open(name);
      opening.onerror = () => reject(opening.error);
      opening.onsuccess = () => {
        const database = opening.result;
        const reading = database.transaction(from).objectStore(from).getAll();
        reading.onerror = () => reject(reading.error);
        reading.onsuccess = () => {
          database.close();
          resolve(reading.result);
        };
      };
    });
  return page.evaluate(read, [DATABASE_NAME, room] as const);
}
