import fc from 'fast-check';
import { erf } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { believed, normal } from '../../../../src/core/bench/beat/quantiles.ts';

describe('the normal distribution', () => {
  // Any printed table of it; Abramowitz & Stegun, table 26.1.
  it.each([
    [0, 0.5],
    [1, 0.84134],
    [1.64485, 0.95],
    [-1.95996, 0.025],
    [3, 0.99865],
  ])('up to %d standard deviations holds %d', (z, share) => {
    expect(normal(z)).toBeCloseTo(share, 5);
  });

  it('is that of mathjs to within 1.5e-7', () => {
    fc.assert(
      fc.property(fc.double({ min: -9, max: 9, noNaN: true }), (z) => {
        expect(Math.abs(normal(z) - (1 + erf(z / Math.SQRT2)) / 2)).toBeLessThan(1.5e-7);
      }),
    );
  });
});

const guess = fc.record({
  weight: fc.double({ min: 0.001, max: 1, noNaN: true }),
  mean: fc.double({ min: -50, max: 500, noNaN: true }),
  sd: fc.oneof(fc.constant(0), fc.double({ min: 0.01, max: 60, noNaN: true })),
});

describe('what is believed', () => {
  it('of one guess is its mean, 1.645 standard deviations to either side', () => {
    const { mm, low, high, sd } = believed([{ weight: 0.3, mean: 100, sd: 10 }]);
    expect([mm, low, high, sd].map((it) => Number(it.toFixed(2)))).toEqual([
      100, 83.55, 116.45, 10,
    ]);
  });

  it('of two far apart reaches from the one to the other', () => {
    // Half of each: 5 % of all are 10 % of the lower one, 1.2816 standard deviations below it.
    const { low, high, sd } = believed([
      { weight: 2, mean: 0, sd: 1 },
      { weight: 2, mean: 100, sd: 1 },
    ]);
    expect(low).toBeCloseTo(-1.2816, 3);
    expect(high).toBeCloseTo(101.2816, 3);
    expect(sd).toBeCloseTo(Math.sqrt(2501), 6);
  });

  it('of what is known exactly is just that', () => {
    const { mm, low, high, sd } = believed([{ weight: 1, mean: 7, sd: 0 }]);
    for (const it of [mm, low, high]) expect(it).toBeCloseTo(7, 6);
    expect(sd).toBe(0);
  });

  it('has 5 %, 50 % and 95 % of the weight below low, middle and high', () => {
    fc.assert(
      fc.property(fc.array(guess, { minLength: 1, maxLength: 6 }), (guesses) => {
        const { mm, low, high } = believed(guesses);
        const whole = guesses.reduce((sum, { weight }) => sum + weight, 0);
        const below = (x: number) =>
          guesses.reduce(
            (sum, { weight, mean, sd }) =>
              sum +
              weight * (sd === 0 ? Number(mean <= x) : (1 + erf((x - mean) / sd / Math.SQRT2)) / 2),
            0,
          ) / whole;
        for (const [x, share] of [
          [low, 0.05],
          [mm, 0.5],
          [high, 0.95],
        ] as const) {
          expect(below(x - 1e-5)).toBeLessThanOrEqual(share + 1e-5);
          expect(below(x + 1e-5)).toBeGreaterThanOrEqual(share - 1e-5);
        }
      }),
    );
  });
});
