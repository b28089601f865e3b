import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { openApp } from '../app.ts';
import {
  button,
  chooseFile,
  closed,
  readCall,
  saved,
  scene,
  storedRecords,
  throwPicks,
  toWarps,
  weaveDemo,
  weavePlan,
} from '../bench.ts';
import { demoPlan, demoText } from '../expected.ts';
import { makeTempDir, removeDir } from '../harness.ts';
import { planWeaving, solid } from '../plans.ts';

let page: Page;

beforeAll(async () => {
  const app = await openApp();
  ({ page } = app);
  return app.close;
});

const tiles = () => page.locator('.warp-tile h3').allTextContents();

async function reload(): Promise<void> {
  await page.reload();
  await page.getByRole('heading', { name: 'Fellmark' }).waitFor();
}

/** Lets a file fall on an element, as a file manager does. */
async function drop(name: string, text: string): Promise<void> {
  const dataTransfer = await page.evaluateHandle(
    ([file, content]) => {
      const carried = new DataTransfer();
      carried.items.add(new File([content ?? ''], file ?? ''));
      return carried;
    },
    [name, text] as const,
  );
  await page.dispatchEvent('.warps', 'dragover', { dataTransfer });
  await page.dispatchEvent('.warps', 'drop', { dataTransfer });
}

describe('a plan file', () => {
  it('chosen in the file input becomes a warp, says so, and is there after a reload', async () => {
    await chooseFile(page, 'towels.json', demoText('moss-and-chalk'));
    const notice = '“Two hand towels in moss and chalk” is saved on this device.';
    await page.locator('.notice', { hasText: notice }).waitFor();
    expect(await tiles()).toEqual(['Two hand towels in moss and chalk']);
    await reload();
    await expect.poll(tiles).toEqual(['Two hand towels in moss and chalk']);
  });

  it('dropped on the screen becomes a warp too, and can be woven', async () => {
    await drop('runners.json', demoText('ink-oat-ochre'));
    await expect.poll(tiles).toHaveLength(2);
    await reload();
    await expect.poll(tiles).toContain('Two table runners in ink, oat and ochre');
    const tile = page.locator('.warp-tile', { hasText: 'runners' });
    await tile.getByRole('button', { name: 'Weave', exact: true }).click();
    await scene(page).waitFor();
    expect((await readCall(page)).name).toBe('fine oat');
    await toWarps(page);
  });

  it('opened twice is two warps with a log each', async () => {
    await chooseFile(page, 'towels.json', demoText('moss-and-chalk'));
    await expect.poll(tiles).toHaveLength(3);
    await page.locator('.warp-tile', { hasText: 'towels' }).first().getByText('Weave').click();
    await scene(page).waitFor();
    await throwPicks(page, 1);
    await toWarps(page);
    const words = await page.locator('.warp-tile p').allTextContents();
    expect(words.filter((it) => it.includes('pick 2 of 252'))).toHaveLength(1);
  });

  it('with markup in its names shows it as the letters it is made of', async () => {
    const name = '<img src=x onerror="document.title=1"><b>bold</b>';
    const plan = planWeaving(name, [solid('A', 6)]);
    const yarns = plan.yarns.map((yarn) => ({ ...yarn, name: `<i>${yarn.name}</i>` }));
    const title = await page.title();
    await weavePlan(page, { ...plan, yarns });
    expect((await readCall(page)).name).toBe('<i>moss</i>');
    expect(await page.locator('.weave-head h1').textContent()).toBe(`${name} 1`);
    await toWarps(page);
    expect(await tiles()).toContain(name);
    expect(await page.locator('#app img, #app b, #app i').count()).toBe(0);
    expect(await page.title()).toBe(title);
  });
});

interface BadFile {
  readonly what: string;
  readonly bytes: () => string | Buffer;
  /** Of the first problem told; empty for the file as a whole. */
  readonly path: string;
  readonly wrong: string;
  readonly right: string;
}

/** The demo's text with one thing in it replaced; throws when it is not there. */
function changed(from: string, to: string): () => string {
  return () => {
    const text = JSON.stringify(demoPlan('moss-and-chalk'));
    if (!text.includes(from)) throw new Error(`got no ${from} in the demo`);
    return text.replace(from, to);
  };
}

