import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Dents } from '../../../src/core/plan/plan.ts';
import type { ProblemCode } from '../../../src/core/plan/problems.ts';
import {
  accountOf,
  asPlanYarn,
  decodeShelfHeddle,
  decodeShelfYarn,
  dentPitch,
  dentsPerOther,
  netOf,
  onHandOf,
  type ShelfHeddle,
  type ShelfYarn,
  weighedAgain,
  type YarnUse,
} from '../../../src/core/plan/shelf.ts';
import { BASE, planOf } from './samples.ts';

const NOON = '2025-03-01T12:00:00.000Z';
const ONE = '2025-03-01T13:00:00.000Z';

const MOSS: ShelfYarn = {
  id: 'moss-1',
  name: 'Moss',
  colour: '#5d7043',
  fibre: 'cotton',
  count: { system: 'cottonCount', number: 8, plies: 2 },
  weighed: [{ at: NOON, grams: 212, tare: 40 }],
};

const counted = (change: object) => ({ ...MOSS, count: { ...MOSS.count, ...change } });
const weighing = (change: object) => ({ ...MOSS, weighed: [{ ...MOSS.weighed[0], ...change }] });

const HEDDLE: ShelfHeddle = {
  id: 'heddle-1',
  name: 'Fine',
  dents: { count: 12.5, per: 'inch', made: 12.7 },
  width: 609.6,
};

const use = (since: number, toCome: number): YarnUse => ({
  warp: 'w',
  name: 'Towels',
  since,
  toCome,
});

describe('a yarn of the shelf', () => {
  it('is read back as it was stored', () => {
    const stored: unknown = JSON.parse(JSON.stringify(MOSS));
    expect(decodeShelfYarn(stored)).toEqual({ ok: true, value: MOSS });
    const { fibre, ...plain } = { ...MOSS, weighed: [{ at: NOON, grams: 172 }] };
    expect(decodeShelfYarn(plain)).toEqual({ ok: true, value: plain });
  });

  it.each<[string, unknown, string, ProblemCode]>([
    ['no name', { ...MOSS, name: '  ' }, 'name', 'too-short'],
    ['a colour that is none', { ...MOSS, colour: 'green' }, 'colour', 'bad-colour'],
    ['an unknown fibre', { ...MOSS, fibre: 'steel' }, 'fibre', 'not-one-of'],
    ['no count', { ...MOSS, count: undefined }, 'count', 'missing'],
    ['half a ply', counted({ plies: 1.5 }), 'count.plies', 'not-whole'],
    ['a count of nought', counted({ number: 0 }), 'count.number', 'too-small'],
    ['a weight below nought', weighing({ grams: -1 }), 'weighed[0].grams', 'too-small'],
    ['a cone heavier than all', weighing({ tare: 300 }), 'weighed[0].tare', 'too-big'],
    ['a weighing at no time', weighing({ at: 'yesterday' }), 'weighed[0].at', 'wrong-type'],
    ['a field it does not know', { ...MOSS, price: 4 }, 'price', 'unknown-field'],
  ])('with %s is refused, with the place', (_what, input, path, code) => {
    const read = decodeShelfYarn(input);
    expect(read.ok ? [] : read.problem).toMatchObject([{ path, code }]);
  });

  it('whatever is thrown at it, decoding answers', () => {
    fc.assert(
      fc.property(fc.anything(), (input) => {
        expect(decodeShelfYarn(input).ok).toBe(false);
        expect(decodeShelfHeddle(input).ok).toBe(false);
      }),
    );
  });

  it('weighs what the scale says less the cone; not weighed is not nothing', () => {
    expect(netOf({ grams: 212, tare: 40 })).toBe(172);
    expect(netOf({ grams: 172 })).toBe(172);
    expect(onHandOf(MOSS)).toBe(172);
    expect(onHandOf({ ...MOSS, weighed: [] })).toBeNull();
  });

  it('weighed again, it weighs what it was weighed last, and keeps the weighing before', () => {
    const again = weighedAgain(MOSS, { at: ONE, grams: 150, tare: 40 });
    expect(onHandOf(again)).toBe(110);
    expect(again.weighed).toHaveLength(2);
    expect(onHandOf(MOSS)).toBe(172);
  });

  it('can be weighed for ever and still be stored', () => {
    let yarn = MOSS;
    for (let n = 0; n < 520; n += 1) yarn = weighedAgain(yarn, { at: ONE, grams: 1000 - n });
    expect(decodeShelfYarn(yarn).ok).toBe(true);
    expect(onHandOf(yarn)).toBe(481);
  });

  it('becomes a yarn of a plan, which names it', () => {
    const yarn = asPlanYarn(MOSS, 'A', 172);
    expect(yarn).toEqual({
      letter: 'A',
      name: 'Moss',
      colour: '#5d7043',
      fibre: 'cotton',
      count: MOSS.count,
      onHand: 172,
      shelf: 'moss-1',
    });
    expect(planOf({ yarns: [yarn, ...BASE.yarns.slice(1)] }).yarns[0]).toEqual(yarn);
    expect(asPlanYarn({ ...MOSS, weighed: [] }, 'B', null)).not.toHaveProperty('onHand');
  });
});

