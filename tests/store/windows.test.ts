import { describe, expect, test } from 'vitest';
import type { LogEvent } from '../../src/core/bench/events.ts';
import type { DurableStore } from '../../src/store/durable.ts';
import type { News } from '../../src/store/herald.ts';
import type { Journal } from '../../src/store/journal/journal.ts';
import { samplePlan, sampleWarp, tap, taps } from './samples.ts';
import {
  closeWindow,
  emptied,
  freshWorld,
  journalOn,
  openWindow,
  settled,
  until,
  type World,
} from './world.ts';

/** Two windows on one warp; the first has the pen. */
async function twoWindows(): Promise<{ world: World; first: DurableStore; second: DurableStore }> {
  const world = freshWorld();
  const first = await openWindow(world);
  await first.addWarp(sampleWarp('a'), samplePlan('A'));
  const second = await openWindow(world);
  await until(() => second.state().pen === 'elsewhere');
  return { world, first, second };
}

const pens = (...stores: readonly DurableStore[]) => stores.map((store) => store.state().pen);

/** What a window is told from now on. */
function listened(store: DurableStore): readonly News[] {
  const heard: News[] = [];
  store.listen((news) => void heard.push(news));
  return heard;
}

const eventsIn = (heard: readonly News[]): readonly LogEvent[] =>
  heard.flatMap((news) =>
    news.kind === 'wrote' && news.op.kind === 'events' ? news.op.events : [],
  );

/** What a launch finds in the journal alone. */
async function inJournalAlone(world: World): Promise<readonly LogEvent[]> {
  world.indexedDB = emptied();
  const store = await openWindow(world);
  await settled(store);
  return store.eventsOf('a');
}

describe('of two windows one writes', () => {
  test('the first one; the second says so, and reads', async () => {
    const { first, second } = await twoWindows();
    expect(pens(first, second)).toEqual(['here', 'elsewhere']);
    expect(await second.warps()).toEqual([sampleWarp('a')]);
  });

  test('the second hears every write of the first, in order, and nothing else', async () => {
    const { first, second } = await twoWindows();
    const heard = listened(second);
    for (const event of taps('a', 20)) await first.append(event);
    await until(() => heard.length >= 20);
    expect(eventsIn(heard)).toEqual(taps('a', 20));
    expect(heard.filter(({ kind }) => kind === 'changed')).toEqual([]);
  });

  test('a write of the second takes the pen, and the first then follows', async () => {
    const { first, second } = await twoWindows();
    const heard = listened(first);
    await second.append(tap('a', 0));
    await settled(second);
    expect(pens(first, second)).toEqual(['elsewhere', 'here']);
    await until(() => eventsIn(heard).length === 1);
    expect(second.state().copies).toBe('two');
  });

  test('taking the pen without writing is heard of by nobody else', async () => {
    const { first, second } = await twoWindows();
    const heard = [listened(first), listened(second)];
    await second.takePen();
    expect(pens(first, second)).toEqual(['elsewhere', 'here']);
    expect(heard.flat().filter(({ kind }) => kind !== 'state')).toEqual([]);
  });

  test('what the first has not finished is saved before the second writes', async () => {
    const world = freshWorld();
    let saving: Promise<unknown> = Promise.resolve();
    const first = await openWindow(world, { finishing: () => saving.then(() => undefined) });
    await first.addWarp(sampleWarp('a'), samplePlan('A'));
    const second = await openWindow(world);
    saving = (async () => {
      for (const event of taps('a', 10)) await first.append(event);
    })();
    await second.append(tap('a', 10));
    expect(await second.eventsOf('a')).toEqual(taps('a', 11));
  });

  test('when the first is closed the second has the pen by itself', async () => {
    const { first, second } = await twoWindows();
    await first.append(tap('a', 0));
    first.close();
    await settled(second);
    await second.append(tap('a', 1));
    expect(await second.eventsOf('a')).toEqual(taps('a', 2));
    expect(second.state().copies).toBe('two');
  });

  test('three windows asking at once all get their turn', async () => {
    const { world, first, second } = await twoWindows();
    const third = await openWindow(world);
    const writing = [first, second, third].map(async (store, w) => {
      for (let i = 0; i < 10; i += 1) await store.append(tap('a', w * 10 + i));
    });
    await Promise.all(writing);
    const kept = (await third.eventsOf('a')).map(({ id }) => id);
    expect(kept.toSorted()).toEqual(
      taps('a', 30)
        .map(({ id }) => id)
        .toSorted(),
    );
  });
});

