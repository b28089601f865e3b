import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FIBRES } from '../../../../src/core/measure/sett.ts';
import type { Plan } from '../../../../src/core/plan/plan.ts';
import { sheetOf } from '../../../../src/core/planner/sheet.ts';
import { BASE, checked, INCH, planOf } from '../../plan/samples.ts';
import { cotton, exampleOf, stripesOf, warpedWith } from '../examples.ts';

function adviceFor(ne: number, plies: number, epi: number) {
  const plan = exampleOf({ ends: 10, epi, lengths: [10], warp: cotton(ne, plies) });
  const [a, b] = plan.yarns;
  return sheetOf(checked({ ...plan, yarns: [{ ...a, fibre: 'cotton' }, b] })).advice;
}

describe('sett advice by Ashenhurst’s rule', () => {
  it.each([
    [15, 106.5],
    [26, 140.5],
    [32, 156],
  ])('a warp of cotton %ds has %d ends touching per inch, by k = 0.95 (TAY p. 453)', (ne, n) => {
    const advice = adviceFor(ne, 1, 20);
    expect(Math.abs(advice.touching * INCH - n)).toBeLessThanOrEqual(0.7);
    expect(advice.constants).toEqual([{ yarn: 0, k: 0.95 }]);
    expect(advice.closest).toBeCloseTo(advice.touching / 2, 12);
  });

  it('a yarn whose fibre was not said goes by k = 0.90: cotton 40s then 165 (ASH)', () => {
    const plan = exampleOf({ ends: 10, epi: 10, lengths: [10], warp: cotton(40) });
    expect(Math.abs(sheetOf(plan).advice.touching * INCH - 165)).toBeLessThanOrEqual(0.05);
  });

  // 8/2 cotton is set at 18 to 24 ends an inch (practice); the closest plain sett by the rule is 27.5.
  it.each([
    [12, 'open', 'open', 'open', 'open'],
    [18, 'within', 'open', 'open', 'within'],
    [21, 'within', 'open', 'within', 'close'],
    [23, 'within', 'within', 'close', 'close'],
    [26, 'close', 'close', 'close', 'close'],
    [28, 'too-close', 'too-close', 'too-close', 'too-close'],
  ])('8/2 cotton at %d is %s: firm %s, towel %s, drape %s', (epi, verdict, firm, towel, drape) => {
    const advice = adviceFor(8, 2, epi);
    expect(advice.verdict).toBe(verdict);
    expect(advice.uses.map((it) => [it.use, it.verdict])).toEqual([
      ['firm', firm],
      ['towel', towel],
      ['drape', drape],
    ]);
    expect(advice.ratio).toBeCloseTo(epi / (0.475 * Math.sqrt(3360)), 9);
  });

  it('a towel takes 75 to 80 % of the closest sett (practice)', () => {
    const { uses, closest } = adviceFor(8, 2, 20);
    const towel = uses.find((it) => it.use === 'towel');
    expect(towel?.from).toBeCloseTo(0.75 * closest, 12);
    expect(towel?.to).toBeCloseTo(0.8 * closest, 12);
  });

  it('knows a constant for every fibre a yarn may have', () => {
    for (const fibre of FIBRES) {
      const yarns = BASE.yarns.map((yarn) => ({ ...yarn, fibre }));
      expect(sheetOf(planOf({ yarns })).advice.touching).toBeGreaterThan(0);
    }
  });
});

describe('a mixed warp', () => {
  const mixed = (order: string): Plan => {
    const plan = warpedWith('AB', stripesOf(order));
    const [a, b] = plan.yarns;
    return checked({
      ...plan,
      yarns: [
        { ...a, count: cotton(8, 4) },
        { ...b, count: cotton(32, 1) },
      ],
    });
  };
  const touching = (order: string) => sheetOf(mixed(order)).advice.touching;

  it('lies side by side as its ends do: as wide as all of them together', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 200 }), fc.integer({ min: 1, max: 200 }), (a, b) => {
        const width = a / touching('A10') + b / touching('B10');
        expect((a + b) / touching(`A${a} B${b}`)).toBeCloseTo(width, 9);
      }),
      { numRuns: 40 },
    );
  });

  it('names the constant of the yarns in the warp only', () => {
    expect(sheetOf(mixed('B10')).advice.constants.map((it) => it.yarn)).toEqual([1]);
    expect(sheetOf(mixed('A1 B10')).advice.constants.map((it) => it.yarn)).toEqual([0, 1]);
  });
});
