import fc from 'fast-check';
import { unit } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { G_PER_POUND } from '../../../../src/core/measure/mass.ts';
import type { Plan } from '../../../../src/core/plan/plan.ts';
import { sheetOf } from '../../../../src/core/planner/sheet.ts';
import {
  alternation,
  BASE,
  checked,
  INCH,
  pieceOf,
  planOf,
  solid,
  yarns,
} from '../../plan/samples.ts';
import { stripesOf } from '../examples.ts';

/** A yarn of 1 g a metre, so that grams are metres. */
const METRE_A_GRAM = { system: 'tex', number: 1000, plies: 1 } as const;

function weighed(letters: string, onHand: Readonly<Record<string, number>>): Plan['yarns'] {
  return yarns(letters).map((yarn) => {
    const grams = onHand[yarn.letter];
    const count = METRE_A_GRAM;
    return grams === undefined ? { ...yarn, count } : { ...yarn, count, onHand: grams };
  });
}

/** 100 ends of A, 8 in wide; no waste, metric rounding. */
function narrow(changes: Partial<Plan>): Plan {
  return planOf({
    units: 'metric',
    loom: { ...BASE.loom, frontTieOn: 0, backWaste: 0 },
    warp: { ...BASE.warp, order: stripesOf('A100') },
    weaving: { ...BASE.weaving, pickSpacing: 2 },
    ...changes,
  });
}

const REED = 8 * INCH;

describe('the weft of a yarn', () => {
  it('is its picks, its floats up the edge, and a hand’s width where it starts and is cut', () => {
    const blocks = [
      solid('A', 20),
      alternation('B2 A2', { kind: 'turns', turns: 5 }),
      solid('A', 20),
    ];
    const { yarns: needs } = sheetOf(
      narrow({ yarns: weighed('AB', {}), pieces: [pieceOf(blocks)] }),
    );
    const [a, b] = needs.map((need) => need.weft);
    // A starts once, is cut once, and floats over three turns of B of two picks of 2 mm.
    expect(a).toMatchObject({ picks: 44, carried: 12, tails: 200, stitching: 0 });
    expect(a?.thrown).toBeCloseTo(44 * REED, 9);
    // B floats over two turns of A.
    expect(b).toMatchObject({ picks: 6, carried: 8, tails: 200, stitching: 0 });
    expect(b?.length).toBeCloseTo(6 * REED + 8 + 200, 9);
    expect(b?.grams).toBeCloseTo((6 * REED + 208) / 1000, 9);
  });

  it('cut instead of carried has two tails more and no float', () => {
    const weaving = { ...BASE.weaving, pickSpacing: 2, carryLimit: 39 };
    const pieces = [pieceOf([solid('A', 20), solid('B', 20), solid('A', 20)])];
    const needs = sheetOf(narrow({ yarns: weighed('AB', {}), weaving, pieces })).yarns;
    expect(needs[0]?.weft).toMatchObject({ picks: 40, carried: 0, tails: 400 });
    const longer = { ...weaving, carryLimit: 40 };
    const carried = sheetOf(narrow({ yarns: weighed('AB', {}), weaving: longer, pieces })).yarns;
    expect(carried[0]?.weft).toMatchObject({ picks: 40, carried: 40, tails: 200 });
  });

  it('that begins and ends a hemstitched piece leaves tails of three widths instead (practice)', () => {
    const fringe = { kind: 'hemstitch', fringe: 0, twisted: false } as const;
    const pieces = [
      pieceOf([solid('A', 20), solid('B', 20)], { beginning: fringe, ending: fringe }),
    ];
    const needs = sheetOf(narrow({ yarns: weighed('AB', {}), pieces })).yarns;
    for (const need of needs) {
      expect(need.weft.stitching).toBeCloseTo(3 * REED, 9);
      expect(need.weft.tails).toBe(100);
    }
  });
});

describe('the need of a yarn', () => {
  it('counts floating selvedges, over the length wound', () => {
    const warp = { ...BASE.warp, order: stripesOf('A100'), floatingSelvedges: { yarn: 'B' } };
    const pieces = [pieceOf([solid('A', 501)])];
    const sheet = sheetOf(narrow({ yarns: weighed('AB', {}), warp, pieces }));
    expect(sheet.warpLength.exact).toBeCloseTo(1002, 9);
    expect(sheet.warpLength.wound).toBe(1100);
    expect(sheet.yarns.map((it) => it.warp.ends)).toEqual([100, 2]);
    expect(sheet.yarns[1]?.total).toEqual({ length: 2200, grams: 2.2 });
    expect(sheet.widths.reed).toBeCloseTo(REED, 9);
  });

  it.each([
    [150, 'enough', 50],
    [100, 'enough', 0],
    [99, 'short', -1],
  ] as const)('of 100 g with %d g on hand is %s by %d g', (onHand, verdict, left) => {
    const pieces = [pieceOf([solid('B', 500)])];
    const plan = narrow({ yarns: weighed('AB', { A: onHand }), pieces });
    const [a] = sheetOf(plan).yarns;
    expect(a?.total.grams).toBeCloseTo(100, 9);
    expect(a?.verdict).toBe(verdict);
    expect(a?.left?.grams).toBeCloseTo(left, 9);
    expect(a?.left?.length).toBeCloseTo(1000 * left, 6);
  });

  it('is unknown where nothing on hand was said, and unused where it is nowhere', () => {
    const sheet = sheetOf(
      narrow({ yarns: weighed('ABC', { C: 5 }), pieces: [pieceOf([solid('B', 4)])] }),
    );
    expect(sheet.yarns.map((it) => it.verdict)).toEqual(['unknown', 'unknown', 'unused']);
    expect(sheet.yarns.map((it) => it.left?.grams)).toEqual([undefined, undefined, 5]);
  });

  it('weighs the same by a general units library', () => {
    const count = { system: 'ydPerLb', number: 3360, plies: 1 } as const;
    const plan = narrow({ yarns: yarns('AB').map((yarn) => ({ ...yarn, count })) });
    for (const { total } of sheetOf(plan).yarns) {
      const pounds = unit(total.length, 'mm').toNumber('yard') / 3360;
      expect(total.grams).toBeCloseTo(unit(pounds, 'lb').toNumber('g'), 6);
      expect(total.grams).toBeCloseTo(pounds * G_PER_POUND, 6);
    }
  });
});

