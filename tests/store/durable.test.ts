import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Contents, NOTHING } from '../../src/core/backup/contents.ts';
import type { Readers } from '../../src/store/database.ts';
import type { Journal } from '../../src/store/journal/journal.ts';
import { createMemoryStore } from '../../src/store/memory.ts';
import { RECORD_KINDS, type Store } from '../../src/store/store.ts';
import { describeStore } from './contract.ts';
import { fakeFiles } from './files.ts';
import { samplePlan, sampleRecord, sampleRevision, sampleWarp, tap, taps } from './samples.ts';
import {
  closeWindow,
  emptied,
  everythingIn,
  freshWorld,
  journalOn,
  openWindow,
  restored,
  settled,
  snapshotOf,
  type World,
} from './world.ts';

describeStore('both copies', () => openWindow(freshWorld()));
describeStore('one copy for want of a file system', () => {
  const world = freshWorld();
  world.files = null;
  return openWindow(world);
});

const WARPS = ['a', 'ab'];
const SETTINGS = ['hand', 'theme'];
const allIn = (store: Store) => everythingIn(store, WARPS, SETTINGS);

/** A little of everything, saved; the window is closed. */
async function wovenWorld(events = 12): Promise<{ world: World; all: unknown }> {
  const world = freshWorld();
  const store = await openWindow(world);
  await store.addWarp(sampleWarp('a'), samplePlan('A'));
  await store.addWarp(sampleWarp('ab'), samplePlan('AB'));
  await store.addRevision(sampleRevision('a', 1));
  await store.putRecord(sampleRecord('yarn', 'moss'));
  await store.putRecord(sampleRecord('draft', 'new'));
  await store.removeRecord('draft', 'new');
  await store.setSetting('hand', 'left');
  await store.append(tap('ab', 0));
  await store.removeWarp('ab');
  for (const event of taps('a', events)) await store.append(event);
  const all = await allIn(store);
  await closeWindow(world, store);
  return { world, all };
}

function journalIn({ files }: World): Journal {
  if (files === null) throw new Error('got a world without files');
  return journalOn(files.open);
}

/** Opens a window, lets it mend, and answers what the weaver finds and in how many copies. */
async function launch(world: World): Promise<{ all: unknown; copies: string; loss: unknown }> {
  const store = await openWindow(world);
  await settled(store);
  const { copies, loss } = store.state();
  const all = await allIn(store);
  await closeWindow(world, store);
  return { all, copies, loss };
}

describe('what a launch reads at once', () => {
  async function readAtOnce(world: World): Promise<readonly string[][]> {
    const asked: Promise<string[]>[] = [];
    const onReadable = ({ warps }: Readers) => {
      asked.push(warps().then((all) => all.map(({ id }) => id)));
    };
    const store = await openWindow(world, { onReadable });
    const found = await Promise.all(asked);
    await settled(store);
    await closeWindow(world, store);
    return found;
  }

  test('is read once where the database has all', async () => {
    const { world } = await wovenWorld();
    expect(await readAtOnce(world)).toEqual([['a']]);
  });

  test('is read again once it has been mended', async () => {
    const { world } = await wovenWorld();
    world.indexedDB = emptied();
    expect(await readAtOnce(world)).toEqual([[], ['a']]);
  });
});

