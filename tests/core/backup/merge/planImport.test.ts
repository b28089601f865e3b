import { describe, expect, it } from 'vitest';
import type { Contents, RecordCopy, WarpContents } from '../../../../src/core/backup/contents.ts';
import { planImport } from '../../../../src/core/backup/merge/planImport.ts';
import type { LogEvent } from '../../../../src/core/bench/events.ts';
import { progressOf } from '../../../../src/core/bench/progress.ts';
import { createMemoryStore } from '../../../../src/store/memory.ts';
import { BASE } from '../../plan/samples.ts';
import { LONG_PLAN, picksOf, stateOf, timeAt, warpOf } from '../states.ts';

/** What is here after `there` was brought in, as the store has it. */
async function broughtInto(here: Contents, there: Contents): Promise<Contents> {
  const store = createMemoryStore();
  await store.addContents(here);
  await store.addContents(planImport(here, there).additions);
  return store.contents();
}

/** Each warp with its picks in the cloth. */
function picksIn({ warps }: Contents): { readonly [id: string]: number } {
  return Object.fromEntries(
    warps.map(({ warp, log }) => [warp.id, progressOf(LONG_PLAN, log).pick]),
  );
}

const kindsOf = (here: Contents, there: Contents) =>
  planImport(here, there).warps.map(({ kind }) => kind);

const common = picksOf('c', 100);
const mine = picksOf('m', 20, common);
const theirs = picksOf('t', 30, common);

describe('two copies of a warp of 100 picks', () => {
  it('woven on by 20 here and by 30 there are 120 and 130, never 150', async () => {
    const after = await broughtInto(stateOf([warpOf('w', mine)]), stateOf([warpOf('w', theirs)]));
    expect(picksIn(after)).toEqual({ w: 120, 'w-t0': 130 });
    expect(after.warps[0]).toEqual(warpOf('w', mine));
  });

  it('lie side by side with the common past in both, and say where they part', async () => {
    const after = await broughtInto(stateOf([warpOf('w', mine)]), stateOf([warpOf('w', theirs)]));
    const branch = after.warps[1];
    expect(branch?.warp).toEqual({
      ...warpOf('w', theirs).warp,
      id: 'w-t0',
      branchOf: { warp: 'w', from: 't0' },
    });
    expect(branch?.log).toEqual(theirs.map((event) => ({ ...event, warp: 'w-t0' })));
    expect(branch?.plans).toEqual(warpOf('w', theirs).plans);
  });

  it('the same both ways round, but for which of them keeps the id', async () => {
    const after = await broughtInto(stateOf([warpOf('w', theirs)]), stateOf([warpOf('w', mine)]));
    expect(picksIn(after)).toEqual({ w: 130, 'w-m0': 120 });
  });

  it('woven on only there is 130: it goes on', async () => {
    const [here, there] = [stateOf([warpOf('w', common)]), stateOf([warpOf('w', theirs)])];
    expect(kindsOf(here, there)).toEqual(['continued']);
    const after = await broughtInto(here, there);
    expect(after.warps).toEqual(there.warps);
  });

  it('woven on only here stays 120: what comes in is older', async () => {
    const [here, there] = [stateOf([warpOf('w', mine)]), stateOf([warpOf('w', common)])];
    expect(kindsOf(here, there)).toEqual(['older']);
    expect(await broughtInto(here, there)).toEqual(here);
  });

  it('woven on by nobody are one', async () => {
    const state = stateOf([warpOf('w', common)]);
    expect(kindsOf(state, state)).toEqual(['same']);
    expect(await broughtInto(state, state)).toEqual(state);
  });

  it('are branches too when what was done there is only an undo', async () => {
    const undone: LogEvent = {
      id: 'u',
      warp: 'w',
      after: 'c99',
      at: timeAt(200),
      kind: 'undone',
      event: 'c99',
    };
    const after = await broughtInto(
      stateOf([warpOf('w', mine)]),
      stateOf([warpOf('w', [...common, undone])]),
    );
    expect(picksIn(after)).toEqual({ w: 120, 'w-u': 99 });
  });

  it('begun at the first pick in both places share nothing and are branches all the same', async () => {
    const after = await broughtInto(
      stateOf([warpOf('w', picksOf('m', 3))]),
      stateOf([warpOf('w', picksOf('t', 5))]),
    );
    expect(picksIn(after)).toEqual({ w: 3, 'w-t0': 5 });
  });

  it('of which one was never woven on is continued', async () => {
    const after = await broughtInto(stateOf([warpOf('w', [])]), stateOf([warpOf('w', theirs)]));
    expect(picksIn(after)).toEqual({ w: 130 });
  });
});

