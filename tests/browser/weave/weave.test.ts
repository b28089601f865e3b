import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Course } from '../../../src/core/bench/course.ts';
import {
  button,
  DEMOS,
  firstVisit,
  readCall,
  saved,
  scene,
  setBounce,
  throwPicks,
  weaveDemo,
} from '../bench.ts';
import { courseOf, demoPlan, expectedCall } from '../expected.ts';
import { openVisitor, serveDist, type Visitor } from '../harness.ts';

/** Picks of the second piece that are woven too. */
const INTO_NEXT = 30;

/**
 * 25 picks of the first piece and the start of the second, in ascending order: the first of each
 * piece, the last of the first piece, and beginnings and ends of stripes spread over all of it.
 */
function chosenPicks(course: Course, upTo: number): readonly number[] {
  const second = course.pieces[1]?.firstPick ?? 0;
  const starts = [...course.stripes.firstPick].filter((pick) => pick < upTo);
  const turning = [...new Set(starts.flatMap((pick) => [pick, Math.max(0, pick - 1)]))];
  const others = turning.filter((pick) => ![0, second - 1, second].includes(pick));
  const spread = Array.from({ length: 22 }, (_, i) => {
    return others[Math.floor((i * others.length) / 22)] ?? 0;
  });
  return [...new Set([0, second - 1, second, ...spread])].sort((a, b) => a - b);
}

describe.each(DEMOS)('%s, with the server stopped after the first visit', (name) => {
  const course = courseOf(demoPlan(name));
  const firstPiece = course.pieces[0]?.picks ?? 0;
  const upTo = firstPiece + INTO_NEXT;
  const chosen = chosenPicks(course, upTo);
  let browser: Visitor;

  beforeAll(async () => {
    const server = await serveDist();
    browser = await openVisitor();
    await firstVisit(browser.page, server.url);
    await server.stop();
    await expect(fetch(server.url)).rejects.toThrow();
  });

  afterAll(() => browser.close());

  it('25 picks are chosen', () => {
    expect(chosen).toHaveLength(25);
    expect(new Set(chosen).size).toBe(25);
  });

  it('weaves its first piece and the start of the next, with the right call at each chosen pick', async () => {
    const { page } = browser;
    const shown = async (pick: number) => {
      const { spoken: _, ...call } = await readCall(page);
      return { pick, call };
    };
    const wanted = (pick: number) => ({ pick, call: expectedCall(course, pick) });
    await weaveDemo(page, name);
    await setBounce(page, 'at once');
    const halfWay = Math.floor(firstPiece / 2);
    let at = 0;
    for (const pick of [...new Set([...chosen, halfWay, upTo])].sort((a, b) => a - b)) {
      await throwPicks(page, pick - at);
      at = pick;
      await expect.poll(() => shown(pick), { interval: 10 }).toEqual(wanted(pick));
      if (pick !== halfWay) continue;
      await saved(page);
      await page.reload();
      await scene(page).waitFor();
      expect(await shown(pick)).toEqual(wanted(pick));
    }
    expect(at).toBe(upTo);
    await expect.poll(() => page.locator('.weave-head h1').textContent()).toContain('2 of 2');
  });

  it('the Warps screen counts the same picks', async () => {
    const { page } = browser;
    await button(page, '‹ Warps').click();
    const words = await page.locator('.warp-tile .warp-words p').textContent();
    const piece = course.plan.pieces[1];
    expect(words).toContain(`${piece?.name}: pick ${INTO_NEXT + 1} of ${course.pieces[1]?.picks},`);
  });

  it('to the last pick of the warp and no further', async () => {
    const { page } = browser;
    await button(page, 'Go on').click();
    await scene(page).waitFor();
    await throwPicks(page, course.picks - upTo - 1);
    await expect.poll(async () => (await readCall(page)).of).toBeGreaterThan(0);
    const { spoken: _, ...last } = await readCall(page);
    expect(last).toEqual(expectedCall(course, course.picks - 1));
    await throwPicks(page, 1);
    await expect.poll(() => page.locator('.call-name').textContent()).toBe('Woven to the end');
    await throwPicks(page, 3);
    await page.keyboard.press('PageUp');
    await expect.poll(async () => (await readCall(page)).pick).toBe(last.pick);
  });
});