describe('the account of a yarn', () => {
  it.each<[string, readonly YarnUse[], number | null, number, number | null]>([
    ['no warp takes it', [], 172, 0, 172],
    ['a planned warp wants 100 g', [use(0, 100)], 172, 100, 72],
    ['two planned warps want more than there is', [use(0, 100), use(0, 90)], 172, 190, -18],
    ['30 g were woven since', [use(30, 0)], 142, 0, 142],
    ['half of a warp is woven', [use(50, 50)], 122, 50, 72],
    ['5 g were unwoven since', [use(-5, 20)], 177, 20, 157],
    ['more was reckoned than lay on the scale', [use(200, 10)], 0, 10, -10],
  ])('%s', (_fact, uses, left, toCome, after) => {
    expect(accountOf(MOSS, uses)).toEqual({ uses, left, toCome, after });
  });

  it('of a yarn nobody has weighed knows what is wanted and not what is left', () => {
    expect(accountOf({ ...MOSS, weighed: [] }, [use(10, 20)])).toMatchObject({
      left: null,
      toCome: 20,
      after: null,
    });
  });

  it('adds up over warps, in any order', () => {
    const grams = fc.integer({ min: 0, max: 40 });
    const uses = fc.array(
      fc.tuple(grams, grams).map(([a, b]) => use(a, b)),
      { maxLength: 4 },
    );
    fc.assert(
      fc.property(uses, (given) => {
        const whole = accountOf(MOSS, given);
        const back = accountOf(MOSS, given.toReversed());
        expect([back.left, back.toCome, back.after]).toEqual([
          whole.left,
          whole.toCome,
          whole.after,
        ]);
        const since = given.reduce((sum, it) => sum + it.since, 0);
        expect((whole.left ?? 0) + since).toBe(172);
        expect((whole.left ?? 0) - (whole.after ?? 0)).toBe(whole.toCome);
      }),
    );
  });
});

describe('a heddle of the shelf', () => {
  it('is read back as it was stored, sold and made', () => {
    expect(decodeShelfHeddle(JSON.parse(JSON.stringify(HEDDLE)))).toEqual({
      ok: true,
      value: HEDDLE,
    });
    const metric: ShelfHeddle = { ...HEDDLE, dents: { count: 50, per: '10cm' } };
    expect(decodeShelfHeddle(metric)).toEqual({ ok: true, value: metric });
  });

  it.each<[Dents, number, number]>([
    [{ count: 12.5, per: 'inch' }, 2.032, 49.2126],
    [{ count: 10, per: 'inch' }, 2.54, 39.3701],
    [{ count: 12.5, per: 'inch', made: 12.7 }, 2, 49.2126],
    [{ count: 50, per: '10cm' }, 2, 12.7],
    [{ count: 40, per: '10cm', made: 41 }, 2.43902, 10.16],
  ])('%j: the pitch is %d mm, the other count %d', (dents, pitch, other) => {
    expect(dentPitch(dents)).toBeCloseTo(pitch, 4);
    expect(dentsPerOther(dents)).toBeCloseTo(other, 4);
  });

  it.each<[string, unknown, string]>([
    ['no dents', { ...HEDDLE, dents: { count: 0, per: 'inch' } }, 'dents.count'],
    ['dents per yard', { ...HEDDLE, dents: { count: 5, per: 'yard' } }, 'dents.per'],
    ['no width', { ...HEDDLE, width: 0 }, 'width'],
    ['no name', { ...HEDDLE, name: '' }, 'name'],
  ])('with %s is refused, with the place', (_what, input, path) => {
    const read = decodeShelfHeddle(input);
    expect(read.ok ? [] : read.problem.map((it) => it.path)).toEqual([path]);
  });
});