describe('wrong on purpose', () => {
  it('a merge that lays one log behind the other makes 150, and would be seen', () => {
    const ours = new Set(mine.map(({ id }) => id));
    const summed = [...mine, ...theirs.filter(({ id }) => !ours.has(id))];
    expect(picksIn(stateOf([warpOf('w', summed)]))).toEqual({ w: 150 });
  });
});

describe('branches that travel on', () => {
  const here = () => broughtInto(stateOf([warpOf('w', mine)]), stateOf([warpOf('w', theirs)]));

  it('brought in again, each from its own device, are known', async () => {
    const before = await here();
    for (const there of [mine, theirs]) {
      expect(kindsOf(before, stateOf([warpOf('w', there)]))).toEqual(['same']);
    }
    const other = await broughtInto(stateOf([warpOf('w', theirs)]), stateOf([warpOf('w', mine)]));
    expect(kindsOf(before, other)).toEqual(['same', 'same']);
    expect(await broughtInto(before, other)).toEqual(before);
  });

  it('a branch woven on over there goes on here, under the id it has here', async () => {
    const later = picksOf('l', 7, theirs);
    const after = await broughtInto(await here(), stateOf([warpOf('w', later)]));
    expect(picksIn(after)).toEqual({ w: 120, 'w-t0': 137 });
  });

  it('a branch that parts once more is a third warp of the same family', async () => {
    const again = picksOf('l', 7, theirs.slice(0, 110));
    const after = await broughtInto(await here(), stateOf([warpOf('w', again)]));
    expect(picksIn(after)).toEqual({ w: 120, 'w-l0': 117, 'w-t0': 130 });
    expect(after.warps[1]?.warp.branchOf).toEqual({ warp: 'w', from: 'l0' });
  });

  it('after the one here was given up, what comes back is put beside the other under its own id', async () => {
    const [, kept] = (await here()).warps;
    const after = await broughtInto(
      stateOf(kept === undefined ? [] : [kept]),
      stateOf([warpOf('w', mine)]),
    );
    expect(picksIn(after)).toEqual({ w: 120, 'w-t0': 130 });
    expect(after.warps[0]?.warp.branchOf).toEqual({ warp: 'w', from: 'm0' });
  });
});

describe('a warp that is not here', () => {
  it('is new, whole and unchanged', async () => {
    const there = stateOf([warpOf('v', theirs, { head: { demo: true } }), warpOf('w', mine)]);
    expect(kindsOf(stateOf([]), there)).toEqual(['new', 'new']);
    expect(await broughtInto(stateOf([]), there)).toEqual(there);
  });

  it('of which there are two branches comes with both as they are, settled or not', async () => {
    const settled = { branchOf: { warp: 'w', from: 't0', settled: true as const } };
    const there = stateOf([
      warpOf('w', common),
      warpOf('w-l0', picksOf('l', 3, common), { head: { branchOf: { warp: 'w', from: 'l0' } } }),
      warpOf('w-t0', theirs, { head: settled }),
    ]);
    expect(await broughtInto(stateOf([]), there)).toEqual(there);
  });

  it('opened from the same plan is a warp of its own', async () => {
    const here = stateOf([warpOf('w', mine)]);
    const after = await broughtInto(here, stateOf([warpOf('v', picksOf('v', 4))]));
    expect(picksIn(after)).toEqual({ v: 4, w: 120 });
  });
});

describe('plans that changed', () => {
  const plan = (revision: number, name: string) => ({
    revision,
    madeAt: timeAt(revision),
    plan: { ...BASE, name },
  });
  const first = plan(0, 'first');
  const bothWays = (here: WarpContents, there: WarpContents) =>
    kindsOf(stateOf([here]), stateOf([there]));

  it.each([
    ['one revision more there', [first], [first, plan(1, 'a')], 'continued'],
    ['one revision more here', [first, plan(1, 'a')], [first], 'older'],
    ['another revision in each place', [first, plan(1, 'a')], [first, plan(1, 'b')], 'branch'],
    ['revisions no copy of each other', [plan(0, 'x')], [first], 'branch'],
    ['the same revisions', [first, plan(1, 'a')], [first, plan(1, 'a')], 'same'],
  ] as const)('%s', (_what, here, there, kind) => {
    expect(
      bothWays(warpOf('w', common, { plans: here }), warpOf('w', common, { plans: there })),
    ).toEqual([kind]);
  });

  it('a plan changed here and picks woven there are branches: neither was made with the other', () => {
    const changed = warpOf('w', common, { plans: [first, plan(1, 'a')] });
    const woven = warpOf('w', theirs, { plans: [first] });
    expect(bothWays(changed, woven)).toEqual(['branch']);
    expect(bothWays(woven, changed)).toEqual(['branch']);
  });

  it('changed and woven on there, it goes on with both', async () => {
    const there = warpOf('w', theirs, { plans: [first, plan(1, 'a')] });
    const after = await broughtInto(
      stateOf([warpOf('w', common, { plans: [first] })]),
      stateOf([there]),
    );
    expect(after.warps).toEqual([there]);
  });

  it('parted by plans alone, they are known when they come in again', async () => {
    const here = stateOf([warpOf('w', common, { plans: [first, plan(1, 'a')] })]);
    const there = stateOf([warpOf('w', common, { plans: [first, plan(1, 'b')] })]);
    const after = await broughtInto(here, there);
    expect(after.warps).toHaveLength(2);
    expect(await broughtInto(after, there)).toEqual(after);
  });
});

