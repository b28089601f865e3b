import { writeFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Photo } from '../../../src/core/journal/photo.ts';
import { decodePhoto } from '../../../src/core/journal/photo.ts';
import { openApp } from '../app.ts';
import {
  button,
  saved,
  setBounce,
  storedRecords,
  throwPicks,
  toWarps,
  undoTimes,
  weavePlan,
} from '../bench.ts';
import { findingsOn } from '../findings.ts';
import { readSize, shortTowels, toMeasure, weaveToTheEnd } from './cloth.ts';

let page: Page;

beforeAll(async () => {
  const app = await openApp({ reducedMotion: 'reduce', hasTouch: true });
  ({ page } = app);
  return app.close;
});

const entries = () => page.locator('.entry');
const entry = (words: string) => page.locator('.entry', { hasText: words });

async function openJournal(name: string): Promise<void> {
  await toWarps(page);
  await page
    .locator('.warp-tile', { hasText: name })
    .getByRole('button', { name: 'Journal' })
    .click();
  await page.locator('.journal').waitFor();
}

async function addNote(text: string, about: string): Promise<void> {
  await button(page, 'Note').click();
  await page.getByRole('textbox', { name: 'Note' }).fill(text);
  await page.getByLabel('About').selectOption({ label: about });
  await button(page, 'Keep this note').click();
  await page.locator('dialog').waitFor({ state: 'detached' });
}

/** A picture larger than is kept, made by the page itself. */
async function bigPicture(): Promise<Buffer> {
  const url = await page.evaluate(() => {
    const canvas = document.createElement('canvas');
    canvas.width = 2400;
    canvas.height = 1800;
    const ctx = canvas.getContext('2d');
    for (let x = 0; x < 24; x++) {
      if (ctx !== null) ctx.fillStyle = `hsl(${15 * x} 60% 50%)`;
      ctx?.fillRect(100 * x, 0, 100, 1800);
    }
    return canvas.toDataURL('image/png');
  });
  return Buffer.from(url.split(',')[1] ?? '', 'base64');
}

async function storedPhotos(): Promise<readonly Photo[]> {
  const records = (await storedRecords(page, 'records')) as readonly {
    readonly kind: string;
    readonly body: Photo;
  }[];
  return records.filter((it) => it.kind === 'photo').map((it) => it.body);
}

describe('the journal of a warp being woven', () => {
  it('tells of picks, notes and what was taken out, and passes notes over in undo', async () => {
    await weavePlan(page, shortTowels('Tea', 40));
    await setBounce(page, 'at once');
    await throwPicks(page, 12);
    await saved(page);
    await openJournal('Tea');
    expect(await page.locator('.sitting').first().textContent()).toContain('12 picks · Tea 1');
    await addNote('The left selvedge pulls in', 'Tea 1');
    await entry('The left selvedge pulls in').waitFor();
    await button(page, 'To the loom').click();
    await page.locator('.scene').waitFor();
    await undoTimes(page, 1);
    await saved(page);
    await openJournal('Tea');
    expect(await page.locator('.sitting').first().textContent()).toContain('11 picks');
    expect(await entry('The left selvedge pulls in').count()).toBe(1);
  });

  it('a note taken out can be put back', async () => {
    await button(page, 'Take out: The left selvedge pulls in').click();
    await entry('The left selvedge pulls in').waitFor({ state: 'detached' });
    await button(page, 'Put it back').click();
    await entry('The left selvedge pulls in').waitFor();
  });
});

