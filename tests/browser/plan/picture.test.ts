// The picture from the Plan screen against the figures beside it: sizes in the files are the sheet's.
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { beforeAll, beforeEach, expect, it } from 'vitest';
import type { Plan } from '../../../src/core/plan/plan.ts';
import { type PlanSheet, sheetOf } from '../../../src/core/planner/sheet.ts';
import { openApp } from '../app.ts';
import { button, closed } from '../bench.ts';
import { demoPlan } from '../expected.ts';
import { planFrom } from './planner.ts';

/** One piece, so that its size is the picture's; hemmed, so that no fringe is part of it. */
function oneRunner(): Plan {
  const plan = demoPlan('ink-oat-ochre');
  return { ...plan, name: 'One runner', pieces: plan.pieces.slice(0, 1) };
}

const plan = oneRunner();
const sheet: PlanSheet = sheetOf(plan);
/** Millimetres that a length in a file may be off: a hem is turned at a whole pick, at both ends. */
const TWO_PICKS = 2 * plan.weaving.pickSpacing;
/** Sizes are written to a hundredth. */
const HAIR = 0.02;

let page: Page;

beforeAll(async () => {
  const app = await openApp({ reducedMotion: 'reduce' });
  ({ page } = app);
  await planFrom(page, plan);
  return app.close;
});

beforeEach(async () => {
  if ((await page.locator('.viewer').count()) > 0) return;
  await page.locator('.sum-picture').click();
  await page.locator('.viewer-canvas').waitFor();
});

async function savedAs(words: string): Promise<Buffer> {
  const coming = page.waitForEvent('download');
  await button(page, words).click();
  return readFileSync(await (await coming).path());
}

interface Size {
  readonly width: number;
  readonly height: number;
}

/** The size an SVG states, read by the browser's own reader; throws where it is no SVG. */
function sizeOfSvg(text: string): Promise<Size> {
  return page.evaluate((it) => {
    const root = new DOMParser().parseFromString(it, 'image/svg+xml').documentElement;
    if (root.localName !== 'svg') throw new Error(`got ${root.textContent}, wanted an SVG`);
    const mm = (name: string) => {
      const [, size] = /^([\d.]+)mm$/.exec(root.getAttribute(name) ?? '') ?? [];
      return Number(size);
    };
    return { width: mm('width'), height: mm('height') };
  }, text);
}

/** The size a PNG has once the browser has decoded every pixel of it. */
function sizeOfPng(bytes: Buffer): Promise<Size> {
  return page.evaluate(async (base64) => {
    const binary = atob(base64);
    const data = Uint8Array.from(binary, (char) => char.charCodeAt(0));
    const bitmap = await createImageBitmap(new Blob([data], { type: 'image/png' }));
    return { width: bitmap.width, height: bitmap.height };
  }, bytes.toString('base64'));
}

it.each([
  // Washed it is shown as it will be used: the hems are turned.
  { state: 'Washed', width: sheet.widths.washed, length: sheet.pieces[0]?.finishedLength ?? 0 },
  { state: 'On the loom', width: sheet.widths.loom, length: sheet.pieces[0]?.loomLength ?? 0 },
])(
  '$state, the SVG is as wide and as long as the sheet says, and the PNG of its shape',
  async ({ state, width, length }) => {
    await button(page, state).click();
    await button(page, 'Save picture').click();
    const svg = await sizeOfSvg((await savedAs('Save SVG')).toString());
    expect(Math.abs(svg.width - width)).toBeLessThan(HAIR);
    expect(Math.abs(svg.height - length)).toBeLessThan(TWO_PICKS);
    const png = await sizeOfPng(await savedAs('Save PNG'));
    // Whole pixels a thread: a thread may be a pixel off its true width.
    expect(png.width / png.height / (width / length)).toBeGreaterThan(0.95);
    expect(png.width / png.height / (width / length)).toBeLessThan(1.05);
    await button(page, 'Save picture').click();
  },
);

it('what is typed in the plan is there in the picture opened next', async () => {
  const words = () => page.locator('.viewer-canvas').getAttribute('aria-label');
  await expect.poll(words).toContain(`${sheet.warp.ends} ends`);
  await button(page, 'Close').click();
  await closed(page);
  await page.locator('.part-tab', { hasText: 'Warp' }).click();
  await page.getByLabel('In one line').fill('20 A, 30 B');
  await page.locator('.sum-picture').click();
  await expect.poll(words).toContain('50 ends');
});

/** From now on the first patches that come are kept as one picture, and where they lie. */
function keepFirstFrame(): void {
  const composed = (room: HTMLElement): HTMLCanvasElement => {
    const all = document.createElement('canvas');
    const whole = room.querySelector<HTMLCanvasElement>('.viewer-canvas');
    all.width = whole?.width ?? 0;
    all.height = whole?.height ?? 0;
    const ctx = all.getContext('2d');
    if (ctx === null) throw new Error('got no context');
    ctx.fillStyle = getComputedStyle(room).backgroundColor;
    ctx.fillRect(0, 0, all.width, all.height);
    const corner = room.getBoundingClientRect();
    for (const it of room.querySelectorAll<HTMLCanvasElement>('.viewer-patches canvas')) {
      const { left, top } = it.getBoundingClientRect();
      ctx.drawImage(it, Math.round(left - corner.left), Math.round(top - corner.top));
    }
    return all;
  };
  // Told when all patches of one go are there and painted, before anything else can come in between.
  const watch = new MutationObserver(() => {
    const room = document.querySelector<HTMLElement>('.viewer-room');
    if (room?.querySelector('.viewer-patches canvas') == null) return;
    watch.disconnect();
    Object.assign(window, { firstFrame: composed(room) });
  });
  watch.observe(document, { subtree: true, childList: true });
}

/** By how many steps of a byte the first frame differs at most from what the canvas shows now. */
function changedSince(): { readonly bytes: number; readonly most: number } {
  const first = (window as unknown as { readonly firstFrame: HTMLCanvasElement }).firstFrame;
  const whole = document.querySelector<HTMLCanvasElement>('.viewer-canvas');
  const bytesOf = (it: HTMLCanvasElement | null) =>
    it?.getContext('2d')?.getImageData(0, 0, it.width, it.height).data ?? [];
  const [before, now] = [bytesOf(first), bytesOf(whole)];
  let most = 0;
  for (const [i, byte] of now.entries()) most = Math.max(most, Math.abs(byte - (before[i] ?? 0)));
  return { bytes: now.length, most };
}

it('the first frame shows, sharp and whole, what the canvas over all of the room shows later', async () => {
  await button(page, 'Close').click();
  await closed(page);
  await page.evaluate(keepFirstFrame);
  await page.locator('.sum-picture').click();
  await page.waitForFunction(
    () => 'firstFrame' in window && document.querySelector('.viewer-patches canvas') === null,
  );
  const { bytes, most } = await page.evaluate(changedSince);
  const whole = page.locator('.viewer-canvas');
  // Pixel on pixel, too: stretched by a part of one it would be blurred.
  const box = await whole.boundingBox();
  const size = {
    width: Number(await whole.getAttribute('width')),
    height: Number(await whole.getAttribute('height')),
  };
  expect(box).toMatchObject(size);
  expect(bytes).toBeGreaterThan(1_000_000);
  // The edge of a line between two pixels may be rounded otherwise on a canvas with another corner.
  expect(most).toBeLessThanOrEqual(1);
});