function withWeft(weft: unknown): () => string {
  return () => {
    const plan = demoPlan('moss-and-chalk');
    return JSON.stringify({ ...plan, pieces: [{ ...plan.pieces[0], weft: [weft] }] });
  };
}

const solidOf = (picks: unknown) =>
  withWeft({ kind: 'solid', yarn: 'A', extent: { kind: 'picks', picks } });

function nestedMirrors(depth: number): unknown {
  const start: unknown = { kind: 'solid', yarn: 'A', extent: { kind: 'picks', picks: 2 } };
  return Array.from({ length: depth }).reduce(
    (inner: unknown) => ({ kind: 'mirror', centre: 'shared', of: [inner] }),
    start,
  );
}

const picksPath = 'pieces[0].weft[0].extent.picks';
const markup = '<img src=x onerror="document.title=2">';

const badFiles: readonly BadFile[] = [
  {
    what: 'no JSON',
    bytes: () => 'weave me',
    path: '',
    wrong: 'not readable as JSON',
    right: 'A Fellmark plan is a .json file',
  },
  { what: 'nothing at all', bytes: () => '', path: '', wrong: 'not readable', right: 'whole' },
  {
    what: 'half a plan',
    bytes: () => demoText('moss-and-chalk').slice(0, 2000),
    path: '',
    wrong: 'not readable as JSON',
    right: 'whole and unchanged',
  },
  {
    what: 'a picture',
    bytes: () => Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0]),
    path: '',
    wrong: 'not readable as JSON',
    right: '.json',
  },
  {
    what: 'another format',
    bytes: () => '{"format":"recipe","version":1}',
    path: 'format',
    wrong: 'format is recipe',
    right: 'fellmark-plan',
  },
  {
    what: 'a newer version',
    bytes: changed('"version":1', '"version":2'),
    path: 'version',
    wrong: 'newer Fellmark (version 2)',
    right: 'up to version 1',
  },
  {
    what: 'an unknown yarn',
    bytes: changed('"yarn":"A","extent"', '"yarn":"Q","extent"'),
    path: 'pieces[0].weft[0].of[0].yarn',
    wrong: 'No yarn has the letter Q',
    right: 'A, B, C',
  },
  {
    what: 'a missing yarn',
    bytes: changed('"kind":"solid","yarn":"A","extent"', '"kind":"solid","extent"'),
    path: 'pieces[0].weft[0].of[0].yarn',
    wrong: 'missing',
    right: 'Fill it in',
  },
  {
    what: 'a billion picks',
    bytes: solidOf(1e9),
    path: picksPath,
    wrong: '1000000000',
    right: '100000',
  },
  { what: 'negative picks', bytes: solidOf(-4), path: picksPath, wrong: '-4', right: 'At least 1' },
  {
    what: 'half a pick',
    bytes: solidOf(2.5),
    path: picksPath,
    wrong: '2.5 is not a whole',
    right: 'whole',
  },
  {
    what: 'picks that are no number',
    bytes: solidOf(null),
    path: picksPath,
    wrong: 'null',
    right: 'number',
  },
  {
    what: 'a length beyond every number',
    bytes: () => solidOf('huge')().replace('"huge"', '1e999'),
    path: picksPath,
    wrong: 'Infinity',
    right: '',
  },
  {
    what: 'a million turns in repeats of repeats',
    bytes: withWeft({
      kind: 'repeat',
      times: 1000,
      of: [{ kind: 'repeat', times: 1000, of: [nestedMirrors(0)] }],
    }),
    path: 'pieces[0].weft',
    wrong: 'too much',
    right: 'At most 20000',
  },
  {
    what: 'blocks nested too deep for a plan',
    bytes: withWeft(nestedMirrors(60)),
    path: '',
    wrong: 'nested too deeply',
    right: 'At most 40 levels',
  },
  {
    what: 'lists nested a hundred thousand deep',
    bytes: () => '['.repeat(100_000) + ']'.repeat(100_000),
    path: '',
    wrong: 'nested too deeply',
    right: 'At most 40 levels',
  },
  {
    what: 'two yarns of one letter',
    bytes: changed('"letter":"B"', '"letter":"A"'),
    path: 'yarns[1].letter',
    wrong: 'Two yarns have the letter A',
    right: 'such as B',
  },
  {
    what: 'a warp wider than the loom',
    bytes: changed('"weavingWidth":609.6', '"weavingWidth":254'),
    path: 'warp.order',
    wrong: '200 ends are wider than the loom',
    right: 'At most 125 ends fit',
  },
  {
    what: 'a loom of no width',
    bytes: changed('"weavingWidth":609.6', '"weavingWidth":0'),
    path: 'loom.weavingWidth',
    wrong: '0 is too small',
    right: 'At least',
  },
  {
    what: 'a field with markup for a name',
    bytes: changed('"version":1', `"version":1,${JSON.stringify(markup)}:1`),
    path: markup,
    wrong: 'no such field',
    right: 'Take it out',
  },
];

