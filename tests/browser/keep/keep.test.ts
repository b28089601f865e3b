// Backups between two devices, each a browser with a profile of its own.
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { LogEvent } from '../../../src/core/bench/events.ts';
import { visit } from '../app.ts';
import {
  button,
  chooseFile,
  closed,
  saved,
  scene,
  setBounce,
  storedEvents,
  storedRecords,
  throwPicks,
  toWarps,
  weavePlan,
} from '../bench.ts';
import { openVisitor, serveDist, type Visitor } from '../harness.ts';
import { planWeaving, solid } from '../plans.ts';
import {
  backupIn,
  backupOf,
  fromKeep,
  look,
  panel,
  savedBy,
  shownRows,
  toKeep,
} from './keeping.ts';

const PLAN = { ...planWeaving('AB', [solid('A', 200), solid('B', 40)]), name: 'Scarf' };

let server: Awaited<ReturnType<typeof serveDist>>;
let devices: readonly Visitor[];
let here: Page;
let there: Page;

beforeAll(async () => {
  server = await serveDist();
  devices = [
    await openVisitor({ serviceWorkers: 'block' }),
    await openVisitor({ serviceWorkers: 'block' }),
  ];
  [here, there] = devices.map(({ page }) => page) as [Page, Page];
  for (const page of [here, there]) await visit(page, server.url);
  await weavePlan(here, PLAN);
  await setBounce(here, 'at once');
  await weave(here, 10);
});

afterAll(async () => {
  for (const device of devices) await device.close();
  await server.stop();
});

/** Throws picks on the warp that is on the bench, and goes to Warps. */
async function weave(page: Page, picks: number): Promise<void> {
  await scene(page).waitFor();
  await throwPicks(page, picks);
  await saved(page);
  await toWarps(page);
}

async function goOn(page: Page, picks: number): Promise<void> {
  await button(page, 'Go on').first().click();
  await weave(page, picks);
}

const tile = (page: Page, name: string) => page.locator('.warp-tile', { hasText: name });
const tileWords = async (page: Page) =>
  (await page.locator('.warp-words').allTextContents()).map((it) => it.replaceAll('\u00a0', ' '));
const doneNote = (page: Page) => page.locator('.keep > [role="status"]').first();

async function bringIn(page: Page): Promise<void> {
  await button(page, 'Bring it in').click();
  await expect.poll(() => doneNote(page).textContent()).toMatch(/What was new in .* is here now/);
}

describe('a backup out of this device', () => {
  it('is a file of plain JSON with everything in it', async () => {
    await toKeep(here);
    const { name, text } = await savedBy(here, () => button(here, 'Save the backup').click());
    expect(name).toMatch(/^fellmark-backup-\d{4}-\d\d-\d\d\.json$/);
    const backup = backupIn(text);
    expect(backup.warps.map(({ warp }) => warp.name)).toEqual(['Scarf']);
    const stored = (await storedEvents(here)) as readonly (LogEvent & { seq: number })[];
    expect(backup.warps[0]?.log).toEqual(stored.map(({ seq, ...event }) => event));
    expect(backup.settings.map((it) => it.name)).toContain('settings');
  });

  it('counts only when the weaver has seen the file', async () => {
    const state = () => here.locator('.keep-state').first().textContent();
    expect(await state()).toMatch('No backup has left this device yet');
    await button(here, 'It is not').click();
    expect(await state()).toMatch('No backup has left this device yet');
    await savedBy(here, () => button(here, 'Save the backup').click());
    await button(here, 'It is there').click();
    await expect.poll(state).toMatch(/The last backup left this device today, /);
    await here.reload();
    await here.getByRole('heading', { name: 'Fellmark' }).waitFor();
    await toKeep(here);
    await expect.poll(state).toMatch(/today, /);
    await fromKeep(here);
  });
});