describe('1,000 taps from two windows, now here, now there', () => {
  test('all there, none twice, each window’s in order, and both copies have them', async () => {
    const { world, first, second } = await twoWindows();
    const given = taps('a', 1000);
    // In bursts of 1 … 7, as hands go from one window to the other.
    let turn = 0;
    let left = 1;
    for (const event of given) {
      if (left === 0) {
        turn += 1;
        left = 1 + ((turn * 5) % 7);
      }
      left -= 1;
      await (turn % 2 === 0 ? first : second).append(event);
    }
    expect(await first.eventsOf('a')).toEqual(given);
    first.close();
    await closeWindow(world, second);
    expect(await inJournalAlone(world)).toEqual(given);
  }, 120_000);

  test('also when both tap at once and nobody waits for the other', async () => {
    const { world, first, second } = await twoWindows();
    const given = taps('a', 1000);
    const own = [0, 1].map((parity) => given.filter((_, n) => n % 2 === parity));
    await Promise.all(
      [first, second].map(async (store, w) => {
        for (const event of own[w] ?? []) await store.append(event);
      }),
    );
    const kept = (await first.eventsOf('a')).map(({ id }) => id);
    expect(kept.toSorted()).toEqual(given.map(({ id }) => id).toSorted());
    for (const ids of own.map((events) => events.map(({ id }) => id))) {
      expect(kept.filter((id) => ids.includes(id))).toEqual(ids);
    }
    first.close();
    await closeWindow(world, second);
    expect((await inJournalAlone(world)).map(({ id }) => id)).toEqual(kept);
  }, 120_000);
});

describe('a window that is asked for the pen', () => {
  test('begins nothing until it has it again: what it writes then follows the other', async () => {
    const world = freshWorld();
    let finish = (): void => undefined;
    const finishing = () =>
      new Promise<void>((resolve) => {
        finish = resolve;
      });
    const first = await openWindow(world, { finishing });
    await first.addWarp(sampleWarp('a'), samplePlan('A'));
    const second = await openWindow(world);
    const writing = second.append(tap('a', 0));
    await until(() => first.state().pen === 'asked');
    // The bench takes the pen before each tap that is not the next of what it has seen.
    let isTaken = false;
    const taking = first.takePen().then(() => {
      isTaken = true;
    });
    await new Promise((resolve) => setTimeout(resolve, 50));
    expect(isTaken).toBe(false);
    finish();
    await writing;
    await taking;
    expect(await first.eventsOf('a')).toEqual([tap('a', 0)]);
    expect(pens(first)).toEqual(['here']);
    first.close();
    await closeWindow(world, second);
  });

  test('while it compares the copies, and does not answer, does not say that it has it', async () => {
    const world = freshWorld();
    const own = world.files === null ? null : journalOn(world.files.open);
    let answer = (): void => undefined;
    const answering = new Promise<void>((resolve) => {
      answer = resolve;
    });
    const slow: Journal | null = own && {
      ...own,
      open: async (ledger) => {
        await answering;
        return own.open(ledger);
      },
    };
    const before = await openWindow(world);
    await before.addWarp(sampleWarp('a'), samplePlan('A'));
    await closeWindow(world, before);
    const first = await openWindow(world, { journal: slow });
    const second = await openWindow(world);
    await second.append(tap('a', 0));
    answer();
    await new Promise((resolve) => setTimeout(resolve, 50));
    expect(pens(first, second)).toEqual(['elsewhere', 'here']);
    first.close();
    await closeWindow(world, second);
  });
});

