/**
 * Weaving on while the database goes wrong at its nth operation. `FELLMARK_FAULT_SEEDS` says how
 * many courses of events are tried for each fault and each n.
 */
import { describe, expect, test } from 'vitest';
import type { LogEvent } from '../../src/core/bench/events.ts';
import type { DurableStore } from '../../src/store/durable.ts';
import { type Store, StoreError, type StoreTrouble } from '../../src/store/store.ts';
import { FAULTS, type FaultName, faultyBrowser } from './faults.ts';
import { fakeFiles } from './files.ts';
import { samplePlan, sampleRevision, sampleWarp, taps } from './samples.ts';
import {
  closeWindow,
  emptied,
  freshWorld,
  journalOn,
  openWindow,
  settled,
  type World,
} from './world.ts';

const SEEDS = Number(process.env.FELLMARK_FAULT_SEEDS ?? 8);
const MOST = 50;
const TAPS = 6;

interface Outcome {
  /** Events the store said were saved. */
  readonly acknowledged: readonly string[];
  /** What went wrong, as the red bar had it. */
  readonly troubles: readonly StoreTrouble[];
  /** Whether it was in time: with the refusal of the tap, and before the next. */
  readonly wasQuiet: boolean;
  /** What a launch finds afterwards. */
  readonly kept: readonly string[];
  readonly copies: string;
  readonly loss: unknown;
  readonly hasGoneWrong: boolean;
}

interface Course {
  readonly fault: FaultName;
  readonly nth: number;
  readonly seed: number;
}

/** Opens a warp and taps on, as the bench does: what was not saved is tried again with the next tap. */
async function weaveThrough(
  { fault, nth, seed }: Course,
  open: (world: World) => Promise<Store> = (world) => openWindow(world, { blockedMs: 2 }),
): Promise<Outcome> {
  const chance = chances(seed * 1_000 + nth);
  const browser = faultyBrowser({ fault, nth, times: 1 + (seed % 8), ms: 1 + chance(5) });
  const world = freshWorld(browser.indexedDB);
  const troubles: StoreTrouble[] = [];
  const said = (error: unknown) => {
    troubles.push(error instanceof StoreError ? error.trouble : 'unknown');
    return null;
  };
  const store = await persistently(() => open(world), said);
  await persistently(() => store.addWarp(sampleWarp('a'), samplePlan('A')), said, 'second time');
  const acknowledged: string[] = [];
  const waiting: LogEvent[] = [];
  let wasQuiet = false;
  for (const [i, event] of taps('a', TAPS).entries()) {
    waiting.push(event);
    if (chance(4) === 0) await store.setSetting('hand', event.id).catch(said);
    if (chance(6) === 0) await store.addRevision(sampleRevision('a', i + 1)).catch(said);
    await saveAll(store, waiting, acknowledged, said);
    wasQuiet ||= waiting.length > 0 && troubles.length === 0;
    if (chance(3) === 0) await new Promise((resolve) => setImmediate(resolve));
  }
  const hasGoneWrong = browser.hasGoneWrong();
  browser.mend();
  await saveAll(store, waiting, acknowledged, said);
  await closeWindow(world, store as DurableStore);
  const after = await openWindow(world);
  await settled(after);
  const kept = (await after.eventsOf('a')).map(({ id }) => id);
  const { copies, loss } = after.state();
  await closeWindow(world, after);
  return { acknowledged, troubles, wasQuiet, kept, copies, loss, hasGoneWrong };
}

async function saveAll(
  store: Store,
  waiting: LogEvent[],
  acknowledged: string[],
  said: (error: unknown) => null,
): Promise<void> {
  for (let event = waiting[0]; event !== undefined; event = waiting[0]) {
    const isSaved = await store.append(event).then(() => true, said);
    if (isSaved === null) return;
    acknowledged.push(event.id);
    waiting.shift();
  }
}

/** Until it succeeds, or says that it had succeeded before. */
async function persistently<T>(
  work: () => Promise<T>,
  said: (error: unknown) => null,
  before?: string,
): Promise<T> {
  for (let tries = 0; ; tries += 1) {
    try {
      return await work();
    } catch (error) {
      if (before !== undefined && String(error).includes(before)) return undefined as T;
      if (tries > 8) throw error;
      said(error);
      await new Promise((resolve) => setTimeout(resolve, 2));
    }
  }
}

/** The same numbers in every run (Park and Miller's generator, 1988): 0 … below. */
function chances(seed: number): (below: number) => number {
  let state = (seed % 2_147_483_646) + 1;
  return (below) => {
    state = (state * 48_271) % 2_147_483_647;
    return state % below;
  };
}

function coursesOf(
  fault: FaultName,
  { from, seeds }: { readonly from: number; readonly seeds: readonly number[] },
): readonly Course[] {
  const places = Array.from({ length: MOST - from + 1 }, (_, i) => from + i);
  return places.flatMap((nth) => seeds.map((seed) => ({ fault, nth, seed })));
}