describe('a launch', () => {
  test('with both copies finds everything, and writes nothing', async () => {
    const { world, all } = await wovenWorld();
    const before = world.files?.count();
    expect(await launch(world)).toEqual({ all, copies: 'two', loss: null });
    expect(world.files?.count()).toBe(before);
  });

  test('with an emptied database brings everything back from the journal', async () => {
    const { world, all } = await wovenWorld();
    world.indexedDB = emptied();
    expect(await launch(world)).toEqual({ all, copies: 'two', loss: null });
    // And it is in the database again: the journal can go.
    world.files = fakeFiles();
    expect(await launch(world)).toEqual({ all, copies: 'two', loss: null });
  });

  test('with the journal gone writes it anew from the database', async () => {
    const { world, all } = await wovenWorld();
    world.files = fakeFiles();
    expect(await launch(world)).toEqual({ all, copies: 'two', loss: null });
    world.indexedDB = emptied();
    expect(await launch(world)).toEqual({ all, copies: 'two', loss: null });
  });

  test('with a database turned back takes the rest from the journal', async () => {
    const world = freshWorld();
    const store = await openWindow(world);
    await store.addWarp(sampleWarp('a'), samplePlan('A'));
    for (const event of taps('a', 5)) await store.append(event);
    await store.putRecord(sampleRecord('yarn', 'moss'));
    const earlier = await snapshotOf(world.indexedDB);
    for (const event of taps('a', 9)) await store.append(event);
    await store.putRecord({ ...sampleRecord('yarn', 'moss'), body: { name: 'changed' } });
    await store.setSetting('hand', 'left');
    const all = await allIn(store);
    await closeWindow(world, store);
    world.indexedDB = await restored(earlier);
    expect(await launch(world)).toEqual({ all, copies: 'two', loss: null });
    expect(await launch(world)).toEqual({ all, copies: 'two', loss: null });
  });

  test('with a journal turned back writes it anew', async () => {
    const world = freshWorld();
    const store = await openWindow(world);
    await store.addWarp(sampleWarp('a'), samplePlan('A'));
    const earlier = world.files?.files.map((file) => file.bytes());
    await store.append(tap('a', 0));
    await store.removeWarp('a');
    const all = await allIn(store);
    await closeWindow(world, store);
    world.files?.files.map((file, i) => file.set(earlier?.[i] ?? new Uint8Array()));
    // What was taken away does not come back from the older copy.
    expect(await launch(world)).toEqual({ all, copies: 'two', loss: null });
    world.indexedDB = emptied();
    expect(await launch(world)).toEqual({ all, copies: 'two', loss: null });
  });

  test('with a database that lost its ledger, and a journal behind it, brings both up to all there is', async () => {
    const world = freshWorld();
    const store = await openWindow(world);
    await store.addWarp(sampleWarp('a'), samplePlan('A'));
    for (const event of taps('a', 5)) await store.append(event);
    const earlier = world.files?.files.map((file) => file.bytes());
    for (const event of taps('a', 8)) await store.append(event);
    const all = await allIn(store);
    await closeWindow(world, store);
    world.files?.files.map((file, i) => file.set(earlier?.[i] ?? new Uint8Array()));
    const lacking = new Map(await snapshotOf(world.indexedDB));
    lacking.delete('ledger');
    world.indexedDB = await restored(lacking);
    expect(await launch(world)).toMatchObject({ all, copies: 'two' });
    world.indexedDB = emptied();
    expect(await launch(world)).toMatchObject({ all, copies: 'two' });
  });

  test('with a warp that came by a file without its first plan gives it none', async () => {
    const world = freshWorld();
    const store = await openWindow(world);
    const { warp: _, ...later } = sampleRevision('a', 2);
    const of = (id: string) => ({ warp: sampleWarp(id), plans: [], log: [tap(id, 0)] });
    await store.addContents({ ...NOTHING, warps: [{ ...of('a'), plans: [later] }, of('ab')] });
    const all = await allIn(store);
    await closeWindow(world, store);
    world.files = fakeFiles();
    expect(await launch(world)).toEqual({ all, copies: 'two', loss: null });
    world.indexedDB = emptied();
    expect(await launch(world)).toEqual({ all, copies: 'two', loss: null });
    expect(JSON.stringify(all)).not.toContain('"plan":null');
  });

  test('with a database turned back behind a journal written anew brings nothing back that was taken away', async () => {
    const world = freshWorld();
    const first = await openWindow(world);
    await first.addWarp(sampleWarp('a'), samplePlan('A'));
    await first.setSetting('hand', 'left');
    const earlier = await snapshotOf(world.indexedDB);
    await first.replaceContents(NOTHING);
    await first.setSetting('theme', 'dark');
    const all = await allIn(first);
    await closeWindow(world, first);
    world.files = fakeFiles();
    await launch(world);
    world.indexedDB = await restored(earlier);
    expect(await launch(world)).toEqual({ all, copies: 'two', loss: null });
  });

  test('the same without the witness: then more comes back rather than less', async () => {
    const world = freshWorld();
    const first = await openWindow(world);
    await first.addWarp(sampleWarp('a'), samplePlan('A'));
    const earlier = await snapshotOf(world.indexedDB);
    await first.removeWarp('a');
    await first.setSetting('theme', 'dark');
    await closeWindow(world, first);
    world.files = fakeFiles();
    await launch(world);
    world.indexedDB = await restored(earlier);
    world.storage.clear();
    const again = await openWindow(world);
    await settled(again);
    expect(await again.warps()).toEqual([sampleWarp('a')]);
    expect(await again.setting('theme')).toBe('dark');
    expect(again.state()).toMatchObject({ copies: 'two', loss: null });
    await closeWindow(world, again);
  });

  test('with both copies gone says what was lost, also the next time, until it is noted', async () => {
    const { world } = await wovenWorld(12);
    world.indexedDB = emptied();
    world.files = fakeFiles();
    const found = await launch(world);
    expect(found.loss).toMatchObject({
      was: { warps: 1, events: 12 },
      left: { warps: 0, events: 0 },
    });
    expect((await launch(world)).loss).toEqual(found.loss);
    const store = await openWindow(world);
    await store.addWarp(sampleWarp('ab'), samplePlan('AB'));
    expect(store.state().loss).toEqual(found.loss);
    store.forgetLoss();
    expect(store.state().loss).toBeNull();
    await closeWindow(world, store);
    expect((await launch(world)).loss).toBeNull();
  });

  test('of a new store says nothing of the kind', async () => {
    expect(await launch(freshWorld())).toMatchObject({ copies: 'two', loss: null });
  });

  test('with the witness gone too is taken for new: there is nothing left that could tell', async () => {
    const { world } = await wovenWorld();
    world.indexedDB = emptied();
    world.files = fakeFiles();
    world.storage.clear();
    expect((await launch(world)).loss).toBeNull();
  });

  test('with the witness gone and one copy finds everything', async () => {
    const { world, all } = await wovenWorld();
    world.storage.clear();
    world.indexedDB = emptied();
    expect(await launch(world)).toEqual({ all, copies: 'two', loss: null });
  });

  test('with a tap lost from a damaged journal, and no database, says so', async () => {
    const { world } = await wovenWorld(12);
    world.indexedDB = emptied();
    const [file] = world.files?.files ?? [];
    const bytes = file?.bytes() ?? new Uint8Array();
    file?.set(bytes.with(Buffer.from(bytes).indexOf('"a-5"'), 7));
    expect(await launch(world)).toMatchObject({
      copies: 'two',
      loss: { was: { events: 12 }, left: { events: 11 } },
    });
  });

  test('where the witness saw another store says nothing of a loss', async () => {
    const { world, all } = await wovenWorld();
    const other = await wovenWorld(40);
    for (const [key, value] of other.world.storage) {
      world.storage.set(key, value.replace('store of', 'another store of'));
    }
    expect(await launch(world)).toEqual({ all, copies: 'two', loss: null });
  });

  test('where the witness saw more than the database has waits for the journal', async () => {
    const world = freshWorld();
    const store = await openWindow(world);
    await store.addWarp(sampleWarp('a'), samplePlan('A'));
    const earlier = await snapshotOf(world.indexedDB);
    for (const event of taps('a', 5)) await store.append(event);
    await closeWindow(world, store);
    world.indexedDB = await restored(earlier);
    const again = await openWindow(world);
    // The first thing asked, not some moments later: the bench would open at an earlier pick.
    expect(await again.eventsOf('a')).toEqual(taps('a', 5));
    await closeWindow(world, again);
  });

  test('beside the journal of a newer app writes nothing and says so', async () => {
    const { world, all } = await wovenWorld();
    const journal: Journal = { ...journalIn(world), open: async () => ({ kind: 'newer' }) };
    const before = world.files?.count();
    const store = await openWindow(world, { journal });
    await settled(store);
    expect(store.state().trouble).toMatchObject({ trouble: 'newer-data' });
    await expect(store.append(tap('a', 99))).rejects.toMatchObject({ trouble: 'newer-data' });
    expect(await allIn(store)).toEqual(all);
    expect(world.files?.count()).toBe(before);
  });

  test('on one copy that was turned back says that something is missing', async () => {
    const world = freshWorld();
    world.files = null;
    const store = await openWindow(world);
    await store.addWarp(sampleWarp('a'), samplePlan('A'));
    const earlier = await snapshotOf(world.indexedDB);
    for (const event of taps('a', 9)) await store.append(event);
    await closeWindow(world, store);
    world.indexedDB = await restored(earlier);
    expect(await launch(world)).toMatchObject({
      copies: 'missing',
      loss: { was: { events: 9 }, left: { events: 0 } },
    });
  });

  test('in a browser without private files works on one copy and says so', async () => {
    const { world, all } = await wovenWorld();
    world.files = null;
    expect(await launch(world)).toEqual({ all, copies: 'missing', loss: null });
  });
});

