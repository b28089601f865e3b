import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { duesOf } from '../../../src/core/bench/dues.ts';
import { formatLength, MM_PER_INCH } from '../../../src/core/measure/length.ts';
import { loomCard } from '../../../src/core/paper/loomCard.ts';
import { PAPER_MARGIN, PAPER_SIZES, type Paper, printable } from '../../../src/core/paper/paper.ts';
import { layTape, type Strip, TAPE_FOOT, TAPE_HEAD, yOn } from '../../../src/core/paper/tape.ts';
import type { Plan } from '../../../src/core/plan/plan.ts';
import { usualWay, warpingList } from '../../../src/core/plan/warping.ts';
import { planFromLink } from '../../../src/ui/travelling.ts';
import { type App, openApp } from '../app.ts';
import {
  button,
  DEMOS,
  type DemoName,
  openMore,
  SIZES,
  scene,
  takeAlong,
  toWarps,
  weaveDemo,
  weavePlan,
} from '../bench.ts';
import { courseOf, demoPlan } from '../expected.ts';
import { makeTempDir, removeDir } from '../harness.ts';
import { planWeaving, solid } from '../plans.ts';
import { codeOn, coloursOf, pdfInfo, pdfText, strokesAcross, strokesDown } from './pdf.ts';

let app: App;
let page: Page;
const folder = makeTempDir('paper');

beforeAll(async () => {
  app = await openApp({ colorScheme: 'dark' });
  ({ page } = app);
});

afterAll(async () => {
  await app.close();
  removeDir(folder);
});

type Card = 'Loom card' | 'Warping card' | 'Tape' | 'Code';
const PAPERS = [
  { paper: 'a4', words: 'A4' },
  { paper: 'letter', words: 'Letter' },
] as const satisfies readonly { paper: Paper; words: string }[];

/** To the screen one came from, if paper is shown. */
async function leavePaper(): Promise<void> {
  if ((await page.locator('.paper').count()) === 0) return;
  await button(page, '‹ Back').click();
  await page.locator('.weave, .warps').waitFor();
}

async function toPaper(name: DemoName): Promise<void> {
  await leavePaper();
  await weaveDemo(page, name);
  await openMore(page, 'On paper');
  await page.locator('.paper').waitFor();
}

/** Prints what is previewed, as the browser's own dialogue would with its settings left alone. */
async function print(card: Card, words: string): Promise<string> {
  await button(page, card).click();
  await button(page, words).click();
  await page.locator('.page').first().waitFor();
  const path = join(folder, `${card} ${words}.pdf`);
  await page.pdf({ path, preferCSSPageSize: true, printBackground: false });
  return path;
}

const shownPages = () => page.locator('.page').count();

describe.each(DEMOS)('%s on paper', (name) => {
  const plan = demoPlan(name);
  const course = courseOf(plan);

  beforeAll(() => toPaper(name));

  describe.each(PAPERS)('$words', ({ paper, words }) => {
    const size = PAPER_SIZES[paper];

    it.each(['Loom card', 'Warping card', 'Tape', 'Code'] as const)(
      'the pages of the %s are as many as in the preview, of this size',
      async (card) => {
        const told = pdfInfo(await print(card, words));
        expect(told.pages).toBe(await shownPages());
        expect(told.width).toBeCloseTo(size.width, 0);
        expect(told.height).toBeCloseTo(size.height, 0);
        if (card === 'Loom card') expect(told.pages).toBeLessThanOrEqual(2);
      },
    );

    it('the loom card says every block and everything due, with the length reached', async () => {
      const text = pdfText(await print('Loom card', words)).replace(/\s+/g, ' ');
      let from = 0;
      for (const group of loomCard(course, duesOf(course))) {
        for (const line of group.lines) {
          if (line.kind === 'due') continue;
          const letters = line.round.map(({ yarn }) => plan.yarns[yarn]);
          const first = `${letters[0]?.letter} ${letters[0]?.name}`;
          const at = formatLength(line.loomEnd, plan.units);
          const found = text
            .slice(from)
            .search(new RegExp(`${first}.{0,80}? ${line.picks} .{0,20}?${at}`));
          expect(found, `${first}, ${line.picks} picks, ${at}`).toBeGreaterThanOrEqual(0);
          from += found + 1;
        }
      }
      expect(text).toContain(plan.name);
    });

    it('the code is the whole plan, read off the paper', async () => {
      const path = await print('Code', words);
      const read = await planFromLink(codeOn(path, 1, pdfInfo(path)));
      expect(read).toEqual({ ok: true, value: plan });
    });

    it('the warping card says every step with its place', async () => {
      const text = pdfText(await print('Warping card', words)).replace(/\s+/g, ' ');
      const way = usualWay(plan);
      const list = warpingList(plan, { ...way, warpLength: 1000 });
      for (const step of list.steps) {
        if (step.phase === 'loops' || step.phase === 'holes') {
          const slots =
            step.to - step.from === 1 ? `slot ${step.to}` : `slots ${step.from + 1}–${step.to}`;
          expect(text).toContain(slots);
        } else if (step.phase === 'thread')
          expect(text).toContain(`Ends ${step.from + 1}–${step.to}`);
      }
    });

    it('distances on the tape are those of the core to 0.2 mm, and so are the bars', async () => {
      const path = await print('Tape', words);
      expectTrueSize(path, plan, paper, 1);
    });
  });
});