/** Most of a course is waiting before a third try: so many are under way at a time. */
const AT_ONCE = 50;

async function sideBySide(
  courses: readonly Course[],
  weave: (course: Course) => Promise<void>,
): Promise<void> {
  const left = courses.values();
  const hand = async () => {
    for (const course of left) await weave(course);
  };
  await Promise.all(Array.from({ length: AT_ONCE }, hand));
}

/** What the bar may say of each; where nothing stands, every try is to succeed in the end. */
const TROUBLES: Readonly<Record<FaultName, readonly StoreTrouble[]>> = {
  'drops the handle': ['lost-connection'],
  'says quota': ['quota'],
  delays: [],
  closes: ['lost-connection'],
  'answers an old version': ['lost-connection'],
  'blocks an upgrade': ['blocked', 'lost-connection'],
};

const ALL = taps('a', TAPS).map(({ id }) => id);

describe(`the database fails at its nth operation, n = 1 … ${MOST}, ${SEEDS} times each`, () => {
  test.each(FAULTS)(
    'it %s: nothing acknowledged is lost, nothing is twice, and the bar is up with the tap',
    async (fault) => {
      const courses = coursesOf(fault, {
        from: 1,
        seeds: Array.from({ length: SEEDS }, (_, n) => n),
      });
      let gone = 0;
      await sideBySide(courses, async (course) => {
        const outcome = await weaveThrough(course);
        const note = `n ${course.nth}, seed ${course.seed}`;
        expect(outcome.acknowledged, note).toEqual(ALL);
        expect(outcome.kept, note).toEqual(ALL);
        expect(outcome.wasQuiet, note).toBe(false);
        expect(outcome, note).toMatchObject({ copies: 'two', loss: null });
        for (const trouble of outcome.troubles) expect(TROUBLES[fault], note).toContain(trouble);
        gone += outcome.hasGoneWrong ? 1 : 0;
      });
      expect(gone).toBe(courses.length);
    },
    1_800_000,
  );
});

describe('a store that says saved before the commit', () => {
  /** Wrong on purpose. */
  const openHasty = async (world: World): Promise<Store> => {
    const sound = await openWindow(world, { blockedMs: 2 });
    const append = async (event: LogEvent) => {
      sound.append(event).catch(() => undefined);
    };
    return { ...sound, append };
  };

  test.each<FaultName>(['drops the handle', 'says quota', 'closes', 'blocks an upgrade'])(
    'is caught by the same check when the database %s',
    async (fault) => {
      let lost = 0;
      await sideBySide(coursesOf(fault, { from: 20, seeds: [7] }), async (course) => {
        const { acknowledged, kept } = await weaveThrough(course, openHasty);
        expect(acknowledged).toEqual(ALL);
        lost += ALL.filter((id) => !kept.includes(id)).length;
      });
      expect(lost).toBeGreaterThan(0);
    },
  );
});

describe('the journal fails at its nth operation', () => {
  test.each([
    ['once', 1],
    ['from then on', Number.POSITIVE_INFINITY],
  ])('%s: nobody is kept waiting, and the next launch has both copies', async (_how, times) => {
    for (let nth = 1; nth <= MOST; nth += 1) {
      const world = freshWorld();
      world.files?.setFault((n) => {
        if (n >= nth - 1 && n < nth - 1 + times) throw new DOMException('', 'QuotaExceededError');
      });
      const store = await openWindow(world);
      await store.addWarp(sampleWarp('a'), samplePlan('A'));
      for (const event of taps('a', 25)) await store.append(event);
      expect(store.state()).toMatchObject({ copies: 'failed', trouble: null });
      await closeWindow(world, store);
      world.files?.setFault(() => undefined);
      const after = await openWindow(world);
      await settled(after);
      expect(after.state()).toMatchObject({ copies: 'two', loss: null });
      await closeWindow(world, after);
      world.indexedDB = emptied();
      const again = await openWindow(world);
      expect(await again.eventsOf('a')).toEqual(taps('a', 25));
      await closeWindow(world, again);
    }
  });

  test('a journal that never answers holds a tap up once, and no other', async () => {
    const world = freshWorld();
    const never = () => new Promise<never>(() => undefined);
    const sound = journalOn(fakeFiles().open);
    const store = await openWindow(world, { journal: { ...sound, append: never } });
    await store.addWarp(sampleWarp('a'), samplePlan('A'));
    const start = performance.now();
    for (const event of taps('a', 25)) await store.append(event);
    // The one that was held up was the warp.
    expect(performance.now() - start).toBeLessThan(1500);
    expect(store.state().copies).toBe('failed');
    expect(await store.eventsOf('a')).toEqual(taps('a', 25));
  });

  test('a journal that cannot be opened is done without', async () => {
    const world = freshWorld();
    const held = await world.files?.open();
    expect(held).toBeDefined();
    const store = await openWindow(world);
    await store.addWarp(sampleWarp('a'), samplePlan('A'));
    expect(store.state().copies).toBe('failed');
  });
});
