// @vitest-environment happy-dom
import 'fake-indexeddb/auto';
import { beforeEach, describe, expect, it } from 'vitest';
import type { LogEvent } from '../../src/core/bench/events.ts';
import { keptNear } from '../../src/core/bench/kept.ts';
import { progressOf } from '../../src/core/bench/progress.ts';
import { keepFold, readFold } from '../../src/store/folds.ts';
import { createMemoryStore } from '../../src/store/memory.ts';
import type { Store, WarpRecord } from '../../src/store/store.ts';
import { happen, start, undo } from '../../src/ui/actions.ts';
import { foldOf, keepFolds } from '../../src/ui/keepingFold.ts';
import { wholeLog } from '../../src/ui/resuming.ts';
import { session, unsaved } from '../../src/ui/state.ts';
import { logged, takenOut, thrown } from '../core/bench/logs.ts';
import { planWeaving, solid } from '../core/plan/samples.ts';

const PLAN = planWeaving('AB', [solid('A', 600), solid('B', 2_400)]);
const WARP: WarpRecord = {
  id: 'w',
  name: PLAN.name,
  demo: false,
  madeAt: '2024-05-01T09:00:00Z',
  wovenAt: null,
};
/** Two picks forward, one back: long, and not woven to its end. */
const LOG = logged(
  Array.from({ length: 2_000 }, (_, n) => (n % 3 === 2 ? takenOut(1) : thrown(1))),
);

/** A store that says which events were asked for. */
async function storeWith(log: readonly LogEvent[]) {
  const store = createMemoryStore();
  await store.addWarp(WARP, PLAN);
  await store.appendAll(log);
  await store.setSetting('weaving', WARP.id);
  const asked: (number | undefined)[] = [];
  const eventsOf: Store['eventsOf'] = async (warp, from, to) => {
    asked.push(from);
    return store.eventsOf(warp, from, to);
  };
  return { store: { ...store, eventsOf }, asked };
}

function foldOfLog(log: readonly LogEvent[]) {
  const kept = keptNear(PLAN, log);
  const progress = progressOf(PLAN, log);
  const fold = foldOf({ warp: WARP, plan: PLAN, base: PLAN, log: [...log], kept, progress });
  if (fold === null) throw new Error('foldOfLog: wanted a log long enough');
  return fold;
}

const shown = () => {
  const at = session.value;
  if (at === null) throw new Error('shown: got no warp on the bench');
  return at;
};

beforeEach(async () => {
  await wholeLog();
  session.value = null;
  await keepFold(undefined);
});

describe('a start with a long log', () => {
  it('reads it whole where nothing is kept', async () => {
    const { store, asked } = await storeWith(LOG);
    await start(store);
    expect(asked).toEqual([undefined]);
    expect(shown().progress).toEqual(progressOf(PLAN, LOG));
  });

  it('reads only what came after what is kept, the rest behind the bench', async () => {
    await keepFold(foldOfLog(LOG));
    const more = logged([...LOG, thrown(1), thrown(1)]).slice(LOG.length);
    const { store, asked } = await storeWith([...LOG, ...more]);
    await start(store);
    expect(asked).toEqual([1_959]);
    expect(shown().log).toHaveLength(43);
    expect(shown().progress).toEqual(progressOf(PLAN, [...LOG, ...more]));
    await wholeLog();
    expect(shown().log).toEqual([...LOG, ...more]);
    expect(shown().progress).toEqual(progressOf(PLAN, shown().log));
  });

  it.each([
    ['was folded by another version', { version: 'older' }],
    ['is of another warp', { warp: 'x' }],
    ['is of another plan', { base: JSON.stringify({ ...PLAN, name: 'Other' }) }],
    ['ends with another event', { last: 'e7' }],
    ['is longer than the log', { events: 5_000 }],
    ['is damaged', { progress: {} }],
    ['has lost its plan', { progress: { ...foldOfLog(LOG).progress, plan: undefined } }],
  ])('reads it whole where what is kept %s', async (_, wrong) => {
    await keepFold({ ...foldOfLog(LOG), ...wrong });
    const { store, asked } = await storeWith(LOG);
    await start(store);
    expect(asked.at(-1)).toBeUndefined();
    expect(shown().log).toEqual(LOG);
    expect(shown().progress).toEqual(progressOf(PLAN, LOG));
  });

  it.each(['nothing', 7, null, []])('reads it whole where %j is kept', async (wrong) => {
    await keepFold(wrong as object);
    const { store } = await storeWith(LOG);
    await start(store);
    expect(shown().progress).toEqual(progressOf(PLAN, LOG));
  });

  it('folds it whole as soon as its beginning turns out to be another', async () => {
    await keepFold(foldOfLog(LOG));
    // As if copies had been brought together: the same last events, other ones before.
    const other = LOG.map((it, n) => (n === 4 ? { ...it, id: 'other', ...thrown(3) } : it));
    const { store } = await storeWith(other);
    await start(store);
    await wholeLog();
    expect(shown().progress).toEqual(progressOf(PLAN, other));
    expect(shown().log).toEqual(other);
    expect(await readFold()).toBeUndefined();
  });

  it('undoes at once what was undone before the log was whole, and keeps the order', async () => {
    await keepFold(foldOfLog(LOG));
    const { store } = await storeWith(LOG);
    await start(store);
    const last = LOG.at(-1)?.id;
    undo();
    happen(thrown(2));
    expect(shown().log).toHaveLength(41);
    await wholeLog();
    expect(
      shown()
        .log.slice(LOG.length)
        .map(({ kind }) => kind),
    ).toEqual(['undone', 'thrown']);
    expect(shown().log.at(-2)).toMatchObject({ kind: 'undone', event: last });
    expect(shown().progress).toEqual(progressOf(PLAN, shown().log));
    await expect.poll(async () => (await store.eventsOf('w')).length).toBe(LOG.length + 2);
  });

  it('tries again what of it could not be read', async () => {
    await keepFold(foldOfLog(LOG));
    const { store } = await storeWith(LOG);
    let fails = 1;
    const eventsOf: Store['eventsOf'] = async (warp, from, to) => {
      if (to !== undefined && fails-- > 0) throw new Error('not now');
      return store.eventsOf(warp, from, to);
    };
    await start({ ...store, eventsOf });
    await wholeLog();
    expect(shown().log).toEqual(LOG);
  });
});

describe('what is kept for the next start', () => {
  it('is kept in a quiet moment, and fits', async () => {
    const { store } = await storeWith(LOG);
    await start(store);
    const stop = keepFolds(1);
    await expect.poll(readFold).toMatchObject({ warp: 'w', events: 1_960, last: 'e1959' });
    stop();
    session.value = null;
    const next = await storeWith(LOG);
    await start(next.store);
    expect(next.asked).toEqual([1_959]);
  });

  it('is not kept while something is not saved', async () => {
    const { store } = await storeWith(LOG);
    await start(store);
    unsaved.value = 1;
    const stop = keepFolds(1);
    await new Promise((resolve) => setTimeout(resolve, 50));
    expect(await readFold()).toBeUndefined();
    unsaved.value = 0;
    stop();
  });

  it('is not kept of a short log', () => {
    const short = LOG.slice(0, 100);
    const kept = keptNear(PLAN, short);
    const progress = progressOf(PLAN, short);
    expect(kept?.events).toBe(60);
    const at = { warp: WARP, plan: PLAN, base: PLAN, log: [...short], kept, progress };
    expect(foldOf(at)).toBeNull();
  });
});