describe('demo warps', () => {
  const demo = warpOf('w', theirs, { head: { demo: true, name: 'Demo' } });
  const own = warpOf('w', mine);

  it('never touch a warp of the weaver’s own, even under its id', async () => {
    const after = await broughtInto(stateOf([own]), stateOf([demo]));
    expect(after.warps[0]).toEqual(own);
    expect(after.warps[1]).toMatchObject({ warp: { id: 'w-demo', demo: true } });
    expect(picksIn(after)).toEqual({ w: 120, 'w-demo': 130 });
    expect(await broughtInto(after, stateOf([demo]))).toEqual(after);
  });

  it('nor does a warp of one’s own touch a demo', async () => {
    const after = await broughtInto(stateOf([demo]), stateOf([own]));
    expect(after.warps[0]).toEqual(demo);
    expect(after.warps[1]).toMatchObject({ warp: { id: 'w-own', demo: false } });
  });

  it('stay marked as demos', async () => {
    const after = await broughtInto(stateOf([]), stateOf([demo]));
    expect(after.warps).toEqual([demo]);
  });
});

describe('records', () => {
  const yarn = (minutes: number, name: string): RecordCopy => ({
    kind: 'yarn',
    id: 'y',
    changedAt: timeAt(minutes),
    body: { name },
  });
  const having = (...records: readonly RecordCopy[]) => stateOf([], { records });
  const outcome = async (here: RecordCopy, there: RecordCopy) => ({
    kind: planImport(having(here), having(there))
      .records.map(({ kind }) => kind)
      .join(),
    kept: (await broughtInto(having(here), having(there))).records,
  });

  it('changed last wins, whichever way round', async () => {
    const [old, young] = [yarn(1, 'old'), yarn(2, 'young')];
    expect(await outcome(old, young)).toEqual({ kind: 'newer', kept: [young] });
    expect(await outcome(young, old)).toEqual({ kind: 'older', kept: [young] });
    expect(await outcome(young, young)).toEqual({ kind: 'same', kept: [young] });
  });

  it('a time is a time, however it is written', async () => {
    const noon = { ...yarn(0, 'later'), changedAt: '2026-03-01T12:00:00+02:00' };
    expect((await outcome(yarn(59, 'earlier'), noon)).kind).toBe('newer');
    expect((await outcome(yarn(61, 'last'), noon)).kind).toBe('older');
  });

  it('changed in the same millisecond, the same one stays on both devices', async () => {
    const [a, b] = [yarn(1, 'a'), yarn(1, 'b')];
    expect((await outcome(a, b)).kept).toEqual((await outcome(b, a)).kept);
  });

  it('of two kinds with one id are two', async () => {
    const heddle = { ...yarn(1, 'h'), kind: 'heddle' };
    const after = await broughtInto(having(yarn(1, 'y')), having(heddle));
    expect(after.records).toHaveLength(2);
  });
});

it('a setting is taken only where this device has none', async () => {
  const here = stateOf([], { settings: [{ name: 'settings', value: 'mine' }] });
  const there = stateOf([], {
    settings: [
      { name: 'settings', value: 'theirs' },
      { name: 'exported', value: 'theirs' },
    ],
  });
  expect((await broughtInto(here, there)).settings).toEqual([
    { name: 'exported', value: 'theirs' },
    { name: 'settings', value: 'mine' },
  ]);
});

it('ids as long as a file may have them do not grow beyond what can be read back', async () => {
  const long = 'w'.repeat(120);
  const parted = picksOf('t'.repeat(100), 5, common);
  const after = await broughtInto(stateOf([warpOf(long, mine)]), stateOf([warpOf(long, parted)]));
  expect(after.warps.map(({ warp }) => warp.id.length <= 120)).toEqual([true, true]);
  expect(await broughtInto(after, stateOf([warpOf(long, parted)]))).toEqual(after);
});
