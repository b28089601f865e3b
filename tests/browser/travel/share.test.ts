import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readBackup } from '../../../src/core/backup/file/readBackup.ts';
import type { LogEvent } from '../../../src/core/bench/events.ts';
import { planFromLink } from '../../../src/ui/travelling.ts';
import { visit } from '../app.ts';
import {
  button,
  closed,
  openMore,
  SIZES,
  saved,
  setBounce,
  storedEvents,
  takeAlong,
  throwPicks,
  toWarps,
  undoTimes,
  weaveDemo,
  weavePlan,
} from '../bench.ts';
import { demoPlan } from '../expected.ts';
import { openVisitor, serveDist, type Visitor } from '../harness.ts';
import { planWeaving, solid } from '../plans.ts';
import { hardLetters } from './noted.ts';

let server: Awaited<ReturnType<typeof serveDist>>;
let browser: Visitor;
let page: Page;

beforeAll(async () => {
  server = await serveDist();
  browser = await openVisitor({ serviceWorkers: 'block' });
  page = browser.page;
  await browser.context.grantPermissions(['clipboard-read', 'clipboard-write'], {
    origin: server.url,
  });
  await visit(page, server.url);
  await weaveDemo(page, 'moss-and-chalk');
});

afterAll(async () => {
  await browser.close();
  await server.stop();
});

const shownLink = () => page.getByLabel('The link').inputValue();

const doors: readonly { readonly from: string; readonly open: () => Promise<unknown> }[] = [
  { from: 'the bench', open: () => openMore(page, 'Share this plan') },
  {
    from: 'its tile',
    open: async () => {
      await toWarps(page);
      await takeAlong(page, 'Share this plan');
    },
  },
  {
    from: 'the planner',
    open: async () => {
      await button(page, 'Plan another').first().click();
      // The planner is read in first; Warps has a button of the same name.
      await button(page, 'Put on the loom').waitFor();
      await takeAlong(page, 'Share this plan');
    },
  },
];

describe.each(doors)('a plan shared from $from', ({ from, open }) => {
  const plan = demoPlan('moss-and-chalk');
  const name = from === 'the planner' ? `${plan.name}, again` : plan.name;

  it('is saved as a file that holds exactly this plan', async () => {
    await open();
    const download = page.waitForEvent('download');
    await button(page, 'Save the plan as a file').click();
    const file = await download;
    expect(file.suggestedFilename()).toMatch(/^Two-hand-towels-in-moss-and-chalk.*\.json$/);
    expect(JSON.parse(readFileSync(await file.path(), 'utf8'))).toEqual({ ...plan, name });
  });

  it('is in the link, whole, under the address of the app', async () => {
    const link = await shownLink();
    expect(link.startsWith(`${server.url}#plan=`)).toBe(true);
    expect(await planFromLink(link)).toEqual({ ok: true, value: { ...plan, name } });
    await button(page, 'Copy the link').click();
    await page.getByText('The link is copied').waitFor();
    expect(await page.evaluate(() => navigator.clipboard.readText())).toBe(link);
    await button(page, 'Close').click();
    await closed(page);
  });
});

describe('a warp shared with its log', () => {
  it('is a backup file that holds this warp alone, to the last tap', async () => {
    await button(page, '‹ Warps').click();
    await weaveDemo(page, 'ink-oat-ochre');
    await setBounce(page, 'at once');
    await throwPicks(page, 30);
    await undoTimes(page, 2);
    await openMore(page, 'Share this plan');
    const download = page.waitForEvent('download');
    await button(page, 'Save the warp with its log').click();
    const file = await download;
    expect(file.suggestedFilename()).toMatch(/^Two-table-runners-.*-as-woven\.json$/);
    const read = readBackup(readFileSync(await file.path(), 'utf8'));
    if (!read.ok) throw new Error(JSON.stringify(read.problem));
    const [warp, ...others] = read.value.warps;
    expect([others, read.value.records, read.value.settings]).toEqual([[], [], []]);
    expect(warp?.plans.map(({ plan }) => plan)).toEqual([demoPlan('ink-oat-ochre')]);
    await button(page, 'Close').click();
    await closed(page);
    await saved(page);
    const stored = (await storedEvents(page)).filter((event) => event.warp === warp?.warp.id);
    expect(stored).toHaveLength(32);
    expect(warp?.log).toEqual(stored.map((event) => withoutSequence(event)));
  });
});