describe('a window asleep in the background', () => {
  /** A window that has the pen and answers nobody, its journal held open by its worker. */
  async function asleep(): Promise<{ world: World; first: DurableStore; second: DurableStore }> {
    const world = freshWorld();
    const never = () => new Promise<void>(() => undefined);
    const first = await openWindow(world, { finishing: never });
    await first.addWarp(sampleWarp('a'), samplePlan('A'));
    for (const event of taps('a', 3)) await first.append(event);
    return { world, first, second: await openWindow(world) };
  }

  test('loses the pen to the other within 2 s', async () => {
    const { first, second } = await asleep();
    const start = performance.now();
    await second.append(tap('a', 3));
    expect(performance.now() - start).toBeLessThan(2000);
    await settled(second);
    expect(pens(first, second)).toEqual(['elsewhere', 'here']);
    expect(await second.eventsOf('a')).toEqual(taps('a', 4));
  });

  test('awake again, it writes nothing over, and both copies agree in the end', async () => {
    const { world, first, second } = await asleep();
    await second.append(tap('a', 3));
    await first.append(tap('a', 4));
    await second.append(tap('a', 5));
    expect(await first.eventsOf('a')).toEqual(taps('a', 6));
    first.close();
    await closeWindow(world, second);
    const after = await openWindow(world);
    await settled(after);
    expect(after.state().copies).toBe('two');
    await closeWindow(world, after);
    expect(await inJournalAlone(world)).toEqual(taps('a', 6));
  });
});

describe('a window that was told wrong', () => {
  test('and missed a write reads everything anew', async () => {
    const { world, first, second } = await twoWindows();
    const heard = listened(second);
    const [deaf] = [...world.channels].slice(-1);
    const onmessage = deaf?.onmessage ?? null;
    if (deaf !== undefined) deaf.onmessage = null;
    await first.append(tap('a', 0));
    await new Promise((resolve) => setTimeout(resolve, 5));
    if (deaf !== undefined) deaf.onmessage = onmessage;
    await first.append(tap('a', 1));
    await until(() => heard.length > 0);
    expect(heard).toEqual([{ kind: 'changed' }]);
    await first.append(tap('a', 2));
    await until(() => heard.length > 1);
    expect(eventsIn(heard)).toEqual([tap('a', 2)]);
  });

  test('and missed a write finds it when it takes the pen', async () => {
    const { world, first, second } = await twoWindows();
    const heard = listened(second);
    const [deaf] = [...world.channels].slice(-1);
    const onmessage = deaf?.onmessage ?? null;
    if (deaf !== undefined) deaf.onmessage = null;
    await first.append(tap('a', 0));
    await new Promise((resolve) => setTimeout(resolve, 5));
    if (deaf !== undefined) deaf.onmessage = onmessage;
    await second.takePen();
    expect(heard).toContainEqual({ kind: 'changed' });
    await second.append(tap('a', 1));
    expect(await second.eventsOf('a')).toEqual(taps('a', 2));
  });

  test('a write past the pen is found out before the next one, and kept', async () => {
    const { world, first, second } = await twoWindows();
    // A window of a browser without locks writes without asking.
    const lawless = await openWindow({ ...world, locks: freshWorld().locks, channels: new Set() });
    await lawless.append(tap('a', 0));
    await first.append(tap('a', 1));
    await lawless.append(tap('a', 2));
    await first.append(tap('a', 3));
    expect(await first.eventsOf('a')).toEqual(taps('a', 4));
    // In both copies: what the lawless one wrote is not missed in the journal.
    lawless.close();
    second.close();
    await closeWindow(world, first);
    expect(await inJournalAlone(world)).toEqual(taps('a', 4));
  });
});