/** Where the words of a strip end and only lines across it are met; and its ticks, near its left edge. */
const MARKS_AT = 26.5;
const TICKS_AT = 0.7;

function expectTrueSize(path: string, plan: Plan, paper: Paper, stretch: number): void {
  const course = courseOf(plan);
  const all = course.pieces.map(({ index }) => index);
  const pages = layTape(course, duesOf(course), all, { paper, units: plan.units, stretch });
  for (const [i, strips] of pages.entries()) {
    for (const strip of strips) {
      expectMarks(path, i + 1, plan, strip);
      expectTicks(path, i + 1, plan, strip);
    }
    expectBars(path, i + 1, paper, stretch);
  }
}

/** On paper, from the upper edge. */
const yOnPaper = (strip: Strip, at: number) => PAPER_MARGIN + yOn(strip, at);

function expectMarks(path: string, number: number, plan: Plan, strip: Strip): void {
  const course = courseOf(plan);
  const piece = course.pieces[strip.pieces[0] ?? -1];
  if (piece === undefined) throw new Error('got no piece');
  const x = PAPER_MARGIN + strip.left + MARKS_AT;
  const top = yOnPaper(strip, strip.drawnTo) - 2;
  const found = strokesDown(path, number, x, top, yOnPaper(strip, strip.from) + 2);
  // Beginnings and ends of blocks straight from the course, not from what the tape made of them.
  const blocks = course.blocks.slice(piece.firstBlock, piece.firstBlock + piece.blocks);
  const ends = [...blocks.map((block) => block.loomStart), piece.loomLength];
  const here = ends.filter((at) => at >= strip.from - 1e-6 && at <= strip.drawnTo + 1e-6);
  expect(here.length).toBeGreaterThan(0);
  const measured = here.map((at) => {
    const wanted = yOnPaper(strip, at);
    const nearest = found.reduce((best, it) =>
      Math.abs(it.at - wanted) < Math.abs(best.at - wanted) ? it : best,
    );
    expect(Math.abs(nearest.at - wanted), `a mark at ${at} mm`).toBeLessThan(0.2);
    expect(nearest.thickness).toBeLessThan(2);
    return nearest.at;
  });
  for (const [i, at] of here.entries()) {
    const before = here[i - 1];
    const [y, yBefore] = [measured[i], measured[i - 1]];
    if (before === undefined || y === undefined || yBefore === undefined) continue;
    expect(Math.abs(yBefore - y - (at - before) * strip.stretch)).toBeLessThan(0.2);
  }
}

function expectTicks(path: string, number: number, plan: Plan, strip: Strip): void {
  const step = (plan.units === 'inch' ? MM_PER_INCH / 8 : 1) * strip.stretch;
  const x = PAPER_MARGIN + strip.left + TICKS_AT;
  const top = yOnPaper(strip, strip.to) + 0.5;
  const ticks = strokesDown(path, number, x, top, yOnPaper(strip, strip.from) - 0.5);
  expect(ticks.length).toBe(Math.ceil(((strip.to - strip.from) * strip.stretch - 0.5) / step) - 1);
  const first = ticks.at(-1)?.at ?? Number.NaN;
  for (const [i, { at }] of [...ticks].reverse().entries())
    expect(Math.abs(first - at - i * step)).toBeLessThan(0.1);
}

function expectBars(path: string, number: number, paper: Paper, stretch: number): void {
  const { height } = printable(paper);
  const flat = PAPER_MARGIN + height - TAPE_FOOT + 3;
  const ends = (y: number, to: number) => {
    const strokes = strokesAcross(path, number, y, PAPER_MARGIN - 1, PAPER_MARGIN + to);
    return (strokes.at(-1)?.at ?? 0) - (strokes[0]?.at ?? 0);
  };
  // Below the shorter ticks only the two ends are left.
  expect(Math.abs(ends(flat + 3, 107) - 100 * stretch)).toBeLessThan(0.2);
  expect(Math.abs(ends(flat + 8.5 + 3, 107) - 4 * MM_PER_INCH * stretch)).toBeLessThan(0.2);
  const upright = PAPER_MARGIN + TAPE_HEAD + 2;
  const down = strokesDown(path, number, PAPER_MARGIN + 0.5, upright - 1, upright + 115);
  const [first, last] = [down[0]?.at ?? 0, down.at(-1)?.at ?? 0];
  expect(Math.abs(last - first - 100 * stretch)).toBeLessThan(0.2);
}

