// The shelf in a real browser, by touch alone; words and figures are typed.
import axe from 'axe-core';
import { average, formatHex, formatRgb } from 'culori';
import type { Page } from 'playwright-core';
import { afterEach, beforeAll, describe, expect, it } from 'vitest';
import { type App, openApp } from './app.ts';
import { button, closed, SIZES } from './bench.ts';

let app: App;
let page: Page;

beforeAll(async () => {
  app = await openApp({ hasTouch: true, viewport: { width: 820, height: 1180 } });
  ({ page } = app);
  await openShelf();
  await button(page, 'g, cm').tap();
  return app.close;
});

// A sheet that a failed test has left open would fail all that follow.
afterEach(async () => {
  if ((await page.locator('dialog[open]').count()) > 0) await keep('Close');
});

async function openShelf(): Promise<void> {
  await button(page, 'Yarns').tap();
  await page.getByRole('heading', { name: 'Yarns', exact: true }).waitFor();
}

/** Reloads the page once everything asked for is on the disk. */
async function reloadShelf(): Promise<void> {
  // The shelf shows what was done before it is on the disk; no hand reloads sooner than this.
  await page.waitForTimeout(500);
  await page.evaluate(async () => {
    const database = await new Promise<IDBDatabase>((resolve, reject) => {
      const request = indexedDB.open('fellmark');
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(request.error);
    });
    // Waits behind every write to the same room that was asked for before it.
    await new Promise((resolve) => {
      database.transaction(['records', 'settings'], 'readwrite').oncomplete = resolve;
    });
    database.close();
  });
  await page.reload();
  await openShelf();
}

const tile = (name: string) =>
  page.locator('.shelf-tile').filter({ has: page.getByRole('heading', { name, exact: true }) });

/** Opens an empty sheet for a yarn and types its name. */
async function newYarn(name: string): Promise<void> {
  await button(page, 'Add a yarn').tap();
  await page.getByLabel('Name').fill(name);
}

async function keep(words: string): Promise<void> {
  await button(page, words).tap();
  await closed(page);
}

async function addYarn(name: string): Promise<void> {
  await newYarn(name);
  await keep('Put it on the shelf');
}

const colourOf = (name: string) =>
  tile(name)
    .locator('.skein')
    .evaluate((it) => getComputedStyle(it).backgroundColor);

