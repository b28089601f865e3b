import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { UNITS } from '../../../src/core/measure/length.ts';
import { checkPlan } from '../../../src/core/plan/checkPlan.ts';
import type { Dents } from '../../../src/core/plan/plan.ts';
import type { ShelfHeddle, ShelfYarn } from '../../../src/core/plan/shelf.ts';
import { planForShelf, withOnHand } from '../../../src/core/planner/forShelf.ts';
import { newPlan } from '../../../src/core/planner/newPlan.ts';
import { sheetOf } from '../../../src/core/planner/sheet.ts';

const heddle = (dents: Dents, width: number): ShelfHeddle => ({ id: 'h', name: 'h', dents, width });
const TEN = heddle({ count: 10, per: 'inch' }, 400);

const cone = (name: string, left: number | null) => {
  const count = { system: 'cottonCount', number: 8, plies: 4 } as const;
  const yarn: ShelfYarn = {
    id: `cone of ${name}`,
    name,
    colour: '#2d4a73',
    fibre: 'cotton',
    count,
    weighed: [],
  };
  return { yarn, left };
};

describe('a plan for what lies on the shelf', () => {
  it('hangs in the only heddle there is, as wide as that takes, and can be woven', () => {
    const plan = planForShelf(newPlan('metric', 'rigid-heddle'), [TEN], []);
    // 40 cm at 10 to the inch: 157.48 slots and holes, in loops of two.
    expect(plan.warp.order).toEqual([{ kind: 'solid', yarn: 'A', ends: 156 }]);
    expect(plan.loom).toMatchObject({ dents: TEN.dents, weavingWidth: 400, frontTieOn: 200 });
    // As 2.5 mm lie beside ends of 2 mm, so 3.175 beside ends of 2.54.
    expect(plan.weaving.pickSpacing).toBeCloseTo(3.175, 9);
    expect(checkPlan(plan)).toMatchObject({ ok: true });
    expect(sheetOf(plan).dents.fits).toBe(true);
  });

  it('is no wider than wished in a heddle that would take more', () => {
    const wide = heddle({ count: 50, per: '10cm' }, 1200);
    const plan = newPlan('metric', 'rigid-heddle');
    expect(planForShelf(plan, [wide], []).warp.order).toEqual(plan.warp.order);
  });

  it('leaves the loom alone where there is none or more than one to choose from', () => {
    const plan = newPlan('inch', 'rigid-heddle');
    expect(planForShelf(plan, [], [])).toEqual(plan);
    expect(planForShelf(plan, [TEN, TEN], [])).toEqual(plan);
  });

  it('is planned in the few yarns there are, the one with the most left as A', () => {
    const yarns = [cone('rust', null), cone('indigo', 220), cone('natural', 250)];
    const plan = planForShelf(newPlan('metric', 'rigid-heddle'), [], yarns);
    expect(plan.yarns.map(({ letter, name, onHand }) => [letter, name, onHand])).toEqual([
      ['A', 'natural', 250],
      ['B', 'indigo', 220],
      ['C', 'rust', undefined],
    ]);
    expect(plan.yarns[0]?.shelf).toBe('cone of natural');
    expect(checkPlan(plan)).toMatchObject({ ok: true });
  });

  it('keeps its own yarn where the weaver has many to choose from', () => {
    const yarns = ['1', '2', '3', '4', '5'].map((name) => cone(name, 100));
    const plan = newPlan('metric', 'rigid-heddle');
    expect(planForShelf(plan, [], yarns)).toEqual(plan);
  });

  it('fits any heddle of a loom', () => {
    const dents = fc.oneof(
      fc.record({
        count: fc.integer({ min: 10, max: 40 }).map((n) => n / 2),
        per: fc.constant('inch' as const),
      }),
      fc.record({ count: fc.integer({ min: 20, max: 80 }), per: fc.constant('10cm' as const) }),
    );
    fc.assert(
      fc.property(
        dents,
        fc.integer({ min: 100, max: 1500 }),
        fc.constantFrom(...UNITS),
        (by, width, units) => {
          const plan = planForShelf(newPlan(units, 'rigid-heddle'), [heddle(by, width)], []);
          expect(checkPlan(plan)).toMatchObject({ ok: true });
          expect(sheetOf(plan).dents.fits).toBe(true);
        },
      ),
    );
  });
});

describe('a plan woven once more', () => {
  const plan = planForShelf(
    newPlan('metric', 'rigid-heddle'),
    [],
    [cone('natural', 450), cone('indigo', 250), cone('rust', null)],
  );
  const own = {
    ...plan,
    yarns: plan.yarns.map((yarn) => ({ ...yarn, onHand: yarn.onHand ?? 90 })),
  };

  it('has on hand what the first warp left, and as said before what is not weighed or not on the shelf', () => {
    const again = withOnHand(own, [cone('natural', 227), cone('rust', null)]);
    expect(again.yarns.map(({ name, onHand }) => [name, onHand])).toEqual([
      ['natural', 227],
      ['indigo', 250],
      ['rust', 90],
    ]);
  });
});