/** The number the database gives an event is its own affair. */
function withoutSequence(event: LogEvent): LogEvent {
  const { seq: _, ...rest } = event as LogEvent & { readonly seq?: number };
  return rest;
}

describe('a plan with something to mend', () => {
  beforeAll(async () => {
    await toWarps(page);
    await button(page, 'Plan another').first().click();
  });

  it('is not shared, and says why', async () => {
    await page.getByLabel('Name of the plan').fill('');
    await button(page, 'Share or print').click();
    await page.locator('dialog[open]', { hasText: 'still to mend' }).waitFor();
    expect(await page.locator('.menu-button').count()).toBe(0);
    await button(page, 'Close').click();
    await closed(page);
    await page.getByLabel('Name of the plan').fill('Again');
    await button(page, '‹ Warps').click();
  });
});

describe('a plan with much to say', () => {
  async function shareNoted(name: string, letters: number): Promise<void> {
    await toWarps(page);
    await weavePlan(page, { ...planWeaving(name, [solid('A', 4)]), notes: hardLetters(letters) });
    await openMore(page, 'Share this plan');
  }

  it('too long for a code still has a link, and says so with the numbers', async () => {
    await shareNoted('Chatty', 1100);
    const words = await page.getByText('Too long for a code').innerText();
    const [got, most] = (words.match(/[\d,]+/g) ?? []).map((n) => Number(n.replace(',', '')));
    expect([got, most]).toEqual([(await shownLink()).length, 1400]);
    expect(got).toBeGreaterThan(1400);
    expect(await button(page, 'Show the code').count()).toBe(0);
    await button(page, 'Close').click();
    await closed(page);
  });

  it('too long for a link has the file, and says so with the numbers', async () => {
    await shareNoted('Chattier', 4000);
    const words = await page.getByText('Too long for a link').innerText();
    expect(words).toMatch(
      /^Too long for a link or a code: \d,\d{3} of 1,800 characters. Use the file.$/,
    );
    expect(await button(page, 'Save the plan as a file').isEnabled()).toBe(true);
    expect(await page.getByLabel('The link').count()).toBe(0);
    await button(page, 'Close').click();
    await closed(page);
  });
});

/** Device pixels of the code on the screen: its two colours, its margin, the side of a module. */
function lookAtCode() {
  const canvas = document.querySelector<HTMLCanvasElement>('.qr');
  const ctx = canvas?.getContext('2d');
  if (canvas === null || ctx === null || ctx === undefined) throw new Error('got no code');
  const { width, height } = canvas;
  const { data } = ctx.getImageData(0, 0, width, height);
  const colours = new Set<string>();
  let [first, last, run] = [width, 0, 0];
  for (let i = 0; i < data.length; i += 4) {
    colours.add([data[i], data[i + 1], data[i + 2]].join(' '));
    if (data[i] !== 0) continue;
    const x = (i / 4) % width;
    first = Math.min(first, x);
    last = Math.max(last, x);
  }
  // The first dark row is the upper edge of a finder pattern: seven modules.
  const top = data.findIndex((value, i) => i % 4 === 0 && value === 0);
  while (data[top + 4 * run] === 0) run++;
  const box = canvas.getBoundingClientRect();
  return {
    colours: [...colours],
    left: first,
    right: width - 1 - last,
    module: run / 7,
    shown: box.width,
  };
}

describe('the code on the screen', () => {
  it.each(
    SIZES.flatMap(
      (size) =>
        [
          { ...size, theme: 'light' },
          { ...size, theme: 'dark' },
        ] as const,
    ),
  )(
    'is black on white with a margin of four modules, in whole pixels: $name, $theme',
    async ({ width, height, theme }) => {
      await page.setViewportSize({ width, height });
      await page.emulateMedia({ colorScheme: theme });
      await toWarps(page);
      await weaveDemo(page, 'ink-oat-ochre');
      await openMore(page, 'Share this plan');
      await button(page, 'Show the code').click();
      await page.locator('.qr').waitFor();
      const seen = await page.evaluate(lookAtCode);
      expect(seen.colours.sort()).toEqual(['0 0 0', '255 255 255']);
      expect(Number.isInteger(seen.module)).toBe(true);
      expect(Math.min(seen.left, seen.right)).toBeGreaterThanOrEqual(4 * seen.module);
      expect(seen.shown).toBeGreaterThan(width > 400 ? 500 : 300);
      await button(page, 'Close').click();
      await closed(page);
    },
  );
});
