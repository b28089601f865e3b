/** What every store keeps to, wherever it keeps things. */
import { signal } from '@preact/signals';
import { beforeEach, describe, expect, test } from 'vitest';
import { type Contents, NOTHING } from '../../src/core/backup/contents.ts';
import type { Plan } from '../../src/core/plan/plan.ts';
import { RECORD_KINDS, type Store } from '../../src/store/store.ts';
import { samplePlan, sampleRecord, sampleRevision, sampleWarp, tap, taps } from './samples.ts';

export function describeStore(house: string, openFresh: () => Promise<Store>): void {
  let store: Store;
  beforeEach(async () => {
    store = await openFresh();
  });
  describe(`${house}: warps and plans`, () => warpsAndPlans(() => store));
  describe(`${house}: the log`, () => theLog(() => store));
  describe(`${house}: many events at once`, () => manyEvents(() => store));
  describe(`${house}: records`, () => records(() => store));
  describe(`${house}: everything at one go`, () => everything(() => store));
  describe(`${house}: removing`, () => removing(() => store));
  describe(`${house}: settings and data`, () => settingsAndData(() => store));
}

function warpsAndPlans(store: () => Store): void {
  test('a new store has no warps', async () => {
    expect(await store().warps()).toEqual([]);
  });

  test('warps are listed by id, each with its first plan as revision 0', async () => {
    await store().addWarp(sampleWarp('b'), samplePlan('B'));
    await store().addWarp(sampleWarp('a'), samplePlan('A'));
    expect(await store().warps()).toEqual([sampleWarp('a'), sampleWarp('b')]);
    expect(await store().revisionsOf('a')).toEqual([
      { warp: 'a', revision: 0, madeAt: sampleWarp('a').madeAt, plan: samplePlan('A') },
    ]);
  });

  test('an id that is there rejects, and neither the warp nor its plan changes', async () => {
    await store().addWarp(sampleWarp('a'), samplePlan('first'));
    const again = { ...sampleWarp('a'), name: 'Another' };
    await expect(store().addWarp(again, samplePlan('second'))).rejects.toMatchObject({
      name: 'StoreError',
      trouble: 'unknown',
      message: expect.stringContaining('warp a'),
    });
    expect(await store().warps()).toEqual([sampleWarp('a')]);
    expect(await store().revisionsOf('a')).toMatchObject([{ plan: samplePlan('first') }]);
  });

  test('the very same warp twice rejects the second time', async () => {
    await store().addWarp(sampleWarp('a'), samplePlan('A'));
    await expect(store().addWarp(sampleWarp('a'), samplePlan('A'))).rejects.toThrow('second time');
  });

  test('a warp whose plan cannot be kept is not kept either', async () => {
    const unkeepable: unknown = { ...samplePlan('A'), notes: () => 'never' };
    await expect(store().addWarp(sampleWarp('a'), unkeepable as Plan)).rejects.toThrow(
      'got function at plan.notes',
    );
    expect(await store().warps()).toEqual([]);
    expect(await store().revisionsOf('a')).toEqual([]);
  });

  test('revisions come in the order of their numbers, whatever order they were added in', async () => {
    await store().addWarp(sampleWarp('a'), samplePlan('Plan 0'));
    for (const number of [10, 2, 1]) await store().addRevision(sampleRevision('a', number));
    const revisions = await store().revisionsOf('a');
    expect(revisions.map(({ revision }) => revision)).toEqual([0, 1, 2, 10]);
    expect(revisions[3]).toEqual(sampleRevision('a', 10));
  });

  test('a plan is never overwritten', async () => {
    await store().addWarp(sampleWarp('a'), samplePlan('first'));
    await expect(store().addRevision(sampleRevision('a', 0))).rejects.toThrow('second time');
    expect(await store().revisionsOf('a')).toMatchObject([{ plan: samplePlan('first') }]);
  });

  test('a plan for a warp that is not there is refused', async () => {
    await expect(store().addRevision(sampleRevision('a', 1))).rejects.toThrow('got warp a');
    expect(await store().revisionsOf('a')).toEqual([]);
  });
}

