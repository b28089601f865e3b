// The whole-cloth picture in a real browser: fingers, wheel, keys and buttons do the same, both
// states and all distances are shown, and the files are what they say they are.
import { readFileSync } from 'node:fs';
import axe from 'axe-core';
import type { CDPSession, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { type ClothState, clothPlan } from '../../src/core/planner/clothPlan.ts';
import { button, chooseFile, closed, firstVisit, SIZES } from './bench.ts';
import { courseOf, demoPlan, demoText } from './expected.ts';
import { openVisitor, serveDist, type Visitor } from './harness.ts';

const plan = demoPlan('moss-and-chalk');
const clothIn = (state: ClothState) => clothPlan(courseOf(plan), { state, aspect: 1 });

let browser: Visitor;
let page: Page;
let touch: CDPSession;

beforeAll(async () => {
  const server = await serveDist();
  browser = await openVisitor({ hasTouch: true, reducedMotion: 'reduce' });
  page = browser.page;
  touch = await page.context().newCDPSession(page);
  await firstVisit(page, server.url);
  // From here on without a network.
  await server.stop();
  await chooseFile(page, 'plan.json', demoText('moss-and-chalk'));
  await button(page, 'Plan another').tap();
  await page.locator('.sum-picture').tap();
  await canvas().waitFor();
});

afterAll(() => browser.close());

beforeEach(async () => {
  await button(page, 'Washed').tap();
  await button(page, 'Near').tap();
  await button(page, 'Whole').tap();
});

const canvas = () => page.locator('.viewer-canvas');

const GRID = 48;

/** The picture as 48 × 48 mean colours, once it has stopped changing. */
async function seen(): Promise<readonly number[]> {
  let before = await means();
  for (let tries = 0; tries < 60; tries++) {
    await page.waitForTimeout(120);
    const now = await means();
    if (now.every((value, i) => value === before[i])) return now;
    before = now;
  }
  throw new Error('the picture never came to rest');
}

function means(): Promise<readonly number[]> {
  return canvas().evaluate((element, grid) => {
    const it = element as HTMLCanvasElement;
    const data = it.getContext('2d')?.getImageData(0, 0, it.width, it.height).data ?? [];
    const sums = new Float64Array(grid * grid * 3);
    for (let y = 0; y < it.height; y++) {
      for (let x = 0; x < it.width; x++) {
        const cell = Math.floor((y * grid) / it.height) * grid + Math.floor((x * grid) / it.width);
        for (let c = 0; c < 3; c++) {
          const at = cell * 3 + c;
          sums[at] = (sums[at] ?? 0) + (data[(y * it.width + x) * 4 + c] ?? 0);
        }
      }
    }
    const share = (grid * grid) / (it.width * it.height);
    return Array.from(sums, (sum) => sum * share);
  }, GRID);
}

/** Mean difference of two pictures, in steps of a byte. */
const apart = (one: readonly number[], other: readonly number[]) =>
  one.reduce((sum, value, i) => sum + Math.abs(value - (other[i] ?? 0)), 0) / one.length;

async function box() {
  const found = await canvas().boundingBox();
  if (found === null) throw new Error('got no canvas');
  return found;
}

type Point = readonly [number, number];

/** Fingers that go from some points to others, in ten steps. */
async function fingers(from: readonly Point[], to: readonly Point[]): Promise<void> {
  const at = (part: number) =>
    from.map(([x, y], id) => {
      const [endX, endY] = to[id] ?? [x, y];
      return { id, x: x + part * (endX - x), y: y + part * (endY - y) };
    });
  await touch.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: at(0) });
  for (let step = 1; step <= 10; step++) {
    await touch.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints: at(step / 10) });
  }
  await touch.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
}

async function larger(times: number): Promise<void> {
  for (let i = 0; i < times; i++) await button(page, 'Larger').tap();
}

describe('the picture is moved', () => {
  it('by a finger as by a button', async () => {
    await larger(3);
    const start = await seen();
    const { x, y, width } = await box();
    await button(page, 'Move right').tap();
    const pressed = await seen();
    await button(page, 'Move left').tap();
    expect(apart(await seen(), start)).toBeLessThan(0.5);
    const drawn = 0.2 * width;
    await fingers([[x + 500, y + 200]], [[x + 500 - drawn, y + 200]]);
    const dragged = await seen();
    expect(apart(dragged, start)).toBeGreaterThan(5);
    expect(apart(dragged, pressed)).toBeLessThan(apart(dragged, start) / 5);
  });

  it('by keys as by buttons, and back to the whole', async () => {
    const whole = await seen();
    await larger(2);
    await button(page, 'Move down').tap();
    const pressed = await seen();
    await button(page, 'Whole').tap();
    expect(apart(await seen(), whole)).toBe(0);
    await canvas().focus();
    for (const key of ['+', '+', 'ArrowDown']) await page.keyboard.press(key);
    // The ring of the focus lies round the canvas, not in it.
    expect(apart(await seen(), pressed)).toBe(0);
    await page.keyboard.press('0');
    expect(apart(await seen(), whole)).toBe(0);
  });

  it('and made larger by two fingers as by a button', async () => {
    const whole = await seen();
    await larger(1);
    const pressed = await seen();
    await button(page, 'Whole').tap();
    const { x, y, width, height } = await box();
    // The middle of the page: the rulers lie left and below.
    const [midX, midY] = [x + (width + 58) / 2, y + (height - 34) / 2];
    await fingers(
      [
        [midX - 100, midY],
        [midX + 100, midY],
      ],
      [
        [midX - 160, midY],
        [midX + 160, midY],
      ],
    );
    const pinched = await seen();
    expect(apart(pinched, whole)).toBeGreaterThan(5);
    expect(apart(pinched, pressed)).toBeLessThan(apart(pinched, whole) / 5);
  });

  it('and made larger by the wheel, round the mouse', async () => {
    const whole = await seen();
    const { x, y } = await box();
    await page.mouse.move(x + 300, y + 200);
    await page.mouse.wheel(0, -300);
    expect(apart(await seen(), whole)).toBeGreaterThan(5);
    await page.mouse.wheel(0, 300);
    await page.mouse.wheel(0, 300);
    expect(apart(await seen(), whole)).toBeLessThan(0.5);
  });
});