describe('the tape', () => {
  beforeAll(() => toPaper('ink-oat-ochre'));

  it('in black and white has no colour, in colour that of every yarn', async () => {
    const plain = await print('Tape', 'A4');
    const grey = (colour: string) =>
      colour.slice(1, 3) === colour.slice(3, 5) && colour.slice(3, 5) === colour.slice(5);
    expect([...coloursOf(plain, 1, pdfInfo(plain))].filter((it) => !grey(it))).toEqual([]);
    await button(page, 'Colour').click();
    const coloured = await print('Tape', 'A4');
    const seen = coloursOf(coloured, 1, pdfInfo(coloured));
    for (const yarn of demoPlan('ink-oat-ochre').yarns) expect(seen).toContain(yarn.colour);
    await button(page, 'Black and white').click();
  });

  it('for a printer that makes 97 mm of 100 is drawn so much longer', async () => {
    await button(page, 'Tape').click();
    const field = page.getByLabel('Measured length of the bar');
    await field.fill('97');
    await field.blur();
    const path = await print('Tape', 'Letter');
    expectTrueSize(path, demoPlan('ink-oat-ochre'), 'letter', 100 / 97);
    await field.fill('nonsense');
    await field.blur();
    expect(await field.inputValue()).toBe('97');
    await field.fill('100');
    await field.blur();
  });

  it('of one piece alone has only that', async () => {
    await toPaper('moss-and-chalk');
    await button(page, 'Tape').click();
    const all = await page.locator('.tape-page > g').count();
    await page.getByLabel('Pieces').selectOption({ label: 'Towel two, chalk on moss' });
    expect(await page.locator('.tape-page > g').count()).toBeLessThan(all);
    expect(await page.locator('.tape-page').first().textContent()).toContain('chalk on moss');
    expect(await page.locator('.tape-page').first().textContent()).not.toContain('moss on chalk');
  });
});

describe('what was changed at the loom', () => {
  it('is on the card of the warp on the loom', async () => {
    await leavePaper();
    await weavePlan(page, planWeaving('As woven', [solid('A', 10)]));
    const card = async () => {
      await openMore(page, 'On paper');
      return pdfText(await print('Loom card', 'A4')).replace(/\s+/g, ' ');
    };
    const before = await card();
    expect(before).toContain('A moss 10 right, up');
    await button(page, '‹ Back').click();
    await openMore(page, 'Other shed');
    await expect.poll(() => page.locator('.call-shed').textContent()).toBe('down');
    expect(await card()).toContain('A moss 10 right, down');
    await button(page, '‹ Back').click();
    await scene(page).waitFor();
  });
});

describe('from the Warps screen and from the planner', () => {
  it('a warp is printed and the way back leads where one came from', async () => {
    await toWarps(page);
    await takeAlong(page, 'On paper');
    await page.locator('.paper').waitFor();
    await button(page, '‹ Back').click();
    await page.getByRole('heading', { name: 'Fellmark' }).waitFor();
    await button(page, 'Plan another').first().click();
    await page.getByLabel('Name of the plan').fill('Only planned');
    await takeAlong(page, 'On paper');
    await page.locator('.paper', { hasText: 'Only planned' }).waitFor();
    await button(page, '‹ Back').click();
    await expect.poll(() => page.getByLabel('Name of the plan').inputValue()).toBe('Only planned');
    await button(page, '‹ Warps').click();
  });
});

describe.each(SIZES)('the preview at $name', ({ width, height }) => {
  it('shows whole pages in their proportions and needs no scrolling sideways', async () => {
    await page.setViewportSize({ width, height });
    await toPaper('moss-and-chalk');
    for (const card of ['Loom card', 'Warping card', 'Tape'] as const) {
      await button(page, card).click();
      await button(page, 'A4').click();
      const boxes = await page.locator('.page').evaluateAll((all) =>
        all.map((it) => {
          const { width: wide, height: high } = it.getBoundingClientRect();
          return { wide, high, over: it.scrollWidth - it.clientWidth };
        }),
      );
      for (const { wide, high, over } of boxes) {
        expect(high / wide).toBeCloseTo(297 / 210, 1);
        expect(wide).toBeLessThanOrEqual(width);
        expect(over).toBe(0);
      }
    }
    const sideways = await page.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    );
    expect(sideways).toBe(0);
  });
});