function theLog(store: () => Store): void {
  beforeEach(async () => {
    await store().addWarp(sampleWarp('a'), samplePlan('A'));
    await store().addWarp(sampleWarp('ab'), samplePlan('AB'));
  });

  test('events come as they were given, in the order they were appended', async () => {
    const given = [tap('a', 2), tap('a', 0), { ...tap('a', 1), kind: 'undone', event: 'a-0' }];
    for (const event of given) await store().append(event as ReturnType<typeof tap>);
    expect(await store().eventsOf('a')).toEqual(given);
  });

  test('1,000 appends that nobody waits for between are all there, in order, once', async () => {
    const given = taps('a', 1000);
    await Promise.all(given.map((event) => store().append(event)));
    expect(await store().eventsOf('a')).toEqual(given);
  });

  test('a part of the log is what of it is asked for', async () => {
    const given = taps('a', 12);
    await store().appendAll(given);
    await store().append(tap('ab', 0));
    expect(await store().eventsOf('a', 9)).toEqual(given.slice(9));
    expect(await store().eventsOf('a', 0, 3)).toEqual(given.slice(0, 3));
    expect(await store().eventsOf('a', 10, 50)).toEqual(given.slice(10));
    expect(await store().eventsOf('a', 12)).toEqual([]);
    expect(await store().eventsOf('nobody', 0)).toEqual([]);
  });

  test('each warp has its own log, also where one id begins like another', async () => {
    await Promise.all([...taps('a', 3), ...taps('ab', 2)].map((event) => store().append(event)));
    expect(await store().eventsOf('a')).toEqual(taps('a', 3));
    expect(await store().eventsOf('ab')).toEqual(taps('ab', 2));
    expect(await store().eventsOf('b')).toEqual([]);
  });

  test('appending marks the warp as woven at the time of the event', async () => {
    await store().append(tap('a', 7));
    expect(await store().warps()).toEqual([
      { ...sampleWarp('a'), wovenAt: tap('a', 7).at },
      sampleWarp('ab'),
    ]);
  });

  test('the same event again changes nothing', async () => {
    for (const event of taps('a', 3)) await store().append(event);
    const before = await store().warps();
    await Promise.all([store().append(tap('a', 0)), store().append(tap('a', 0))]);
    expect(await store().eventsOf('a')).toEqual(taps('a', 3));
    expect(await store().warps()).toEqual(before);
  });

  test('a branch holds the same event under another warp, once in each', async () => {
    const branched = { ...tap('a', 0), warp: 'ab' };
    for (const event of [tap('a', 0), branched, tap('a', 0), branched]) await store().append(event);
    expect(await store().eventsOf('a')).toEqual([tap('a', 0)]);
    expect(await store().eventsOf('ab')).toEqual([branched]);
  });

  test('an event from before the last one does not turn the time of weaving back', async () => {
    for (const event of [tap('a', 7), tap('a', 3)]) await store().append(event);
    expect(await store().warps()).toContainEqual({ ...sampleWarp('a'), wovenAt: tap('a', 7).at });
  });

  test('an event for a warp that is not there is refused', async () => {
    await expect(store().append(tap('b', 0))).rejects.toMatchObject({
      name: 'StoreError',
      message: expect.stringContaining('got warp b'),
    });
    expect(await store().eventsOf('b')).toEqual([]);
    expect(await store().warps()).toHaveLength(2);
  });

  test('a failed append does not stop those behind it', async () => {
    const outcomes = await Promise.allSettled(
      [tap('a', 0), tap('b', 0), tap('a', 1)].map((event) => store().append(event)),
    );
    expect(outcomes.map(({ status }) => status)).toEqual(['fulfilled', 'rejected', 'fulfilled']);
    expect(await store().eventsOf('a')).toEqual(taps('a', 2));
  });

  test('what is asked for first is done first, whatever it is', async () => {
    await Promise.all([
      store().addWarp(sampleWarp('c'), samplePlan('C')),
      store().append(tap('c', 0)),
      store().addRevision(sampleRevision('c', 1)),
    ]);
    expect(await store().eventsOf('c')).toEqual([tap('c', 0)]);
    expect(await store().revisionsOf('c')).toHaveLength(2);
  });
}