describe('what is kept on this device', () => {
  it('is told: in two copies, and what the browser promised', async () => {
    await toKeep(here);
    const facts = here.locator('.keep-facts li');
    await expect
      .poll(async () => (await facts.allTextContents())[0])
      .toMatch(/^Everything is kept twice/);
    await expect
      .poll(async () => (await facts.allTextContents())[1])
      .toMatch(/^The browser has (not )?promised/);
    await expect
      .poll(async () => (await facts.allTextContents())[2])
      .toMatch(/^There is (little )?room/);
    await fromKeep(here);
  });

  it('is told to be one copy where the browser has no place for a second', async () => {
    const other = await openVisitor({ serviceWorkers: 'block' });
    try {
      const { page } = other;
      await page.addInitScript(() => {
        Object.defineProperty(StorageManager.prototype, 'getDirectory', { value: undefined });
      });
      await visit(page, server.url);
      await weavePlan(page, PLAN);
      await toWarps(page);
      await toKeep(page);
      await page.getByText('Everything is kept once').waitFor();
    } finally {
      await other.close();
    }
  });
});

describe('on another device', () => {
  it('what it holds is shown before anything happens', async () => {
    const text = await backupOf(here);
    await toKeep(there);
    await look(there, text);
    expect(await shownRows(there)).toEqual(['Scarf | new | Not here yet: 10 picks.']);
    expect(await storedEvents(there)).toEqual([]);
  });

  it('one tap brings it in, and the warp goes on at the same pick', async () => {
    await bringIn(there);
    expect(await storedEvents(there)).toEqual(await storedEvents(here));
    await fromKeep(there);
    await expect.poll(() => tileWords(there)).toEqual(await tileWords(here));
    await goOn(there, 0);
  });

  it('brought in again it is the same, and there is nothing to bring in', async () => {
    const text = await backupOf(here);
    await toKeep(there);
    await look(there, text);
    expect(await shownRows(there)).toEqual(['Scarf | same | Just as it is here: 10 picks.']);
    expect(await button(there, 'Bring it in').count()).toBe(0);
    await button(there, 'Leave it').click();
    await fromKeep(there);
  });

  it('woven on only there, it goes on here', async () => {
    await there.evaluate(() => undefined);
    await button(there, 'Go on').first().click();
    await setBounce(there, 'at once');
    await weave(there, 5);
    await toKeep(here);
    await look(here, await backupOf(there));
    expect(await shownRows(here)).toEqual([
      'Scarf | goes on | Woven on there: 10 picks here become 15 picks.',
    ]);
    await bringIn(here);
    await fromKeep(here);
    expect(await storedEvents(here)).toEqual(await storedEvents(there));
  });

  it('an older backup is seen to be one and changes nothing', async () => {
    const old = await backupOf(there);
    await goOn(here, 2);
    await toKeep(here);
    await look(here, old);
    expect(await shownRows(here)).toEqual([
      'Scarf | older | All of it is here already: 17 picks here, 15 picks there.',
    ]);
    await button(here, 'Leave it').click();
    await fromKeep(here);
  });
});

describe('woven on in both places', () => {
  it('it is told before, and both stay: 17 and 18, never 20', async () => {
    await goOn(there, 3);
    await toKeep(here);
    await look(here, await backupOf(there));
    expect(await shownRows(here)).toEqual([
      'Scarf | two ways | Woven on here and there: 17 picks here, 18 picks there. Both stay, and you choose.',
    ]);
    await bringIn(here);
    await fromKeep(here);
    const choice = here.locator('.branches');
    await expect
      .poll(() => choice.locator('h2').textContent())
      .toBe('“Scarf” was woven on in two places');
    const ways = (await choice.locator('li p').allTextContents()).map((it) => it.split(',')[0]);
    expect(ways.sort()).toEqual(['17 picks', '18 picks']);
    expect(await tile(here, 'Scarf').count()).toBe(2);
  });

  it('one can be undone: keeping only one puts the other where it can be brought back from', async () => {
    const way = here.locator('.branches li', { hasText: '18 picks' });
    await way.getByRole('button', { name: 'Keep only this' }).click();
    await button(here, 'Remove it').click();
    await closed(here);
    await expect.poll(() => tile(here, 'Scarf').count()).toBe(1);
    expect(await here.locator('.branches').count()).toBe(0);
    await button(here, 'Put it back').click();
    await expect.poll(() => tile(here, 'Scarf').count()).toBe(2);
    expect(await here.locator('.branches li').count()).toBe(2);
  });

  it('both can be kept, and nobody asks again', async () => {
    await button(here, 'Keep both').click();
    await here.locator('.branches').waitFor({ state: 'detached' });
    await here.reload();
    await tile(here, 'Scarf').first().waitFor();
    expect(await tile(here, 'Scarf').count()).toBe(2);
    expect(await here.locator('.branches').count()).toBe(0);
  });
});