describe('reading the copies through', () => {
  test('finds what no launch reads, in the middle of the journal, and writes it anew', async () => {
    const { world, all } = await wovenWorld(400);
    const [file] = world.files?.files ?? [];
    const bytes = file?.bytes() ?? new Uint8Array();
    // A tap, and one before the end that every launch reads.
    const at = Buffer.from(bytes).indexOf('"a-5"');
    expect(at).toBeLessThan(bytes.length - 70_000);
    file?.set(bytes.with(at, 7));
    const store = await openWindow(world);
    await settled(store);
    expect(store.state().copies).toBe('two');
    await store.check();
    expect(store.state()).toMatchObject({ copies: 'two', loss: null, trouble: null });
    expect(await allIn(store)).toEqual(all);
    await closeWindow(world, store);
    world.indexedDB = emptied();
    expect(await launch(world)).toEqual({ all, copies: 'two', loss: null });
  });

  test('finds events missing in the database, and brings nothing back that was taken away', async () => {
    const { world, all } = await wovenWorld(12);
    const lacking = new Map(await snapshotOf(world.indexedDB));
    lacking.set('events', (lacking.get('events') ?? []).slice(0, -2));
    world.indexedDB = await restored(lacking);
    const store = await openWindow(world);
    await settled(store);
    expect(await store.eventsOf('a')).toEqual(taps('a', 10));
    await store.check();
    expect(await allIn(store)).toEqual(all);
    await closeWindow(world, store);
    expect(await launch(world)).toEqual({ all, copies: 'two', loss: null });
  });

  test('finds the journal gone while the window was open, and writes it anew', async () => {
    const { world, all } = await wovenWorld();
    const store = await openWindow(world);
    await settled(store);
    for (const file of world.files?.files ?? []) file.set(new Uint8Array());
    await store.check();
    expect(store.state()).toMatchObject({ copies: 'two', loss: null, trouble: null });
    await closeWindow(world, store);
    world.indexedDB = emptied();
    expect(await launch(world)).toEqual({ all, copies: 'two', loss: null });
  });

  test('leaves a journal alone that a newer app has taken over meanwhile', async () => {
    const { world, all } = await wovenWorld();
    const own = journalIn(world);
    let opened = 0;
    const journal: Journal = {
      ...own,
      open: async (ledger) => {
        opened += 1;
        return opened === 1 ? own.open(ledger) : { kind: 'newer' };
      },
      isSound: async () => false,
    };
    const store = await openWindow(world, { journal });
    await settled(store);
    const before = world.files?.count();
    await expect(store.check()).rejects.toMatchObject({ trouble: 'newer-data' });
    expect(world.files?.count()).toBe(before);
    expect(await allIn(store)).toEqual(all);
  });

  test('changes nothing when all is well, and does nothing without the pen', async () => {
    const { world } = await wovenWorld(12);
    const store = await openWindow(world);
    await store.check();
    await settled(store);
    const before = world.files?.count();
    await store.check();
    expect(world.files?.count()).toBe(before);
  });
});

