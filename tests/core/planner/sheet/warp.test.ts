import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Plan } from '../../../../src/core/plan/plan.ts';
import { usualWay, warpingList } from '../../../../src/core/plan/warping.ts';
import { sheetOf } from '../../../../src/core/planner/sheet.ts';
import { BASE, checked, INCH, planOf } from '../../plan/samples.ts';
import { stripesOf } from '../examples.ts';

const DENT = INCH / 10;

/** A heddle or reed of ten dents per inch, so many dents wide. */
function onLoom(dents: number, ends: number, changes: Partial<Plan['warp']> = {}): Plan {
  const loom = { ...BASE.loom, dents: { count: 10, per: 'inch' }, weavingWidth: dents * DENT };
  return checked({
    ...BASE,
    loom,
    warp: { ...BASE.warp, order: stripesOf(`A${ends}`), ...changes },
  });
}

function onShafts(dents: number, ends: number, endsPerDent: number): Plan {
  const { firstEnd: _none, ...warp } = BASE.warp;
  return checked({
    ...BASE,
    loom: {
      ...BASE.loom,
      kind: 'shaft',
      dents: { count: 10, per: 'inch' },
      endsPerDent,
      weavingWidth: dents * DENT,
    },
    warp: { ...warp, order: stripesOf(`A${ends}`) },
    pieces: BASE.pieces.map((piece) => ({ ...piece, startShed: 'odd' })),
  });
}

describe('the warp in its reed', () => {
  it.each([
    [100, 40, 30],
    [100, 41, 29],
    [101, 40, 30],
    [100, 100, 0],
  ])(
    'of %d dents begins, with %d ends one a dent, in dent %d (counted from 0)',
    (n, ends, first) => {
      const { dents } = sheetOf(onShafts(n, ends, 1));
      expect(dents).toMatchObject({ onLoom: n, used: ends, first, firstSlot: null, fits: true });
    },
  );

  it('with two ends a dent takes half as many dents, an odd end one by itself', () => {
    expect(sheetOf(onShafts(100, 80, 2)).dents).toMatchObject({ used: 40, first: 30 });
    expect(sheetOf(onShafts(100, 81, 2)).dents).toMatchObject({ used: 41, first: 29 });
  });
});

describe('the warp in its heddle', () => {
  it.each([
    ['slot', 100, 40, 30, 15],
    ['slot', 100, 38, 30, 15],
    ['slot', 100, 42, 28, 14],
    ['hole', 100, 40, 29, 15],
    ['hole', 100, 38, 31, 16],
    ['slot', 100, 100, 0, 0],
    ['hole', 101, 99, 1, 1],
  ] as const)(
    'begins with a %s: of %d dents, with %d ends, in dent %d, and slot %d is the first',
    (firstEnd, n, ends, first, firstSlot) => {
      expect(sheetOf(onLoom(n, ends, { firstEnd })).dents).toMatchObject({ first, firstSlot });
    },
  );

  it('leaves a dent free at each side for floating selvedges', () => {
    const floatingSelvedges = { yarn: 'A' };
    const { dents } = sheetOf(onLoom(100, 96, { floatingSelvedges }));
    expect(dents).toMatchObject({ used: 96, floating: 2, first: 2, fits: true });
    expect(dents.room).toBeCloseTo(2 * DENT, 9);
    expect(sheetOf(onLoom(100, 99, { floatingSelvedges })).dents.fits).toBe(false);
    expect(sheetOf(onLoom(100, 98, { floatingSelvedges })).dents.first).toBe(2);
  });

  it.each([90, 95, 96, 97, 98, 99, 100])(
    'begins where the warping list puts the first of %d ends, nearly full and with floating selvedges too',
    (ends) => {
      for (const firstEnd of ['slot', 'hole'] as const) {
        for (const warp of [{ firstEnd }, { firstEnd, floatingSelvedges: { yarn: 'A' } }]) {
          const plan = onLoom(100, ends, warp);
          const way = { ...usualWay(plan), method: 'ends', warpLength: 2000 } as const;
          const { start } = warpingList(plan, way);
          const { first, firstSlot } = sheetOf(plan).dents;
          expect(first).toBeGreaterThanOrEqual(0);
          expect(start.index).toBe(firstSlot);
        }
      }
    },
  );

  it('lies centred as nearly as slot or hole allow: off by a dent at most', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 4, max: 300 }),
        fc.integer({ min: 2, max: 300 }),
        fc.constantFrom('slot' as const, 'hole' as const),
        (room, ends, firstEnd) => {
          const total = ends + room;
          const { dents } = sheetOf(onLoom(total, ends, { firstEnd }));
          expect(dents.first % 2).toBe(firstEnd === 'slot' ? 0 : 1);
          expect(Math.abs(dents.offCentre)).toBeLessThanOrEqual(DENT + 1e-9);
          const left = dents.first;
          const right = total - dents.first - ends;
          expect((left - right) / 2).toBeCloseTo(dents.offCentre / DENT, 6);
          expect(Math.min(left, right)).toBeGreaterThanOrEqual(0);
        },
      ),
    );
  });
});

describe('the stripes of a warp', () => {
  it('are merged, and told whether they mirror', () => {
    const order = [
      ...stripesOf('A4 A2 B3'),
      { kind: 'mirror' as const, centre: 'shared' as const, of: stripesOf('B1 A6') },
    ];
    const { warp } = sheetOf(planOf({ warp: { ...BASE.warp, order } }));
    expect(warp.runs).toEqual([
      { of: 0, count: 6 },
      { of: 1, count: 4 },
      { of: 0, count: 6 },
      { of: 1, count: 1 },
    ]);
    expect(warp.mirrored).toBe(false);
    const other = planOf({ warp: { ...BASE.warp, order: stripesOf('A4 B3 A4') } });
    expect(sheetOf(other).warp.mirrored).toBe(true);
  });
});