describe('bringing in', () => {
  it('is undone by one tap', async () => {
    const before = [await storedRecords(there, 'warps'), await storedEvents(there)];
    const text = await backupOf(here);
    await toKeep(there);
    await look(there, text);
    await bringIn(there);
    expect(await storedRecords(there, 'warps')).toHaveLength(2);
    await button(there, 'Undo').click();
    await expect.poll(() => doneNote(there).textContent()).toMatch('Undone');
    expect([await storedRecords(there, 'warps'), await storedEvents(there)]).toEqual(before);
    await button(there, 'Undo').click();
    await expect.poll(async () => (await storedRecords(there, 'warps')).length).toBe(2);
    await button(there, 'Undo').click();
    await expect.poll(async () => (await storedRecords(there, 'warps')).length).toBe(1);
    await fromKeep(there);
  });

  it('a damaged file is refused with its fault, and nothing is stored', async () => {
    const text = await backupOf(here);
    await toKeep(there);
    const before = await storedEvents(there);
    await look(there, text.replace('"thrown"', '"flown"'), 'bent.json');
    const words = await panel(there).textContent();
    expect(words).toMatch('Nothing was brought in');
    expect(words).toMatch('Of bent.json nothing was stored');
    expect(words).toMatch('warps[0].log[0].kind');
    expect(words).toMatch('This version does not know what “flown” is.');
    await look(there, text.slice(0, text.length / 2));
    await expect.poll(() => panel(there).textContent()).toMatch('The file ends too early');
    expect(await storedEvents(there)).toEqual(before);
    expect(await storedRecords(there, 'warps')).toHaveLength(1);
    await fromKeep(there);
  });

  it('a plan file chosen there becomes a warp, and a backup chosen on Warps is looked at', async () => {
    await toKeep(there);
    await chooseFile(there, 'plan.json', JSON.stringify({ ...PLAN, name: 'Blanket' }));
    await tile(there, 'Blanket').waitFor();
    await chooseFile(there, 'backup.json', await backupOf(here));
    await panel(there).waitFor();
    expect(await there.getByRole('heading', { name: 'Keep safe', exact: true }).count()).toBe(1);
    await button(there, 'Leave it').click();
    await fromKeep(there);
  });
});

describe('everything replaced', () => {
  it('wants a word typed, leaves only what is in the file, and is undone by one tap', async () => {
    const text = await backupOf(here);
    await toKeep(there);
    await look(there, text);
    await there.locator('summary', { hasText: 'Replace everything instead' }).click();
    const replace = button(there, 'Replace everything');
    expect(await replace.isDisabled()).toBe(true);
    await there.getByLabel('Type “replace” to go on').fill('yes');
    expect(await replace.isDisabled()).toBe(true);
    await there.getByLabel('Type “replace” to go on').fill('replace');
    await replace.click();
    await expect.poll(() => doneNote(there).textContent()).toMatch('Everything is as in');
    expect(await storedEvents(there)).toEqual(await storedEvents(here));
    expect(
      (await storedRecords(there, 'warps')).map((it) => (it as { name: string }).name),
    ).toEqual(['Scarf', 'Scarf']);
    await button(there, 'Undo').click();
    await expect.poll(() => doneNote(there).textContent()).toMatch('Undone');
    await fromKeep(there);
    await tile(there, 'Blanket').waitFor();
  });

  it('the state before is kept as a snapshot', async () => {
    await toKeep(there);
    await expect
      .poll(() => there.locator('.keep-tile').allTextContents())
      .toEqual(
        expect.arrayContaining([
          expect.stringMatching('before everything was replaced: backup.json'),
        ]),
      );
    await fromKeep(there);
  });
});