describe('a file that is refused', () => {
  const folder = makeTempDir('plans');
  afterAll(() => removeDir(folder));

  beforeAll(async () => {
    await weaveDemo(page, 'ink-oat-ochre');
    await throwPicks(page, 1);
    await saved(page);
    await toWarps(page);
  });

  /** All that is stored, and all that the screen says. */
  const everything = async () => ({
    warps: await storedRecords(page, 'warps'),
    revisions: await storedRecords(page, 'revisions'),
    events: await storedRecords(page, 'events'),
    screen: await page.locator('.warps').innerText(),
  });

  afterEach(async () => {
    expect(await page.locator('#app img').count()).toBe(0);
    expect(await page.title()).toBe('Fellmark');
  });

  async function expectRefusal(problem: Omit<BadFile, 'bytes' | 'what'>): Promise<void> {
    const sheet = page.locator('dialog[open]');
    await sheet.getByText('This file was not opened').waitFor();
    expect(await sheet.innerText()).toContain('was stored');
    const first = sheet.locator('.problems li').first();
    const path = first.locator('code');
    expect((await path.count()) === 0 ? '' : await path.innerText()).toBe(problem.path);
    const [wrong, right] = await first.locator('p').allInnerTexts();
    expect(wrong).toContain(problem.wrong);
    expect(right).toContain(problem.right);
    expect(right).not.toBe('');
  }

  it.each(badFiles)(
    'for $what: what is wrong, where, and what would be right; nothing is stored',
    async ({ bytes, ...problem }) => {
      const before = await everything();
      await chooseFile(page, 'plan.json', bytes());
      await expectRefusal(problem);
      await button(page, 'Close').click();
      await closed(page);
      expect(await everything()).toEqual(before);
    },
  );

  it('for its 50 MB, unread: half a second is enough', async () => {
    const before = await everything();
    const path = join(folder, 'large.json');
    writeFileSync(path, demoText('moss-and-chalk').padEnd(50_000_000, ' '));
    await page.locator('input[type="file"]').setInputFiles(path);
    await expectRefusal({ path: '', wrong: 'too large', right: 'At most 2 MB' });
    await button(page, 'Close').click();
    await closed(page);
    expect(await everything()).toEqual(before);
  });

  it('tells all its problems at once', async () => {
    const plan = changed('"weavingWidth":609.6', '"weavingWidth":0')()
      .replace('"dents":{"count":12.5', '"dents":{"count":-1')
      .replace('"colour":"#5d7043"', '"colour":"moss"');
    await chooseFile(page, 'plan.json', plan);
    const paths = page.locator('dialog[open] .problems code');
    await expect
      .poll(() => paths.allTextContents())
      .toEqual(['loom.dents.count', 'loom.weavingWidth', 'yarns[0].colour']);
    await button(page, 'Close').click();
    await closed(page);
  });

  it('names a file with markup in its name by its letters', async () => {
    await drop(`${markup}.json`, 'no plan');
    await page.locator('dialog[open] strong', { hasText: markup }).waitFor();
    await page.keyboard.press('Escape');
    await closed(page);
  });

  it('leaves the list of warps as it was after a reload, and the next good file opens', async () => {
    const before = await everything();
    await chooseFile(page, 'plan.json', 'no plan');
    await page.locator('dialog[open]').waitFor();
    await reload();
    await page.locator('.warp-tile').first().waitFor();
    expect(await everything()).toEqual(before);
    const count = (await tiles()).length;
    await chooseFile(page, 'plan.json', demoText('moss-and-chalk'));
    await expect.poll(tiles).toHaveLength(count + 1);
  });
});