describe('a yarn', () => {
  it('is added by touch: name, count, fibre, colour and weight', async () => {
    await newYarn('Moss');
    await page.getByLabel('Counted in').selectOption('cottonCount');
    await page.getByLabel('Count', { exact: true }).fill('8/2');
    await button(page, 'Cotton').tap();
    await button(page, 'Nettle').tap();
    await page.getByLabel('Cone and yarn together').fill('540 g');
    await page.getByLabel('Of that the empty cone').fill('40');
    await expect.poll(() => page.locator('.scale-net').textContent()).toMatch('500 g');
    await keep('Put it on the shelf');
    const words = (await tile('Moss').textContent()) ?? '';
    expect(words).toContain('Cotton, 8/2 cotton count');
    expect(words.replaceAll('\u00a0', ' ')).toContain('3360 yd/lb · 677 m/100 g');
    expect(words).toContain('500 g, about 3390 m');
    expect(await colourOf('Moss')).toBe('rgb(141, 156, 90)');
  });

  it('is still there after a reload', async () => {
    const before = await tile('Moss').textContent();
    await reloadShelf();
    await expect.poll(() => tile('Moss').textContent()).toBe(before);
  });

  it('weighed again is corrected; the cone weighs what it weighed before', async () => {
    await button(page, 'Weigh Moss').tap();
    expect(await page.getByLabel('Of that the empty cone').inputValue()).toBe('40 g');
    await page.getByLabel('Cone and yarn together').fill('0,39 kg');
    await expect
      .poll(() => page.locator('dialog').textContent())
      .toMatch('150 g less than reckoned');
    await keep('Keep this weight');
    await reloadShelf();
    await expect.poll(() => tile('Moss').textContent()).toMatch('350 g, about 2370 m');
  });

  it('cannot be saved with a weight that does not read or a cone heavier than all', async () => {
    await button(page, 'Weigh Moss').tap();
    const total = page.getByLabel('Cone and yarn together');
    for (const [typed, wrong] of [
      ['', 'What does the scale say?'],
      ['a lot', 'Not a weight'],
      ['30 g', 'Heavier than cone and yarn together.'],
    ] as const) {
      await total.fill(typed);
      await button(page, 'Keep this weight').tap();
      await expect.poll(() => page.locator('dialog .problem').allTextContents()).toHaveLength(1);
      expect(await page.locator('dialog .problem').textContent()).toContain(wrong);
    }
    await keep('Close');
    expect(await tile('Moss').textContent()).toContain('350 g');
  });

  it('keeps its weight when it is changed, and is counted in another system at a touch', async () => {
    await button(page, 'Change Moss').tap();
    await page.getByLabel('Counted in').selectOption('ydPerLb');
    expect(await page.getByLabel('Count', { exact: true }).inputValue()).toBe('3360');
    await page.getByLabel('Name').fill('Moss cotton');
    await keep('Save');
    await reloadShelf();
    await expect.poll(() => tile('Moss cotton').textContent()).toMatch('350 g, about 2370 m');
    expect(await page.locator('.shelf-tile').count()).toBe(1);
  });

  it('without a name is not put on the shelf, and the sheet says so', async () => {
    await newYarn('   ');
    await button(page, 'Put it on the shelf').tap();
    await page.getByText('Give it a name.').waitFor();
    await keep('Close');
    expect(await page.locator('.shelf-tile').count()).toBe(1);
  });

  it('taken off the shelf can be put back, weighings and all', async () => {
    await button(page, 'Change Moss cotton').tap();
    await keep('Take it off the shelf');
    await expect.poll(() => page.locator('.shelf-tile').count()).toBe(0);
    await button(page, 'Put it back').tap();
    await reloadShelf();
    await expect.poll(() => tile('Moss cotton').textContent()).toMatch('350 g');
  });

  it('taken off and not put back stays away', async () => {
    await addYarn('Not wanted');
    await button(page, 'Change Not wanted').tap();
    await keep('Take it off the shelf');
    await expect.poll(() => tile('Not wanted').count()).toBe(0);
    await reloadShelf();
    await tile('Moss cotton').waitFor();
    expect(await tile('Not wanted').count()).toBe(0);
  });

  it('is shown in the units chosen, which are kept', async () => {
    await button(page, 'oz, in').tap();
    await expect.poll(() => tile('Moss cotton').textContent()).toMatch('12¼ oz, about 2590 yd');
    await reloadShelf();
    await expect.poll(() => tile('Moss cotton').textContent()).toMatch('12¼ oz');
    await button(page, 'g, cm').tap();
  });
});

const MADDER = ['#b4402f', '#8e2a22'] as const;
const WOAD = ['#6c96b3', '#466f8c'] as const;
/** Two shades in equal parts, mixed as light. */
const mixed = ([one, other]: readonly [string, string]) => formatHex(average([one, other], 'lrgb'));

/** A photo with madder on its left half and woad on its right, each as threads of two shades. */
function photo(): Promise<number[]> {
  return page.evaluate(
    async (halves) => {
      const canvas = document.createElement('canvas');
      [canvas.width, canvas.height] = [800, 400];
      const ctx = canvas.getContext('2d');
      for (let x = 0; x < 800; x += 2) {
        const [light, dark] = x < 400 ? halves[0] : halves[1];
        if (ctx !== null) ctx.fillStyle = (x / 2) % 2 === 0 ? light : dark;
        ctx?.fillRect(x, 0, 2, 400);
      }
      const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve));
      return [...new Uint8Array((await blob?.arrayBuffer()) ?? new ArrayBuffer(0))];
    },
    [MADDER, WOAD] as const,
  );
}