describe('the picture shows', () => {
  it('the plan’s own colours', async () => {
    await larger(1);
    await seen();
    const colours = await canvas().evaluate((element) => {
      const it = element as HTMLCanvasElement;
      const data = it.getContext('2d')?.getImageData(0, 0, it.width, it.height).data ?? [];
      const found = new Set<string>();
      for (let i = 0; i < data.length; i += 4) {
        const hex = [0, 1, 2].map((c) => (data[i + c] ?? 0).toString(16).padStart(2, '0'));
        found.add(`#${hex.join('')}`);
      }
      return [...found];
    });
    for (const yarn of plan.yarns) expect(colours).toContain(yarn.colour);
  });

  it('the cloth on the loom and washed, from near, from an arm’s length and across the room', async () => {
    await larger(4);
    const near = await seen();
    await button(page, 'At arm’s length').tap();
    await page.getByText('Seen from 60 cm').waitFor();
    const arm = await seen();
    await button(page, 'Across the room').tap();
    await page.getByText('Seen from 4 m').waitFor();
    const room = await seen();
    expect(apart(arm, near)).toBeGreaterThan(0.2);
    expect(apart(room, arm)).toBeGreaterThan(0.2);
    await button(page, 'Near').tap();
    expect(apart(await seen(), near)).toBe(0);
    await button(page, 'Whole').tap();
    const washed = await seen();
    await button(page, 'On the loom').tap();
    expect(apart(await seen(), washed)).toBeGreaterThan(5);
    const { ends } = clothIn('loom');
    const words = `The cloth of 2 pieces on the loom: ${ends.length} ends, ${courseOf(plan).picks} picks`;
    await expect.poll(() => canvas().getAttribute('aria-label')).toBe(words);
  });
});

describe('the picture is saved', () => {
  async function savedAs(
    words: string,
  ): Promise<{ readonly name: string; readonly bytes: Buffer }> {
    const coming = page.waitForEvent('download');
    await button(page, words).tap();
    const download = await coming;
    return { name: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
  }

  it('as a PNG of its proportions and an SVG of its size', async () => {
    await button(page, 'Save picture').tap();
    const png = await savedAs('Save PNG');
    expect(png.name).toMatch(/-washed\.png$/);
    expect(png.bytes.subarray(1, 4).toString()).toBe('PNG');
    const [width, height] = [png.bytes.readUInt32BE(16), png.bytes.readUInt32BE(20)];
    const svg = await savedAs('Save SVG');
    expect(svg.name).toMatch(/-washed\.svg$/);
    const text = svg.bytes.toString();
    const [, wide, high] = /width="(\S+)mm" height="(\S+)mm"/.exec(text) ?? [];
    // As wide as two towels beside each other, as far apart as a ninth of one.
    const { clothWidth } = clothIn('washed');
    expect(Number(wide)).toBeCloseTo((2 + 1 / 9) * clothWidth, 1);
    const shape = Number(wide) / Number(high);
    expect(width / height / shape).toBeGreaterThan(0.95);
    expect(width / height / shape).toBeLessThan(1.05);
    for (const yarn of plan.yarns) expect(text).toContain(yarn.colour);
    await button(page, 'Save picture').tap();
  });
});

describe('the picture at every size', () => {
  it.each(SIZES)('fits and has nothing for axe to find: $name', async ({ width, height }) => {
    await page.setViewportSize({ width, height });
    await button(page, 'Save picture').tap();
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme });
      await page.locator(`html[data-theme="${colorScheme}"]`).waitFor();
      await page.evaluate(axe.source);
      const { violations } = (await page.evaluate('axe.run(".viewer")')) as {
        readonly violations: readonly { readonly id: string }[];
      };
      expect(violations.map(({ id }) => id)).toEqual([]);
    }
    await button(page, 'Save picture').tap();
    const room = await page.locator('.viewer').boundingBox();
    for (const it of await page.locator('.viewer button').all()) {
      const place = await it.boundingBox();
      expect(Math.min(place?.width ?? 0, place?.height ?? 0)).toBeGreaterThanOrEqual(44);
      expect(place?.x ?? -1).toBeGreaterThanOrEqual(room?.x ?? width);
      const right = (room?.x ?? 0) + (room?.width ?? 0);
      expect((place?.x ?? 0) + (place?.width ?? 0)).toBeLessThanOrEqual(right + 0.5);
    }
  });

  it('is left with one tap', async () => {
    await button(page, 'Close').tap();
    await closed(page);
  });
});
