import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mergeRuns } from '../../../src/core/measure/runs.ts';
import { layWeft, picksOf, turnOf } from '../../../src/core/plan/blocks.ts';
import type { Block, Plan, Stripe } from '../../../src/core/plan/plan.ts';
import { asDrawnIn, squared } from '../../../src/core/planner/asDrawnIn.ts';
import { sheetOf } from '../../../src/core/planner/sheet.ts';
import { BASE, checked, INCH, pieceOf } from '../plan/samples.ts';
import { sharesFrom, stripesOf, warpedWith } from './examples.ts';
import { anyOrder } from './orders.ts';

function wovenAs(plan: Plan, weft: readonly Block[]): Plan {
  return checked({ ...plan, pieces: [pieceOf(weft)] });
}

/** The weft as seen: yarn index and picks of every stripe. */
function weftRuns(plan: Plan) {
  return mergeRuns(
    layWeft(plan, 0).flatMap((laid) =>
      Array.from({ length: laid.turns }, (_, k) => {
        const { yarn, picks } = turnOf(laid, k);
        return { of: yarn, count: picks };
      }),
    ),
  );
}

const twoAndTwo = (turns: number): Stripe => ({
  kind: 'alternation',
  cycle: [
    { yarn: 'A', ends: 2 },
    { yarn: 'B', ends: 2 },
  ],
  turns,
});

describe('as drawn in', () => {
  it('has a pick for every end, stripes become blocks of their kind', () => {
    const order: Stripe[] = [
      ...stripesOf('A20'),
      twoAndTwo(13),
      { kind: 'repeat', times: 3, of: stripesOf('A4 B6') },
      { kind: 'mirror', centre: 'shared', of: stripesOf('B2 A8') },
    ];
    const weft = asDrawnIn(warpedWith('AB', order));
    expect(weft.map((block) => block.kind)).toEqual(['solid', 'alternation', 'repeat', 'mirror']);
    expect(weft[0]).toEqual({ kind: 'solid', yarn: 'A', extent: { kind: 'picks', picks: 20 } });
    expect(weft[1]).toMatchObject({
      opens: 'A',
      path: 'round',
      extent: { kind: 'turns', turns: 13 },
    });
  });

  it('is the warp order again, stripe for stripe, whatever the warp', () => {
    fc.assert(
      fc.property(anyOrder(['A', 'B', 'C']), (order) => {
        const plan = warpedWith('ABC', order);
        const woven = wovenAs(plan, asDrawnIn(plan));
        expect(weftRuns(woven)).toEqual(sheetOf(woven).warp.runs);
      }),
    );
  });
});

describe('squared', () => {
  /** 12½ ends and so many picks to the inch, before washing and after. */
  function scaled(order: readonly Stripe[], ppi: number, shares = {}): Plan {
    const plan = warpedWith('AB', order);
    const weaving = { ...plan.weaving, pickSpacing: INCH / ppi };
    return checked({ ...plan, weaving, allowances: sharesFrom(shares) });
  }

  it('is as drawn in where picks and ends are as close', () => {
    const plan = scaled([...stripesOf('A20 B5'), twoAndTwo(13)], 12.5);
    expect(squared(plan)).toEqual(asDrawnIn(plan));
  });

  it('has four picks for five ends at 10 picks and 12½ ends to the inch', () => {
    const [first, second] = squared(scaled(stripesOf('A20 B5'), 10));
    expect(first).toMatchObject({ extent: { picks: 16 } });
    expect(second).toMatchObject({ extent: { picks: 4 } });
  });

  it('goes by the washed cloth', () => {
    // 12½ ends draw in and shrink to 15⅝, 10 picks relax and shrink to 12½: again four for five.
    const plan = scaled(stripesOf('A20'), 10, { drawIn: 0.1, shrinkWidth: 1 / 9, relax: 0.2 });
    expect(squared(plan)[0]).toMatchObject({ extent: { picks: 16 } });
  });

  it('goes by the picks of each yarn', () => {
    const plan = scaled(stripesOf('A20 B20'), 12.5);
    const [a, b] = plan.yarns;
    const thin = checked({ ...plan, yarns: [a, { ...b, pickSpacing: INCH / 25 }] });
    expect(squared(thin)).toMatchObject([{ extent: { picks: 20 } }, { extent: { picks: 40 } }]);
  });

  it('keeps small turns and takes more or fewer of them, in whole turns that end as before', () => {
    // 2 and 2 at three picks for four ends stay 2 and 2: 26 ends are nearest 18 picks, nine turns.
    const [block] = squared(scaled([twoAndTwo(13)], 9.375));
    expect(block).toMatchObject({
      cycle: [
        { yarn: 'A', picks: 2 },
        { yarn: 'B', picks: 2 },
      ],
      extent: { kind: 'turns', turns: 9 },
    });
  });

  it('has its stripes as long as they are wide, to half a pick each', () => {
    const shares = { drawIn: 0.05, shrinkWidth: 0.08, relax: 0.03, shrinkLength: 0.1 };
    const solids = fc.array(
      fc.record({
        kind: fc.constant('solid' as const),
        yarn: fc.constantFrom('A', 'B'),
        ends: fc.integer({ min: 3, max: 60 }),
      }),
      { minLength: 1, maxLength: 8 },
    );
    fc.assert(
      fc.property(solids, fc.integer({ min: 8, max: 30 }), (order, ppi) => {
        const plan = scaled(order, ppi, shares);
        const woven = wovenAs(plan, squared(plan));
        const { setts } = sheetOf(woven);
        for (const [i, laid] of layWeft(woven, 0).entries()) {
          const wide = (order[i]?.ends ?? 0) / setts.washed;
          const long = picksOf(laid) / setts.picksWashed;
          expect(Math.abs(long - wide)).toBeLessThanOrEqual(0.5 / setts.picksWashed + 1e-9);
        }
      }),
    );
  });

  it('makes a plan of any warp, and keeps its kinds', () => {
    fc.assert(
      fc.property(anyOrder(['A', 'B', 'C']), fc.integer({ min: 4, max: 40 }), (order, ppi) => {
        const plan = warpedWith('ABC', order);
        const close = { ...plan, weaving: { ...BASE.weaving, pickSpacing: INCH / ppi } };
        const weft = squared(close);
        expect(weft.map((block) => block.kind)).toEqual(
          asDrawnIn(close).map((block) => block.kind),
        );
        expect(layWeft(wovenAs(close, weft), 0).length).toBeGreaterThan(0);
      }),
    );
  });
});