describe('the journal of a warp that is done', () => {
  beforeAll(async () => {
    await toWarps(page);
    await weaveToTheEnd(page, shortTowels('Towel', 40));
    await toMeasure(page);
    await readSize(page, 'Towel 1', 'length off the loom', ['4']);
    await readSize(page, 'Towel 1', 'length washed', ['3½']);
    await button(page, 'Journal').click();
    await page.locator('.journal').waitFor();
  });

  it('tells what was due and done, and what was read', async () => {
    for (const words of ['Woven to its end', 'Hemstitch the ending', 'Cut off the loom']) {
      expect(await entry(words).count(), words).toBeGreaterThan(0);
    }
    expect(await entry('Measured washed: 3½ in long').count()).toBe(1);
  });

  it('keeps a photo as a JPEG of 1600 pixels at most, as text that JSON can carry', async () => {
    const file = { name: 'a.png', mimeType: 'image/png', buffer: await bigPicture() };
    await page.getByLabel('Photo', { exact: true }).setInputFiles(file);
    await page.getByLabel('What it shows').fill('The towels at the window');
    await page.getByLabel('About').selectOption({ label: 'Towel 1' });
    await button(page, 'Keep this photo').click();
    await entry('The towels at the window').locator('img').waitFor();
    const [photo] = await storedPhotos();
    expect([photo?.width, photo?.height]).toEqual([1600, 1200]);
    expect(decodePhoto(JSON.parse(JSON.stringify(photo))).ok).toBe(true);
    const bytes = Buffer.from(photo?.data ?? '', 'base64');
    expect(bytes.subarray(0, 3).toString('hex')).toBe('ffd8ff');
    expect(bytes.byteLength).toBeLessThan(600_000);
  });

  it('a file that is no picture is refused in words, and nothing is kept', async () => {
    const file = { name: 'a.txt', mimeType: 'text/plain', buffer: Buffer.from('no picture') };
    await page.getByLabel('Photo', { exact: true }).setInputFiles(file);
    await page.getByText('This browser cannot read that file as a picture.').waitFor();
    await page.keyboard.press('Escape');
    expect(await storedPhotos()).toHaveLength(1);
  });

  it('is searched by words, in any order and without accents', async () => {
    await addNote('Crème weft on the second towel', 'the whole warp');
    await page.getByLabel('Search the journal').fill('weft creme');
    await expect.poll(() => entries().count()).toBe(1);
    await page.getByLabel('Search the journal').fill('no such thing');
    await page.getByText('Nothing here holds').waitFor();
    await page.getByLabel('Search the journal').fill('');
    await expect.poll(() => entries().count()).toBeGreaterThan(5);
  });

  it('is there again after a restart, photo and all', async () => {
    await page.reload();
    await page.locator('.journal').waitFor();
    const size = () =>
      entry('The towels at the window')
        .locator('img')
        .evaluate((it) => (it as HTMLImageElement).naturalWidth);
    await expect.poll(size).toBe(1600);
  });

  it('axe finds nothing on it, on its sheets and on its pages', async () => {
    expect(await findingsOn(page)).toEqual([]);
    await button(page, 'Note').click();
    expect(await findingsOn(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await page.locator('dialog').waitFor({ state: 'detached' });
    await button(page, 'Print').click();
    await page.locator('.story-page').first().waitFor();
    expect(await findingsOn(page)).toEqual([]);
    await button(page, '‹ Journal').click();
    await page.setViewportSize({ width: 1180, height: 820 });
  });

  it.each(['Letter', 'A4'])(
    'prints one %s page a piece, however much was noted',
    async (format) => {
      for (let i = 0; i < 8; i++) {
        await addNote(
          `${i}: ${'the weft was eased and the edge looked better '.repeat(8)}`,
          'Towel 1',
        );
      }
      await button(page, 'Print').click();
      await page.locator('.story-page .photo-kept').first().waitFor();
      const pdf = await page.pdf({ format });
      if (process.env.FELLMARK_PDF !== undefined) writeFileSync(process.env.FELLMARK_PDF, pdf);
      expect(pagesOf(pdf)).toBe(2);
      await button(page, '‹ Journal').click();
    },
  );

  it('its photos go with the warp, and no others', async () => {
    await toWarps(page);
    const tile = page.locator('.warp-tile', { hasText: 'Towel' });
    await tile.getByRole('button', { name: 'Remove' }).click();
    await button(page, 'Remove it').click();
    await tile.waitFor({ state: 'detached' });
    expect(await storedPhotos()).toEqual([]);
    // What it taught outlives it.
    const records = (await storedRecords(page, 'records')) as readonly { readonly kind: string }[];
    expect(records.map((it) => it.kind)).toContain('learnt');
  });
});

/** Page objects of a PDF as the browser writes it. */
function pagesOf(pdf: Buffer): number {
  return pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0;
}
