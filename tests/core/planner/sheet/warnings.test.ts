import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NO_ADJUSTMENTS } from '../../../../src/core/bench/adjustments.ts';
import { layCourse } from '../../../../src/core/bench/course.ts';
import { duesOf } from '../../../../src/core/bench/dues.ts';
import { pickAt } from '../../../../src/core/bench/pickAt.ts';
import type { Block, Piece, Plan } from '../../../../src/core/plan/plan.ts';
import { type EdgeWarning, sheetOf } from '../../../../src/core/planner/sheet.ts';
import { anyPlan } from '../../bench/arbitraries.ts';
import { alternation, BASE, pieceOf, planOf, solid, yarns } from '../../plan/samples.ts';

/** One pick is 2 mm, and a yarn is carried up to 25 mm. */
function warned(weft: readonly Block[], changes: Partial<Plan> = {}, piece: Partial<Piece> = {}) {
  const weaving = { ...BASE.weaving, pickSpacing: 2, carryLimit: 25 };
  const plan = planOf({
    yarns: yarns('ABC'),
    weaving,
    pieces: [pieceOf(weft, piece)],
    ...changes,
  });
  return sheetOf(plan).warnings;
}

const turns = (n: number) => ({ kind: 'turns', turns: n }) as const;

describe('an edge end that is not caught', () => {
  it.each([
    ['1 and 1', 'A1 B1', [0, 1]],
    ['3 and 3', 'A3 B3', [0, 1]],
    ['2 and 1: only A comes back after an odd number', 'A2 B1', [0]],
  ])('is told where two yarns take turns %s', (_, cycle, uncaught) => {
    const [warning, ...more] = warned([alternation(cycle, turns(9))]);
    expect(more).toEqual([]);
    expect(warning).toMatchObject({ kind: 'edge-not-caught', piece: 0, path: 'pieces[0].weft[0]' });
    const found = warning?.kind === 'edge-not-caught' ? warning.yarns : [];
    expect(found.toSorted()).toEqual(uncaught);
  });

  it('is no trouble 2 and 2', () => {
    expect(warned([alternation('A2 B2', turns(9))])).toEqual([]);
  });

  it('is caught by floating selvedges, and that is told with it', () => {
    const warp = { ...BASE.warp, floatingSelvedges: { yarn: 'A' } };
    const [warning] = warned([alternation('A1 B1', turns(9))], { warp });
    expect(warning).toMatchObject({ kind: 'edge-not-caught', floatingSelvedges: true, places: 7 });
  });

  it('is one warning for a block, however often it is repeated', () => {
    const once = [alternation('A1 B1', turns(5)), solid('A', 4)];
    const found = warned([{ kind: 'repeat', times: 4, of: once }]);
    expect(found.map((it) => [it.kind, it.path])).toEqual([
      ['edge-not-caught', 'pieces[0].weft[0].of[0]'],
    ]);
  });
});

describe('a float beyond the carry limit', () => {
  it('is told where it will be cut: how long it would be, and how often', () => {
    const weft = [solid('A', 4), solid('B', 14), solid('A', 4), solid('B', 12), solid('A', 4)];
    expect(warned(weft)).toEqual([
      {
        kind: 'cut-for-length',
        piece: 0,
        path: 'pieces[0].weft[0]',
        yarn: 0,
        places: 1,
        longest: 28,
      },
    ]);
    const repeated: Block = { kind: 'repeat', times: 3, of: [solid('A', 4), solid('B', 14)] };
    expect(warned([repeated])).toMatchObject([{ kind: 'cut-for-length', yarn: 0, places: 2 }]);
  });

  it('is no news where the plan itself cuts, nor where a hem has a yarn of its own', () => {
    const weft = [solid('A', 4), solid('B', 14), solid('A', 4)];
    const [a, ...rest] = yarns('ABC');
    const cut = { mode: 'cut' } as const;
    expect(
      warned(weft, { yarns: [{ ...yarns('A')[0], ...a, resting: cut } as never, ...rest] }),
    ).toEqual([]);
    expect(
      warned([solid('A', 4), { ...solid('B', 14), resting: { A: cut } }, solid('A', 4)]),
    ).toHaveLength(1);
    expect(
      warned([{ ...solid('A', 4), resting: { A: cut } }, solid('B', 14), solid('A', 4)]),
    ).toEqual([]);
    const hem = { kind: 'hem', washedAllowance: 20, yarn: 'C' } as const;
    expect(warned([solid('A', 40)], {}, { beginning: hem, ending: hem })).toEqual([]);
  });

  it('is told where the plan carries it all the same', () => {
    const weft = [
      { ...solid('A', 4), resting: { A: { mode: 'float' } as const } },
      solid('B', 14),
      solid('A', 4),
    ];
    expect(warned(weft)).toMatchObject([{ kind: 'long-float', yarn: 0, places: 1, longest: 28 }]);
  });
});

describe('the tail at the end of a hemstitched piece', () => {
  const fringe = { kind: 'hemstitch', fringe: 20, twisted: false } as const;
  const stitched = { beginning: fringe, ending: fringe };

  it('falls on the working side after an even number of picks, and across after an odd one', () => {
    expect(warned([solid('A', 20)], {}, stitched)).toEqual([]);
    expect(warned([solid('A', 21)], {}, stitched)).toEqual([
      { kind: 'tail-wrong-side', piece: 0, path: 'pieces[0].ending', side: 'left' },
    ]);
  });
});

describe('for any plan the warnings', () => {
  const of = <K extends EdgeWarning['kind']>(plan: Plan, kind: K) =>
    sheetOf(plan).warnings.filter(
      (it): it is Extract<EdgeWarning, { kind: K }> => it.kind === kind,
    );

  it('name the same yarns and tails as the cards at the bench', () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        const dues = duesOf(layCourse(plan, NO_ADJUSTMENTS));
        for (const [piece] of plan.pieces.entries()) {
          const own = dues.filter((due) => due.piece === piece);
          const locked = own.flatMap((due) => (due.kind === 'lockEdge' ? due.yarns : []));
          const uncaught = of(plan, 'edge-not-caught').filter((it) => it.piece === piece);
          expect(new Set(uncaught.flatMap((it) => it.yarns))).toEqual(new Set(locked));
          const wrong = own.flatMap((due) =>
            due.kind === 'endTail' && due.wrongSide ? [due.side] : [],
          );
          const tails = of(plan, 'tail-wrong-side').filter((it) => it.piece === piece);
          expect(tails.map((it) => it.side)).toEqual(wrong);
        }
      }),
      { numRuns: 60 },
    );
  });

  it('count every place that walking the picks meets', () => {
    let met = 0;
    fc.assert(
      fc.property(anyPlan, (plan) => {
        const course = layCourse(plan, NO_ADJUSTMENTS);
        let [uncaught, floats] = [0, 0];
        for (let n = 0; n < course.picks; n++) {
          const facts = pickAt(course, n);
          if (facts?.coming?.edge === 'not-caught') uncaught++;
          const leaving = facts?.leaving;
          if (leaving?.rest === 'float' && leaving.overLength > plan.weaving.carryLimit + 1e-6)
            floats++;
        }
        met += uncaught + floats;
        const places = (found: readonly { readonly places: number }[]) =>
          found.reduce((sum, it) => sum + it.places, 0);
        expect(places(of(plan, 'edge-not-caught'))).toBe(uncaught);
        expect(places(of(plan, 'long-float'))).toBe(floats);
      }),
      { numRuns: 60 },
    );
    expect(met).toBeGreaterThan(10);
  });
});