describe('whatever happens between launches', () => {
  type Deed = (store: Store) => Promise<void>;
  const id = fc.constantFrom(...WARPS);
  const n = fc.nat({ max: 3 });
  // As an import brings it: warps with any of their plans, also none and not the first.
  const contents: fc.Arbitrary<Contents> = fc
    .record({
      warps: fc.uniqueArray(
        fc.record({
          warp: fc.record({
            id,
            name: fc.constantFrom('Here', 'There'),
            demo: fc.constant(false),
            madeAt: fc.constantFrom(tap('a', 0).at, tap('a', 1).at),
            wovenAt: fc.constantFrom(null, tap('a', 7).at, tap('a', 40).at),
          }),
          plans: fc.uniqueArray(n, { maxLength: 3 }).map((all) =>
            all.map((i) => {
              const { warp: _, ...plan } = sampleRevision('', i);
              return plan;
            }),
          ),
          log: fc.uniqueArray(fc.nat(30), { maxLength: 5 }),
        }),
        { maxLength: 2, selector: ({ warp }) => warp.id },
      ),
      records: fc.uniqueArray(
        fc.tuple(fc.constantFrom(...RECORD_KINDS), id, n).map(([kind, it, i]) => ({
          ...sampleRecord(kind, it),
          body: { i },
        })),
        { maxLength: 3, selector: ({ kind, id: it }) => `${kind} ${it}` },
      ),
      settings: fc.uniqueArray(
        fc.tuple(fc.constantFrom(...SETTINGS), n).map(([name, value]) => ({ name, value })),
        { maxLength: 2, selector: ({ name }) => name },
      ),
    })
    .map(({ warps, ...rest }) => ({
      ...rest,
      warps: warps.map((it) => ({ ...it, log: it.log.map((i) => tap(it.warp.id, i)) })),
    }));
  const bulk = fc
    .tuple(fc.constantFrom('addContents' as const, 'replaceContents' as const), contents)
    .map(
      ([how, it]): Deed =>
        (s) =>
          s[how](it),
    );
  const deed: fc.Arbitrary<Deed> = fc.oneof(
    {
      weight: 3,
      arbitrary: id.map(
        (it): Deed =>
          (s) =>
            s.addWarp(sampleWarp(it), samplePlan(it)),
      ),
    },
    {
      weight: 6,
      arbitrary: fc.tuple(id, fc.nat(30)).map(
        ([it, i]): Deed =>
          (s) =>
            s.append(tap(it, i)),
      ),
    },
    fc.tuple(id, n).map(
      ([it, i]): Deed =>
        (s) =>
          s.addRevision(sampleRevision(it, i)),
    ),
    fc.array(fc.tuple(id, fc.nat(30)), { maxLength: 5 }).map(
      (all): Deed =>
        (s) =>
          s.appendAll(all.map(([it, i]) => tap(it, i))),
    ),
    id.map(
      (it): Deed =>
        (s) =>
          s.removeWarp(it),
    ),
    fc.tuple(fc.constantFrom(...RECORD_KINDS), id, n).map(
      ([kind, it, i]): Deed =>
        (s) =>
          i === 0
            ? s.removeRecord(kind, it)
            : s.putRecord({ ...sampleRecord(kind, it), body: { i } }),
    ),
    fc.tuple(fc.constantFrom(...SETTINGS), n).map(
      ([name, i]): Deed =>
        (s) =>
          s.setSetting(name, i),
    ),
    { weight: 2, arbitrary: bulk },
  );
  const DISASTERS = [
    'none',
    'database gone',
    'database turned back',
    'journal gone',
    'journal cut',
    'journal changed',
    'journal turned back',
    'witness gone',
  ] as const;
  const day = fc.record({
    deeds: fc.array(deed, { maxLength: 12 }),
    disaster: fc.constantFrom(...DISASTERS),
    chance: fc.nat(),
  });

  test('everything saved is there, nothing comes back that was taken away, and both copies agree', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(day, { minLength: 1, maxLength: 5 }), async (days) => {
        const world = freshWorld();
        const model = createMemoryStore();
        let yesterday: Morning = {
          database: emptied(),
          files: [new Uint8Array(), new Uint8Array()],
        };
        for (const { deeds, disaster, chance } of days) {
          const store = await openWindow(world);
          await settled(store);
          expect(await allIn(store)).toEqual(await allIn(model));
          expect(store.state()).toMatchObject({ copies: 'two', loss: null, trouble: null });
          const morning = {
            database: await restored(await snapshotOf(world.indexedDB)),
            files: filesOf(world),
          };
          for (const one of deeds) expect(await answer(one(store))).toBe(await answer(one(model)));
          await closeWindow(world, store);
          befall(world, disaster, chance, deeds.length > 0 ? morning : yesterday);
          yesterday = morning;
        }
        expect((await launch(world)).all).toEqual(await allIn(model));
      }),
      { numRuns: Number(process.env.FELLMARK_RUNS ?? 150) },
    );
  }, 600_000);

  interface Morning {
    readonly database: IDBFactory;
    readonly files: readonly Uint8Array[];
  }

  function filesOf(world: World): readonly Uint8Array[] {
    return world.files?.files.map((file) => file.bytes()) ?? [];
  }

  function befall(
    world: World,
    disaster: (typeof DISASTERS)[number],
    chance: number,
    { database, files }: Morning,
  ): void {
    const current = world.files?.files.find((file) => file.getSize() > 0);
    const bytes = current?.bytes() ?? new Uint8Array();
    const at = bytes.length === 0 ? 0 : chance % bytes.length;
    switch (disaster) {
      case 'none':
        return;
      case 'database gone':
        world.indexedDB = emptied();
        return;
      case 'database turned back':
        world.indexedDB = database;
        return;
      case 'journal gone':
        world.files = fakeFiles();
        return;
      case 'journal cut':
        current?.set(bytes.slice(0, at));
        return;
      case 'journal changed':
        current?.set(bytes.with(at, (bytes[at] ?? 0) ^ 1));
        return;
      case 'journal turned back':
        world.files?.files.forEach((file, i) => {
          file.set(files[i] ?? new Uint8Array());
        });
        return;
      case 'witness gone':
        world.storage.clear();
    }
  }
});

function answer(deed: Promise<void>): Promise<string> {
  return deed.then(
    () => 'done',
    (error: unknown) => String(error),
  );
}
