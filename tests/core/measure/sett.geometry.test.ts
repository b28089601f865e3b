import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { MM_PER_INCH } from '../../../src/core/measure/length.ts';
import {
  arealMass,
  balancedCrimp,
  crimpFromWave,
  jammedCrimp,
  peirceDiameter,
} from '../../../src/core/measure/sett.ts';
import { texOf } from '../../../src/core/measure/yarnCount.ts';

const inch = MM_PER_INCH;

function cotton(number: number, plies = 1): number {
  return texOf({ system: 'cottonCount', number, plies });
}

describe('the geometry of plain cloth', () => {
  it('gives square jammed cloth a crimp of 0.2092 (PEI)', () => {
    expect(Math.abs(jammedCrimp(1 / 2) - 0.2092)).toBeLessThanOrEqual(1e-4);
  });

  it('gives 8/2 cotton at 20 × 20 a crimp of 7.2 % by h = (4/3)·p·√c, d = 1/(28√Ne) in (PEI)', () => {
    const diameter = peirceDiameter(cotton(8, 2));
    expect(diameter / inch).toBeCloseTo(1 / 56, 9);
    expect(Math.abs(100 * balancedCrimp(diameter, 20) - 7.2)).toBeLessThanOrEqual(0.05);
  });

  it('undoes h = (4/3)·p·√c', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.001, max: 0.5, noNaN: true }),
        fc.double({ min: 0.1, max: 10, noNaN: true }),
        (crimp, p) => {
          expect(crimpFromWave((4 / 3) * p * Math.sqrt(crimp), p)).toBeCloseTo(crimp, 9);
        },
      ),
    );
  });

  it('crimps a jammed thread the more, the more of the throw it takes', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 0.98, noNaN: true }), (share) => {
        expect(jammedCrimp(share + 0.01)).toBeGreaterThan(jammedCrimp(share));
      }),
    );
  });

  it('weighs (epi(1+c₁)/Ne₁ + ppi(1+c₂)/Ne₂) × 23.25 g/m² (rule)', () => {
    const one = { sett: 1, tex: cotton(1), crimp: 0 };
    const none = { sett: 0, tex: cotton(1), crimp: 0 };
    expect(Math.abs(arealMass(one, none) - 23.25)).toBeLessThanOrEqual(0.001);
    expect(Math.abs(arealMass(none, one) - 23.25)).toBeLessThanOrEqual(0.001);
    const towel = arealMass(
      { sett: 20, tex: cotton(8, 2), crimp: 0.08 },
      { sett: 18, tex: cotton(10), crimp: 0.06 },
    );
    expect(towel).toBeCloseTo(23.25 * ((20 * 1.08) / 4 + (18 * 1.06) / 10), 1);
  });
});