describe('further pieces', () => {
  const fringe = (mm: number) => ({ kind: 'hemstitch', fringe: mm, twisted: false }) as const;
  const piece = fc
    .record({
      weft: fc.array(
        fc.record({ yarn: fc.constantFrom('A', 'B'), picks: fc.integer({ min: 1, max: 300 }) }),
        { minLength: 1, maxLength: 3 },
      ),
      fringes: fc.tuple(fc.constantFrom(0, 30), fc.constantFrom(0, 80)),
    })
    .map(({ weft, fringes: [first, last] }) =>
      pieceOf(
        weft.map(({ yarn, picks }) => solid(yarn, picks)),
        { beginning: fringe(first), ending: fringe(last) },
      ),
    );
  const planned = fc
    .record({
      pieces: fc.array(piece, { minLength: 1, maxLength: 3 }),
      a: fc.integer({ min: 0, max: 2500 }),
      b: fc.option(fc.integer({ min: 0, max: 2500 }), { nil: undefined }),
      units: fc.constantFrom('inch' as const, 'metric' as const),
      order: fc.constantFrom('A100', 'A60 B40', 'B100'),
      outerFringes: fc.constantFrom('own-warp' as const, 'from-waste' as const),
    })
    .map(({ pieces, a, b, units, order, outerFringes }) =>
      narrow({
        units,
        pieces,
        yarns: weighed('AB', b === undefined ? { A: a } : { A: a, B: b }),
        warp: { ...BASE.warp, order: stripesOf(order) },
        weaving: { ...BASE.weaving, pickSpacing: 2, outerFringes, cuttingAllowance: 5 },
      }),
    );

  /** The plan with so many pieces more like one of it. */
  function withMore(plan: Plan, like: number, more: number): Plan {
    const added = Array.from({ length: more }, () => plan.pieces[like] ?? pieceOf([]));
    return checked({ ...plan, pieces: [...plan.pieces, ...added] });
  }
  const shortOf = (plan: Plan) => sheetOf(plan).yarns.filter((it) => it.verdict === 'short');

  it('as many as told do not exceed what is on hand, and one more does', () => {
    let told = 0;
    fc.assert(
      fc.property(planned, fc.nat(2), (plan, n) => {
        const like = n % plan.pieces.length;
        const further = sheetOf(plan).further[like];
        if (further === undefined || further.more === null || further.limitedBy === null) return;
        if (further.more + plan.pieces.length >= 60) return;
        if (further.more > 0) {
          told++;
          expect(shortOf(withMore(plan, like, further.more))).toEqual([]);
        }
        const short = shortOf(withMore(plan, like, further.more + 1)).map((it) => it.yarn);
        expect(short).toContain(further.limitedBy);
      }),
      { numRuns: 300 },
    );
    expect(told).toBeGreaterThan(10);
  });

  it('are none where the plan itself is short', () => {
    const plan = narrow({
      yarns: weighed('AB', { A: 10, B: 1000 }),
      pieces: [pieceOf([solid('B', 500)])],
    });
    expect(sheetOf(plan).further).toEqual([{ piece: 0, more: 0, limitedBy: 0, unweighed: [] }]);
  });

  it('are not told where no yarn of them was weighed', () => {
    const plan = narrow({ yarns: weighed('AB', {}), pieces: [pieceOf([solid('B', 500)])] });
    expect(sheetOf(plan).further).toEqual([
      { piece: 0, more: null, limitedBy: null, unweighed: [0, 1] },
    ]);
  });

  it('are not told by a yarn that only another piece takes', () => {
    const pieces = [pieceOf([solid('A', 40)]), pieceOf([solid('B', 40)])];
    const plan = narrow({ yarns: weighed('AB', { B: 1000 }), pieces });
    expect(sheetOf(plan).further[0]).toEqual({
      piece: 0,
      more: null,
      limitedBy: null,
      unweighed: [0],
    });
    expect(sheetOf(plan).further[1]).toMatchObject({ piece: 1, limitedBy: 1 });
  });

  it('hold for the weighed yarns only, and say which were not', () => {
    // 100 ends × 1 m a piece: 1000 g are ten metres of warp.
    const plan = narrow({
      yarns: weighed('AB', { A: 1000 }),
      pieces: [pieceOf([solid('B', 500)])],
    });
    expect(sheetOf(plan).further).toEqual([{ piece: 0, more: 9, limitedBy: 0, unweighed: [1] }]);
  });
});