function manyEvents(store: () => Store): void {
  beforeEach(async () => {
    for (const id of ['a', 'ab']) await store().addWarp(sampleWarp(id), samplePlan(id));
  });

  test('of several warps come to each in the order given, and mark each as woven', async () => {
    const [first, second, third] = [tap('a', 0), tap('a', 1), tap('a', 2)];
    const other = taps('ab', 2);
    await store().appendAll([second, ...other, third, first]);
    expect(await store().eventsOf('a')).toEqual([second, third, first]);
    expect(await store().eventsOf('ab')).toEqual(other);
    expect((await store().warps()).map(({ wovenAt }) => wovenAt)).toEqual([
      third.at,
      tap('ab', 1).at,
    ]);
  });

  test('those that are there already, or come twice, are left out', async () => {
    await store().append(tap('a', 1));
    await store().appendAll([tap('a', 0), tap('a', 1), tap('a', 0), tap('a', 2)]);
    await store().appendAll(taps('a', 3));
    expect(await store().eventsOf('a')).toEqual([tap('a', 1), tap('a', 0), tap('a', 2)]);
  });

  test('all or none: one for a warp that is not there, and nothing is kept', async () => {
    const before = await store().warps();
    const given = [...taps('a', 3), tap('b', 0), ...taps('ab', 2)];
    await expect(store().appendAll(given)).rejects.toMatchObject({
      name: 'StoreError',
      message: expect.stringContaining('got warp b'),
    });
    expect(await store().eventsOf('a')).toEqual([]);
    expect(await store().eventsOf('ab')).toEqual([]);
    expect(await store().warps()).toEqual(before);
  });

  test('none at all changes nothing', async () => {
    await store().appendAll([]);
    expect(await store().warps()).toEqual([sampleWarp('a'), sampleWarp('ab')]);
  });

  test('taps go on behind them', async () => {
    await Promise.all([store().appendAll(taps('a', 100)), store().append(tap('a', 100))]);
    expect(await store().eventsOf('a')).toEqual(taps('a', 101));
  });
}

function records(store: () => Store): void {
  test.each(RECORD_KINDS)('a %s is kept as it was given, and found by its id', async (kind) => {
    const record = sampleRecord(kind, 'one');
    await store().putRecord(record);
    expect(await store().record(kind, 'one')).toEqual(record);
    expect(await store().record(kind, 'two')).toBeUndefined();
  });

  test('are listed by id, each kind apart, also where two kinds share an id', async () => {
    for (const id of ['b', 'a', 'ab']) await store().putRecord(sampleRecord('yarn', id));
    await store().putRecord(sampleRecord('heddle', 'a'));
    const yarns = ['a', 'ab', 'b'].map((id) => sampleRecord('yarn', id));
    expect(await store().records('yarn')).toEqual(yarns);
    expect(await store().records('heddle')).toEqual([sampleRecord('heddle', 'a')]);
    expect(await store().records('draft')).toEqual([]);
  });

  test('the last one put stands, and no other changes', async () => {
    for (const id of ['a', 'b']) await store().putRecord(sampleRecord('yarn', id));
    const changed = { ...sampleRecord('yarn', 'a'), body: { name: 'Other', weighed: [] } };
    await store().putRecord(changed);
    expect(await store().records('yarn')).toEqual([changed, sampleRecord('yarn', 'b')]);
  });

  test('one that is taken away is gone, and no other; again changes nothing', async () => {
    for (const id of ['a', 'b']) await store().putRecord(sampleRecord('yarn', id));
    await store().putRecord(sampleRecord('draft', 'a'));
    for (const _ of ['once', 'again']) await store().removeRecord('yarn', 'a');
    expect(await store().records('yarn')).toEqual([sampleRecord('yarn', 'b')]);
    expect(await store().records('draft')).toHaveLength(1);
  });

  test('are kept as they were at the call, and reading gives a copy', async () => {
    const body = { name: 'Moss' };
    const writing = store().putRecord({ ...sampleRecord('yarn', 'a'), body });
    body.name = 'changed after';
    await writing;
    const read = await store().record('yarn', 'a');
    Object.assign(read?.body as object, { name: 'changed when read' });
    expect(await store().record('yarn', 'a')).toMatchObject({ body: { name: 'Moss' } });
  });

  test('what is no plain data is refused with its place, and the old one stays', async () => {
    await store().putRecord(sampleRecord('yarn', 'a'));
    const unkeepable = { ...sampleRecord('yarn', 'a'), body: { colour: signal('#ffffff') } };
    await expect(store().putRecord(unkeepable)).rejects.toThrow(
      'got an instance of a class at record.body.colour',
    );
    expect(await store().record('yarn', 'a')).toEqual(sampleRecord('yarn', 'a'));
  });
}