describe('a colour taken from a photo', () => {
  const takePhoto = async (name: string, buffer: Buffer) => {
    const input = page.getByLabel('Photo of the yarn');
    await input.setInputFiles({ name, mimeType: 'image/png', buffer });
  };

  it('is the mean of the light around the spot that was tapped, and nothing is sent', async () => {
    const asked: string[] = [];
    page.on('request', (request) => asked.push(request.url()));
    await newYarn('From a photo');
    await takePhoto('yarn.png', Buffer.from(await photo()));
    const picture = page.locator('.photo-tap');
    await picture.scrollIntoViewIfNeeded();
    const box = await picture.boundingBox();
    const [width, y] = [box?.width ?? 0, (box?.height ?? 0) / 2];
    await picture.tap({ position: { x: width * 0.25, y } });
    await expect.poll(() => page.locator('.colour-name').textContent()).toBe(mixed(MADDER));
    await picture.tap({ position: { x: width * 0.75, y } });
    await expect.poll(() => page.locator('.colour-name').textContent()).toBe(mixed(WOAD));
    await button(page, 'Done with the photo').tap();
    await keep('Put it on the shelf');
    await reloadShelf();
    expect(await colourOf('From a photo')).toBe(formatRgb(mixed(WOAD)));
    expect(asked.filter((url) => !url.startsWith(app.url))).toEqual([]);
  });

  it('can be aimed by the arrow keys', async () => {
    await newYarn('By keys');
    await takePhoto('yarn.png', Buffer.from(await photo()));
    // A button that is still hidden takes no focus, and says nothing.
    await page.locator('.photo-tap').waitFor();
    await page.locator('.photo-tap').focus();
    for (let n = 0; n < 5; n++) await page.keyboard.press('ArrowRight');
    await expect.poll(() => page.locator('.colour-name').textContent()).toBe(mixed(WOAD));
    for (let n = 0; n < 10; n++) await page.keyboard.press('ArrowLeft');
    await expect.poll(() => page.locator('.colour-name').textContent()).toBe(mixed(MADDER));
    await keep('Close');
  });

  it('is refused in words when the file is no picture, and the colour stays', async () => {
    await newYarn('No picture');
    const before = await page.locator('.colour-name').textContent();
    await takePhoto('notes.png', Buffer.from('no picture at all'));
    await page.getByText('cannot read that file as a picture').waitFor();
    expect(await page.locator('.colour-name').textContent()).toBe(before);
    await keep('Close');
  });
});

describe('a heddle', () => {
  it('is kept as sold and as counted', async () => {
    await button(page, 'Add a heddle').tap();
    await page.getByLabel('Name').fill('Fine');
    await button(page, 'per inch').tap();
    await page.getByLabel('As sold', { exact: true }).fill('12.5');
    await page.getByLabel('As you count them', { exact: true }).fill('12.7');
    await page.getByLabel('Weaving width').fill('61 cm');
    await keep('Put it on the shelf');
    await reloadShelf();
    const words = await tile('Fine').textContent();
    expect(words).toContain('12.5 per inch, 12.7 as counted');
    expect(words).toContain('49.2 per 10 cm · 61 cm wide');
  });

  it('can be changed, taken off and put back', async () => {
    await button(page, 'Change Fine').tap();
    await button(page, 'As sold: less').tap();
    await keep('Save');
    await expect.poll(() => tile('Fine').textContent()).toMatch('12 per inch, 12.7 as counted');
    await button(page, 'Change Fine').tap();
    await keep('Take it off the shelf');
    await expect.poll(() => tile('Fine').count()).toBe(0);
    await button(page, 'Put it back').tap();
    await reloadShelf();
    await tile('Fine').waitFor();
  });
});

describe.each(SIZES)('on a $name screen', ({ width, height }) => {
  beforeAll(async () => {
    await page.setViewportSize({ width, height });
    await reloadShelf();
  });

  const sheets = [
    ['the shelf', null],
    ['the sheet of a yarn', 'Add a yarn'],
    ['the sheet of a weighing', 'Weigh Moss cotton'],
    ['the sheet of a heddle', 'Change Fine'],
  ] as const;

  it.each(sheets)(
    '%s has nothing to scroll sideways, nothing too small, nothing for axe',
    async (_what, opener) => {
      if (opener !== null) await button(page, opener).tap();
      const flaws = await page.evaluate(() => {
        const root = document.querySelector('dialog[open]') ?? document.documentElement;
        const targets = root.querySelectorAll<HTMLElement>('button, select, input:not(.unseen)');
        const small = [...targets].filter((it) => {
          const box = it.getBoundingClientRect();
          return box.width > 0 && (box.width < 43.5 || box.height < 43.5);
        });
        return {
          over: root.scrollWidth - root.clientWidth,
          small: small.map((it) => it.outerHTML),
        };
      });
      expect(flaws).toEqual({ over: 0, small: [] });
      expect(await axeViolations()).toEqual([]);
      if (opener !== null) await keep('Close');
    },
  );
});

async function axeViolations(): Promise<readonly string[]> {
  await page.evaluate(axe.source);
  return page.evaluate(async () => {
    const { violations } = await (globalThis as unknown as { axe: typeof axe }).axe.run();
    return violations.map(({ id, nodes }) => `${id}: ${nodes.map((it) => it.html).join(' ')}`);
  });
}