describe('a snapshot', () => {
  it('is gone back to in three taps from Warps, and that is undone by one', async () => {
    await tile(there, 'Blanket').getByRole('button', { name: 'Remove', exact: true }).click();
    await button(there, 'Remove it').click();
    await closed(there);
    await goOn(there, 4);
    const later = await storedEvents(there);

    await button(there, 'Keep safe').click();
    await there
      .getByRole('button', { name: /^Look at the snapshot/ })
      .first()
      .click();
    await button(there, 'Go back to this').click();

    await expect
      .poll(() => doneNote(there).textContent())
      .toMatch('Everything is as in the snapshot');
    expect(await storedRecords(there, 'warps')).toHaveLength(2);
    expect(await storedEvents(there)).toHaveLength(later.length - 4);
    await button(there, 'Undo').click();
    await expect.poll(async () => (await storedEvents(there)).length).toBe(later.length);
    expect(await storedRecords(there, 'warps')).toHaveLength(1);
  });

  it('gives back only what is missing when asked', async () => {
    const before = await storedEvents(there);
    const removal = there.locator('.keep-tile', {
      hasText: 'before something was removed: Blanket',
    });
    await removal.getByRole('button').click();
    await button(there, 'Only add what is missing').click();
    await expect.poll(async () => (await storedRecords(there, 'warps')).length).toBe(2);
    expect(await storedEvents(there)).toEqual(before);
    await fromKeep(there);
  });

  it('is taken after half an hour of weaving', async () => {
    await there.reload();
    await tile(there, 'Scarf').waitFor();
    await turnClockOn(there, 1);
    // The watch over the weaving begins a while after the start.
    await there.waitForTimeout(4000);
    await goOn(there, 1);
    expect(await newestSnapshot(there)).not.toMatch('while weaving');
    await turnClockOn(there, 30);
    await goOn(there, 1);
    await expect.poll(() => newestSnapshot(there), { timeout: 20_000 }).toMatch('while weaving');
    await there.reload();
    await tile(there, 'Scarf').waitFor();
  });
});

/** From now on the page's clock is so many minutes ahead of where it was. */
async function turnClockOn(page: Page, minutes: number): Promise<void> {
  await page.evaluate((ms) => {
    const Real = Date;
    const ahead = () => Real.now() + ms;
    class Ahead extends Real {
      constructor(...given: readonly unknown[]) {
        super(...((given.length === 0 ? [ahead()] : given) as [number]));
      }
      static override now = ahead;
    }
    globalThis.Date = Ahead as DateConstructor;
  }, minutes * 60_000);
}

async function newestSnapshot(page: Page): Promise<string> {
  await toKeep(page);
  await page.waitForTimeout(500);
  const words = await page.locator('.keep-tile').first().textContent();
  await fromKeep(page);
  return words ?? '';
}

describe('the log of a warp', () => {
  it('is saved as a table', async () => {
    await toKeep(here);
    await here.locator('.keep select').selectOption({ index: 1 });
    const { name, text } = await savedBy(here, () => button(here, 'Save the table').click());
    expect(name).toMatch(/^fellmark-log-Scarf-\d{4}-\d\d-\d\d\.csv$/);
    const lines = text.trimEnd().split('\r\n');
    expect(lines[0]).toBe('\ufeffLine,Date,Time,What happened,Picks,Picks woven,Piece,Undone');
    expect(lines[17]).toMatch(/^17,\d{4}-\d\d-\d\d,\d\d:\d\d:\d\d,Thrown,1,17,AB 1,$/);
    await fromKeep(here);
  });
});
