import fc from 'fast-check';
import { gamma } from 'mathjs';
import { describe, expect, it } from 'vitest';
import {
  addedUp,
  meanOf,
  nineInTen,
  spreadOf,
  squaresOf,
  studentNineInTen,
} from '../../../src/core/measure/spread.ts';

describe('Student’s t, one in twenty beyond it', () => {
  // NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.2, column 0.95 (table from memory,
  // each row recomputed below by integrating the density).
  it.each([
    [1, 6.314],
    [2, 2.92],
    [3, 2.353],
    [4, 2.132],
    [5, 2.015],
    [6, 1.943],
    [7, 1.895],
    [8, 1.86],
    [9, 1.833],
    [10, 1.812],
    [12, 1.782],
    [15, 1.753],
    [20, 1.725],
    [30, 1.697],
    [60, 1.671],
    [100, 1.66],
    [Number.POSITIVE_INFINITY, 1.645],
  ])('with %d degrees of freedom is %d', (freedom, t) => {
    expect(Math.abs(studentNineInTen(freedom) - t)).toBeLessThanOrEqual(0.0006);
  });

  it.each([3, 3.5, 4, 5.25, 7, 11.4, 25, 80])(
    'with %d degrees leaves 90 %% between, by integrating the density (gamma of mathjs)',
    (freedom) => {
      expect(shareWithin(studentNineInTen(freedom), freedom)).toBeCloseTo(0.9, 3);
    },
  );

  it('falls as the degrees of freedom grow', () => {
    fc.assert(
      fc.property(fc.double({ min: 3, max: 500, noNaN: true }), (freedom) => {
        expect(studentNineInTen(freedom + 1)).toBeLessThan(studentNineInTen(freedom));
        expect(studentNineInTen(freedom)).toBeGreaterThan(1.644);
      }),
    );
  });

  it.each([0, 0.5, Number.NaN])('refuses %d degrees of freedom', (freedom) => {
    expect(() => studentNineInTen(freedom)).toThrow('wanted 1 or more');
  });
});

/** Simpson's rule over Student's density between −t and t. */
function shareWithin(t: number, freedom: number): number {
  const scale = gamma((freedom + 1) / 2) / (Math.sqrt(freedom * Math.PI) * gamma(freedom / 2));
  const density = (x: number) => scale * (1 + (x * x) / freedom) ** (-(freedom + 1) / 2);
  const steps = 2000;
  const h = (2 * t) / steps;
  let sum = 0;
  for (let i = 0; i <= steps; i++) {
    const weight = i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2;
    sum += weight * density(-t + i * h);
  }
  return (sum * h) / 3;
}

describe('several readings', () => {
  // 2, 4, 4, 4, 5, 5, 7, 9: mean 5, squares 32, sample deviation √(32/7).
  const readings = [2, 4, 4, 4, 5, 5, 7, 9];

  it('have a mean, a sum of squares and a spread', () => {
    expect(meanOf(readings)).toBe(5);
    expect(squaresOf(readings)).toBe(32);
    expect(spreadOf(readings)).toBeCloseTo(Math.sqrt(32 / 7), 12);
  });

  it('that are one only say nothing of their spread', () => {
    expect(spreadOf([3])).toBeNull();
    expect(meanOf([3])).toBe(3);
    expect(() => meanOf([])).toThrow('got none');
  });
});

describe('errors added up', () => {
  it('add in squares, with the degrees of freedom of Welch and Satterthwaite', () => {
    // 3² + 4² = 25; 625 / (81/4 + 256/9) = 12.83.
    const sum = addedUp([
      { spread: 3, freedom: 4 },
      { spread: 4, freedom: 9 },
    ]);
    expect(sum.spread).toBeCloseTo(5, 12);
    expect(sum.freedom).toBeCloseTo(625 / (81 / 4 + 256 / 9), 12);
  });

  it('have no more freedom than all parts together and no less than the least of them', () => {
    const part = fc.record({
      spread: fc.double({ min: 1e-4, max: 1, noNaN: true }),
      freedom: fc.double({ min: 1, max: 50, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(part, { minLength: 1, maxLength: 4 }), (parts) => {
        const { freedom } = addedUp(parts);
        expect(freedom).toBeGreaterThanOrEqual(Math.min(...parts.map((it) => it.freedom)) - 1e-9);
        expect(freedom).toBeLessThanOrEqual(parts.reduce((s, it) => s + it.freedom, 0) + 1e-6);
      }),
    );
  });

  it('of nothing are nothing', () => {
    expect(nineInTen(addedUp([]))).toBe(0);
    expect(nineInTen({ spread: 2, freedom: 4 })).toBeCloseTo(4.264, 3);
  });
});
