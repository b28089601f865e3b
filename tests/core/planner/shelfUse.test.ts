import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Happening, LogEvent } from '../../../src/core/bench/events.ts';
import type { Plan } from '../../../src/core/plan/plan.ts';
import type { ShelfYarn, YarnAccount } from '../../../src/core/plan/shelf.ts';
import { sheetOf } from '../../../src/core/planner/sheet.ts';
import { type ShelfWarp, takesFromShelf, useOfYarns } from '../../../src/core/planner/shelfUse.ts';
import { alternation, planOf, planWeaving, solid } from '../plan/samples.ts';

/** The nth minute of a day. */
const minute = (n: number) => new Date(Date.UTC(2025, 2, 1, 0, n)).toISOString();

const cone = (id: string, grams: number | null, at = 0): ShelfYarn => ({
  id,
  name: id,
  colour: '#5d7043',
  count: { system: 'tex', number: 100, plies: 1 },
  weighed: grams === null ? [] : [{ at: minute(at), grams }],
});

/** A plan whose yarns lie on the shelf under these ids, in the order of its letters; '' lies nowhere. */
function onShelf(plan: Plan, ...ids: readonly string[]): Plan {
  const named = plan.yarns.map((yarn, n) => (ids[n] ? { ...yarn, shelf: ids[n] } : yarn));
  return { ...plan, yarns: named };
}

/** One event a minute, from minute 1 on. */
function warpOf(plan: Plan, ...happenings: readonly Happening[]): ShelfWarp {
  const log = happenings.map((happening, n): LogEvent => {
    const after = n === 0 ? null : `e${n - 1}`;
    return { id: `e${n}`, warp: 'w', after, at: minute(n + 1), ...happening };
  });
  return { id: 'w', name: 'Towels', plan, log };
}

const thrown = (picks: number): Happening => ({ kind: 'thrown', picks });

/** A in the warp and half of the weft, B in the other half: 20 picks of each. */
const TOWEL = planWeaving('AB', [solid('A', 20), solid('B', 20)]);
const PLAN = onShelf(TOWEL, 'moss', 'chalk');
const [A, B] = sheetOf(PLAN).yarns.map((need) => ({
  warp: need.warp.grams,
  weft: need.weft.grams,
  total: need.total.grams,
})) as [Need, Need];
interface Need {
  readonly warp: number;
  readonly weft: number;
  readonly total: number;
}

function accounts(yarns: readonly ShelfYarn[], ...warps: readonly ShelfWarp[]): YarnAccount[] {
  return [...useOfYarns(yarns, warps).values()];
}

/** 8/4 cotton is 295.27 tex (ASTM D2260); a pick lies over 4 dents of 1/12.5 in, a tail is 10 cm (practice). */
const GRAMS_PER_MM = (590.541 * 4) / 8 / 1e6;
const PICK = ((4 * 25.4) / 12.5) * GRAMS_PER_MM;
const TAIL = 100 * GRAMS_PER_MM;

const BOTH = [cone('moss', 500), cone('chalk', 100)];