function everything(store: () => Store): void {
  const head = { ...sampleWarp('a'), wovenAt: tap('a', 2).at };
  const planOf = (n: number) => {
    const { warp, ...plan } = sampleRevision('a', n);
    return plan;
  };
  const branch: Contents['warps'][number] = {
    warp: { ...sampleWarp('a-b'), branchOf: { warp: 'a', from: 'a-2' } },
    plans: [planOf(0)],
    log: taps('a', 2).map((event) => ({ ...event, warp: 'a-b' })),
  };
  const all: Contents = {
    warps: [{ warp: head, plans: [planOf(0), planOf(2)], log: taps('a', 3) }, branch],
    records: [sampleRecord('draft', 'a'), sampleRecord('yarn', 'a'), sampleRecord('yarn', 'b')],
    settings: [
      { name: 'hand', value: 'left' },
      { name: 'theme', value: { dark: true } },
    ],
  };

  test('a new store holds nothing', async () => {
    expect(await store().contents()).toEqual(NOTHING);
  });

  test('what is added to nothing reads back as it was given, and as each reader has it', async () => {
    await store().addContents(all);
    expect(await store().contents()).toEqual(all);
    expect(await store().warps()).toEqual([head, branch.warp]);
    expect(await store().revisionsOf('a')).toEqual([
      sampleRevision('a', 0),
      sampleRevision('a', 2),
    ]);
    expect(await store().eventsOf('a-b')).toEqual(branch.log);
    expect(await store().records('yarn')).toEqual(all.records.slice(1));
    expect(await store().setting('hand')).toBe('left');
  });

  test('it reads as one value what was kept one by one', async () => {
    await store().addWarp(sampleWarp('a'), samplePlan('Plan 0'));
    await store().addRevision(sampleRevision('a', 2));
    await store().appendAll(taps('a', 3));
    for (const id of ['b', 'a']) await store().putRecord(sampleRecord('yarn', id));
    await store().setSetting('hand', 'left');
    expect(await store().contents()).toEqual({
      warps: all.warps.slice(0, 1),
      records: all.records.slice(1),
      settings: all.settings.slice(0, 1),
    });
  });

  test('adding takes nothing away, and adding it again changes nothing', async () => {
    await store().addContents(all);
    await store().append({ ...tap('a', 7), after: 'a-2' });
    await store().putRecord(sampleRecord('heddle', 'h'));
    const before = await store().contents();
    await store().addContents({ ...all, warps: [] });
    expect(await store().contents()).toEqual(before);
    await store().addContents({ ...NOTHING, warps: all.warps });
    expect((await store().eventsOf('a')).map(({ id }) => id)).toEqual(['a-0', 'a-1', 'a-2', 'a-7']);
  });

  test('a warp that is there takes the new head and what it has not, behind what it has', async () => {
    await store().addWarp(sampleWarp('a'), samplePlan('Plan 0'));
    await store().append(tap('a', 1));
    const other = { ...planOf(0), plan: samplePlan('other') };
    const warp = { ...head, name: 'Renamed' };
    await store().addContents({
      ...NOTHING,
      warps: [{ warp, plans: [other, planOf(1)], log: taps('a', 3) }],
    });
    expect(await store().warps()).toEqual([warp]);
    expect(await store().revisionsOf('a')).toEqual([
      sampleRevision('a', 0),
      sampleRevision('a', 1),
    ]);
    expect(await store().eventsOf('a')).toEqual([tap('a', 1), tap('a', 0), tap('a', 2)]);
  });

  test('records and settings take the place of those there', async () => {
    await store().addContents(all);
    const changed = { ...sampleRecord('yarn', 'a'), body: 'other' };
    await store().addContents({
      ...NOTHING,
      records: [changed],
      settings: [{ name: 'hand', value: null }],
    });
    expect(await store().record('yarn', 'a')).toEqual(changed);
    expect(await store().records('yarn')).toHaveLength(2);
    expect(await store().setting('hand')).toBeNull();
  });

  test('a kind of record this version does not know is kept with the rest', async () => {
    const unknown = { ...sampleRecord('yarn', 'x'), kind: 'zither' };
    await store().addContents({ ...NOTHING, records: [unknown] });
    expect((await store().contents()).records).toEqual([unknown]);
  });

  test('replacing leaves what is given and nothing else', async () => {
    await store().addContents(all);
    const next = { ...NOTHING, warps: [branch], settings: [{ name: 'hand', value: 'right' }] };
    await store().replaceContents(next);
    expect(await store().contents()).toEqual(next);
    expect(await store().eventsOf('a')).toEqual([]);
    await store().replaceContents(all);
    expect(await store().contents()).toEqual(all);
  });

  test('what is no plain data is refused whole, and nothing is changed', async () => {
    await store().addContents(all);
    const bad = { ...NOTHING, settings: [{ name: 'hand', value: () => 1 }] };
    for (const write of [store().addContents, store().replaceContents]) {
      await expect(write({ ...bad, warps: [branch] })).rejects.toThrow(
        'got function at contents.settings[0].value',
      );
    }
    expect(await store().contents()).toEqual(all);
  });

  test('taps go on behind it, in order', async () => {
    await Promise.all([store().replaceContents(all), store().append(tap('a', 3))]);
    expect(await store().eventsOf('a')).toEqual(taps('a', 4));
  });
}

