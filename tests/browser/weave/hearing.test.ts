import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Plan } from '../../../src/core/plan/plan.ts';
import { weave } from '../../core/bench/weaver.ts';
import { hear, newListener, throwInMind } from '../../ui/hearing/listener.ts';
import { visit } from '../app.ts';
import {
  button,
  closed,
  openMore,
  readCall,
  saved,
  scene,
  setBounce,
  setStepper,
  storedEvents,
  storedRecords,
  throwPicks,
  weavePlan,
} from '../bench.ts';
import { openVisitor, serveDist, type Visitor } from '../harness.ts';
import { planWeaving, solid } from '../plans.ts';
import { changeEars, fitEars, type Noted, notedBy } from './ears.ts';

let server: Awaited<ReturnType<typeof serveDist>>;
let browser: Visitor;
let page: Page;

beforeAll(async () => {
  server = await serveDist();
  browser = await openVisitor({ serviceWorkers: 'block', reducedMotion: 'reduce' });
  page = browser.page;
  await fitEars(browser.context);
  await visit(page, server.url);
});

afterAll(async () => {
  await browser.close();
  await server.stop();
});

/** Switches the voice on, and sounds for every pick. */
async function switchOn(page: Page): Promise<void> {
  await openMore(page, 'Settings');
  const inPart = (label: string, words: string) =>
    page.locator('.choice', { hasText: label }).getByRole('button', { name: words, exact: true });
  await inPart('Sounds', 'Every pick').click();
  await inPart('Voice', 'Calls the turns').click();
  await inPart('Vibration', 'On').click();
  await setStepper(page, 'Picks ahead at which a change is told', 2);
  await button(page, 'Close').click();
  await closed(page);
}

const plan: Plan = planWeaving(
  'By ear',
  [solid('A', 5), solid('B', 2), solid('A', 2), solid('B', 3)],
  [solid('B', 4)],
);

let warps = 0;
/** A warp of its own, by a name of its own. */
const weaveNew = () => weavePlan(page, { ...plan, name: `Warp ${'abcdefghij'[warps++]}` });

describe('the built app, for ears', () => {
  it('is silent until asked, and stays as it was set over a reload', async () => {
    await weaveNew();
    await setBounce(page, 'at once');
    // One by one: of several at once only the last is told.
    await throwPicks(page, 3);
    await throwPicks(page, 3);
    await expect.poll(async () => (await readCall(page)).spoken).toBe('pick 2 of 2');
    expect(await notedBy(page)).toEqual({ said: [], tones: [], shaken: [] });
    await switchOn(page);
    await saved(page);
    await page.reload();
    await scene(page).waitFor();
    await button(page, 'Say it again').waitFor();
    await page.keyboard.press('PageUp');
    await expect.poll(async () => (await notedBy(page)).said.length).toBeGreaterThan(0);
    const stored = await storedRecords(page, 'settings');
    expect(stored).toContainEqual(
      expect.objectContaining({
        name: 'senses',
        value: expect.objectContaining({ sound: 'picks', voice: 'on', ahead: 2 }),
      }),
    );
  });

  it('says and sounds enough to weave two pieces by', async () => {
    await weaveNew();
    await setBounce(page, 'at once');
    await switchOn(page);
    const thrownEvents = async () =>
      (await storedEvents(page)).filter(({ kind }) => kind === 'thrown').length;
    const before = await thrownEvents();
    const weaver = newListener();
    let heardSoFar = (await notedBy(page)).said.length;
    let sounded = (await notedBy(page)).tones.length;
    const listen = async (isNew: (noted: Noted) => boolean) => {
      await expect.poll(async () => isNew(await notedBy(page))).toBe(true);
      const noted = await notedBy(page);
      const words = noted.said.slice(heardSoFar).flatMap(({ text }) => sentences(text));
      heardSoFar = noted.said.length;
      sounded = noted.tones.length;
      hear(weaver, plan, { signals: [], words });
    };
    // The weaver asks once, and looks at nothing from then on.
    await button(page, 'Say it again').click();
    await listen(({ said }) => said.length > heardSoFar);
    for (let n = 0; weaver.next !== null && n < 50; n++) {
      throwInMind(weaver);
      await page.keyboard.press('PageDown');
      // Every pick counted is heard.
      await listen(({ tones }) => tones.length > sounded);
    }
    const cloth = weave(plan).map(({ yarn, shed, from }) => ({ yarn, shed, from }));
    expect(weaver.cloth).toEqual(cloth);
    await expect.poll(thrownEvents).toBe(before + cloth.length);
    const { said, shaken } = await notedBy(page);
    expect(new Set(said.map(({ voice }) => voice))).toEqual(new Set(['Near']));
    expect(shaken.length).toBeGreaterThanOrEqual(cloth.length);
    expect(weaver.dues.some((it) => it.startsWith('Leave a gap'))).toBe(true);
  });

  it('the live region says what the voice says, and the pick where it says nothing', async () => {
    await weaveNew();
    await setBounce(page, 'at once');
    await switchOn(page);
    const spoken = async () => (await readCall(page)).spoken;
    await page.keyboard.press('PageDown');
    await expect.poll(spoken).toBe('pick 2 of 5');
    for (let n = 0; n < 4; n++) await page.keyboard.press('PageDown');
    await expect.poll(spoken).toMatch(/^2 of /);
    expect((await notedBy(page)).said.at(-1)?.text).toBe(await spoken());
    expect(await page.locator('.call').getAttribute('data-change')).toBe('true');
  });

  it('a bounce is not sounded, an undo falls, and the turn is told again', async () => {
    await weaveNew();
    await switchOn(page);
    await setBounce(page, '1 s');
    const before = (await notedBy(page)).tones.length;
    await scene(page).evaluate((it) => {
      (it as HTMLElement).click();
      (it as HTMLElement).click();
    });
    await expect.poll(async () => (await notedBy(page)).tones.slice(before)).toEqual([620]);
    await page.keyboard.press('PageUp');
    await expect.poll(async () => (await notedBy(page)).tones.slice(before)).toEqual([620, 520]);
    expect((await notedBy(page)).said.at(-1)?.text).toContain(' 5 of moss, ');
  });

  it('a change told ahead shows as well', async () => {
    await weaveNew();
    await setBounce(page, 'at once');
    await switchOn(page);
    const ground = () =>
      page.locator('.next').evaluate((it) => getComputedStyle(it).backgroundColor);
    const quiet = await ground();
    for (let n = 0; n < 3; n++) await page.keyboard.press('PageDown');
    await expect.poll(ground).not.toBe(quiet);
    expect((await notedBy(page)).said.at(-1)?.text).toMatch(/^In 2 picks, /);
    await page.keyboard.press('PageDown');
    await expect.poll(ground).toBe(quiet);
  });

  it('a voice that does not begin is a sound after a second', async () => {
    await changeEars(page, { voice: 'silent' });
    await weaveNew();
    await setBounce(page, 'at once');
    await switchOn(page);
    await button(page, 'Say it again').click();
    await expect.poll(async () => (await notedBy(page)).tones.slice(-3)).toEqual([784, 784, 1047]);
    expect((await notedBy(page)).said).toEqual([]);
  });

  it.each(['remote-only', 'none'] as const)(
    'with voices %s it says so and sounds instead',
    async (voice) => {
      await changeEars(page, { voice });
      await openMore(page, 'Settings');
      await button(page, 'Calls the turns').click();
      await page.getByText('no voice that works without a network').waitFor();
      await expect.poll(async () => (await notedBy(page)).tones).toEqual([784, 784, 1047]);
      expect((await notedBy(page)).said).toEqual([]);
      await button(page, 'Close').click();
      await closed(page);
    },
  );
});