describe('what a warp takes off the shelf', () => {
  it('the example has warp of A alone and weft of both', () => {
    expect(A.warp).toBeGreaterThan(0);
    expect(B.warp).toBe(0);
    expect(Math.min(A.weft, B.weft)).toBeGreaterThan(0);
    expect(A.total).toBeCloseTo(A.warp + A.weft, 9);
  });

  it.each<[string, readonly Happening[], [since: number, toCome: number][]]>([
    [
      'planned, it wants all and has taken nothing',
      [],
      [
        [0, A.total],
        [0, B.total],
      ],
    ],
    [
      'when warping begins, the warp is taken',
      [{ kind: 'warped', steps: 1 }],
      [
        [A.warp, A.weft],
        [0, B.weft],
      ],
    ],
    [
      'half of A is woven',
      [thrown(10)],
      [
        [A.warp + A.weft / 2, A.weft / 2],
        [0, B.weft],
      ],
    ],
    [
      'all of A, a quarter of the picks of B and its first tail are woven',
      [thrown(25)],
      [
        [A.total, 0],
        [5 * PICK + TAIL, 15 * PICK + TAIL],
      ],
    ],
    [
      'picks taken out again come back',
      [thrown(25), { kind: 'takenOut', picks: 15 }],
      [
        [A.warp + A.weft / 2, A.weft / 2],
        [0, B.weft],
      ],
    ],
    [
      'an undone throw was never thrown',
      [thrown(40), { kind: 'undone', event: 'e0' }],
      [
        [0, A.total],
        [0, B.total],
      ],
    ],
    [
      'cut off early, it wants nothing more',
      [thrown(10), { kind: 'cutOff' }],
      [
        [A.warp + A.weft / 2, 0],
        [0, 0],
      ],
    ],
    [
      'a block woven twice as long takes twice the picks, and the same two tails',
      [{ kind: 'blockSet', piece: 0, block: 0, picks: 40 }, thrown(40)],
      [
        [A.warp + 40 * PICK + 2 * TAIL, 0],
        [0, B.weft],
      ],
    ],
  ])('%s', (_fact, happenings, wanted) => {
    const got = accounts(BOTH, warpOf(PLAN, ...happenings));
    for (const [n, [since, toCome]] of wanted.entries()) {
      expect(got[n]?.uses[0]?.since).toBeCloseTo(since, 6);
      expect(got[n]?.toCome).toBeCloseTo(toCome, 6);
    }
  });

  it('what was taken before the last weighing is in its figure already', () => {
    const yarns = [cone('moss', 500, 1), cone('chalk', 100, 1)];
    const [moss, chalk] = accounts(yarns, warpOf(PLAN, thrown(10), thrown(20)));
    expect(moss?.left).toBeCloseTo(500 - A.weft / 2, 9);
    expect(chalk?.left).toBeCloseTo(100 - B.weft / 2, 9);
    const before = accounts(BOTH, warpOf(PLAN, thrown(10), thrown(20)));
    expect(before[0]?.left).toBeCloseTo(500 - A.total, 9);
  });

  it('of a yarn nobody has weighed what is wanted is known, and not what is left', () => {
    const [moss] = accounts([cone('moss', null)], warpOf(PLAN, thrown(10)));
    expect(moss?.left).toBeNull();
    expect(moss?.toCome).toBeCloseTo(A.weft / 2, 9);
  });

  it('two yarns of a plan from one cone take from it together', () => {
    const [moss] = accounts([cone('moss', 500)], warpOf(onShelf(TOWEL, 'moss', 'moss')));
    expect(moss?.toCome).toBeCloseTo(A.total + B.total, 9);
    expect(moss?.uses).toHaveLength(1);
  });

  it('a yarn no warp names is left alone, and a warp that names none is passed over', () => {
    const warp = warpOf(TOWEL, thrown(40));
    expect(takesFromShelf(warp)).toBe(false);
    expect(accounts(BOTH, warp).map((it) => it.uses)).toEqual([[], []]);
    const [moss] = accounts([cone('moss', 500)], warpOf(onShelf(TOWEL, 'another')));
    expect(moss).toMatchObject({ uses: [], left: 500, after: 500 });
  });

  it('several warps are told apart by their names', () => {
    const second = { ...warpOf(PLAN, thrown(20)), id: 'w2', name: 'Napkins' };
    const [moss] = accounts(BOTH, warpOf(PLAN), second);
    expect(moss?.uses.map((use) => use.name)).toEqual(['Towels', 'Napkins']);
    expect(moss?.toCome).toBeCloseTo(A.total, 9);
    expect(moss?.left).toBeCloseTo(500 - A.total, 9);
  });
});

describe('at every pick', () => {
  const plan = onShelf(
    planOf({
      yarns: planWeaving('ABC', [solid('A', 1)]).yarns,
      pieces: planWeaving(
        'ABC',
        [alternation('A2 B2 C1', { kind: 'picks', picks: 50 })],
        [solid('B', 9), solid('C', 8)],
      ).pieces,
    }),
    'a',
    'b',
    'c',
  );
  const needs = sheetOf(plan).yarns.map((need) => need.total.grams);
  const shelf = ['a', 'b', 'c'].map((id) => cone(id, 1000));

  it('what was taken and what is still to come are what the sheet says in all', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 70 }), (picks) => {
        const got = accounts(shelf, warpOf(plan, { kind: 'warped', steps: 1 }, thrown(picks)));
        for (const [n, need] of needs.entries()) {
          const since = got[n]?.uses[0]?.since ?? Number.NaN;
          expect(since + (got[n]?.toCome ?? Number.NaN)).toBeCloseTo(need, 6);
        }
      }),
    );
  });

  it('weighing just as reckoned changes nothing', () => {
    fc.assert(
      fc.property(fc.nat({ max: 60 }), fc.nat({ max: 60 }), (first, second) => {
        const warp = warpOf(plan, thrown(first), thrown(second));
        const early = accounts(shelf, { ...warp, log: warp.log.slice(0, 1) });
        const weighed = shelf.map((yarn, n) => ({
          ...yarn,
          weighed: [{ at: minute(1), grams: early[n]?.left ?? Number.NaN }],
        }));
        const [reckoned, again] = [accounts(shelf, warp), accounts(weighed, warp)];
        for (const [n, account] of reckoned.entries()) {
          expect(again[n]?.left).toBeCloseTo(account.left ?? Number.NaN, 6);
        }
      }),
    );
  });
});