function removing(store: () => Store): void {
  beforeEach(async () => {
    for (const id of ['a', 'ab']) {
      await store().addWarp(sampleWarp(id), samplePlan(id));
      await store().addRevision(sampleRevision(id, 1));
      for (const event of taps(id, 3)) await store().append(event);
    }
  });

  test('takes the warp, its plans and its log, and nothing of another', async () => {
    const kept = (await store().warps()).filter(({ id }) => id === 'ab');
    await store().removeWarp('a');
    expect(await store().warps()).toEqual(kept);
    expect(await store().revisionsOf('a')).toEqual([]);
    expect(await store().eventsOf('a')).toEqual([]);
    expect(await store().revisionsOf('ab')).toHaveLength(2);
    expect(await store().eventsOf('ab')).toEqual(taps('ab', 3));
  });

  test('of a warp that is not there changes nothing', async () => {
    await store().removeWarp('b');
    expect(await store().warps()).toHaveLength(2);
  });

  test('leaves no trace: the same warp can be added and woven anew', async () => {
    await store().removeWarp('a');
    await store().addWarp(sampleWarp('a'), samplePlan('anew'));
    await store().append(tap('a', 0));
    expect(await store().eventsOf('a')).toEqual([tap('a', 0)]);
    expect(await store().revisionsOf('a')).toHaveLength(1);
  });
}

function settingsAndData(store: () => Store): void {
  test('a setting is undefined until it is set, and then what was set last', async () => {
    expect(await store().setting('hand')).toBeUndefined();
    await store().setSetting('hand', 'left');
    await store().setSetting('hand', { side: 'right', sizes: [1, null] });
    await store().setSetting('theme', false);
    expect(await store().setting('hand')).toEqual({ side: 'right', sizes: [1, null] });
    expect(await store().setting('theme')).toBe(false);
  });

  test('what is changed after the call is kept as it was at the call', async () => {
    const value = { size: 1 };
    const writing = store().setSetting('text', value);
    value.size = 2;
    await writing;
    expect(await store().setting('text')).toEqual({ size: 1 });
  });

  test('what was read can be changed without changing what is kept', async () => {
    await store().setSetting('text', { size: 1 });
    Object.assign((await store().setting('text')) as object, { size: 2 });
    expect(await store().setting('text')).toEqual({ size: 1 });
  });

  test.each([
    ['a signal', signal(1), 'got an instance'],
    ['a date', new Date(0), 'got an instance'],
    ['a function', () => 1, 'got function'],
    ['not a number', Number.NaN, 'got NaN'],
  ])('%s inside a record is refused, with its place', async (_what, value, got) => {
    const refusal = expect(store().setSetting('text', { sizes: [1, value] })).rejects;
    await refusal.toMatchObject({
      name: 'StoreError',
      message: expect.stringMatching(new RegExp(`^${got}.* at text\\.sizes\\[1\\]`)),
    });
    expect(await store().setting('text')).toBeUndefined();
  });

  test('after close every call rejects', async () => {
    store().close();
    const closed = { name: 'StoreError', trouble: 'lost-connection' };
    await expect(store().warps()).rejects.toMatchObject(closed);
    await expect(store().append(tap('a', 0))).rejects.toMatchObject(closed);
    await expect(store().appendAll(taps('a', 2))).rejects.toMatchObject(closed);
    await expect(store().setSetting('hand', 'left')).rejects.toMatchObject(closed);
    await expect(store().records('yarn')).rejects.toMatchObject(closed);
    await expect(store().putRecord(sampleRecord('yarn', 'a'))).rejects.toMatchObject(closed);
    await expect(store().removeRecord('yarn', 'a')).rejects.toMatchObject(closed);
    await expect(store().contents()).rejects.toMatchObject(closed);
    await expect(store().addContents(NOTHING)).rejects.toMatchObject(closed);
    await expect(store().replaceContents(NOTHING)).rejects.toMatchObject(closed);
  });
}