describe('a pedal of another kind', () => {
  beforeAll(() => changeEars(page, { voice: 'speaks' }));

  it('is taught by one press, throws from then on, and says the call again', async () => {
    await weaveNew();
    await setBounce(page, 'at once');
    await openMore(page, 'Settings');
    const teach = async (what: string, key: string) => {
      const pedal = page.locator('.pedals li', { hasText: what });
      await pedal.getByRole('button', { name: 'Teach' }).click();
      await pedal.getByText('Press your pedal now').waitFor();
      await page.keyboard.press(key);
      await pedal.getByRole('button', { name: 'Forget' }).waitFor();
    };
    await teach('Throws the pick', 'F8');
    await teach('Undoes', 'ArrowRight');
    await teach('Says the call again', 'b');
    await button(page, 'Calls the turns').click();
    await button(page, 'Close').click();
    await closed(page);
    const pick = async () => (await readCall(page)).pick;
    await page.keyboard.press('F8');
    await page.keyboard.press('F8');
    await expect.poll(pick).toBe(3);
    // Taught keys go before the usual ones.
    await page.keyboard.press('ArrowRight');
    await expect.poll(pick).toBe(2);
    const before = (await notedBy(page)).said.length;
    await page.keyboard.press('b');
    await expect.poll(async () => (await notedBy(page)).said.length).toBe(before + 1);
    expect((await notedBy(page)).said.at(-1)?.text).toContain('4 more of ');
    // Held for a while, as a foot that rests on it does.
    for (let i = 0; i < 30; i++) await page.keyboard.down('F8');
    await page.keyboard.up('F8');
    await expect.poll(pick).toBe(3);
    // One key does one thing.
    await openMore(page, 'Settings');
    await teach('Undoes', 'F8');
    await page
      .locator('.pedals li', { hasText: 'Throws the pick' })
      .getByRole('button', { name: 'Forget' })
      .waitFor({ state: 'detached' });
  });
});

/** Sentences of one utterance; every one ends with a full stop that a space or the end follows. */
function sentences(text: string): readonly string[] {
  return text.split(/(?<=\.) (?=[A-Z0-9])/);
}
