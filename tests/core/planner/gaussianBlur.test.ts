import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { blurReach, gaussianBlur } from '../../../src/core/planner/gaussianBlur.ts';

/** A single one in the middle of enough nothing. */
function impulse(spread: number): Float64Array {
  const reach = blurReach(spread);
  const values = new Float64Array(2 * reach + 1);
  values[reach] = 1;
  return values;
}

const anySpread = fc.double({ min: 0.6, max: 40, noNaN: true });

describe('a blur', () => {
  it.each([0.6, 1, 2.5, 7.9])('of %d places is the bell, exactly', (spread) => {
    const seen = gaussianBlur(impulse(spread), spread);
    const middle = (seen.length - 1) / 2;
    const bell = Array.from(seen, (_, i) => Math.exp(-(((i - middle) / spread) ** 2) / 2));
    const sum = bell.reduce((total, value) => total + value, 0);
    for (const [i, value] of seen.entries()) expect(value).toBeCloseTo((bell[i] ?? 0) / sum, 12);
  });

  it.each([8, 12.3, 40])('of %d places is the bell to 5 % of its height', (spread) => {
    const seen = gaussianBlur(impulse(spread), spread);
    const middle = (seen.length - 1) / 2;
    const top = 1 / (spread * Math.sqrt(2 * Math.PI));
    for (const [i, value] of seen.entries()) {
      const bell = top * Math.exp(-(((i - middle) / spread) ** 2) / 2);
      expect(Math.abs(value - bell)).toBeLessThan(0.05 * top);
    }
  });

  it('takes nothing away and adds nothing, and spreads as far as it says', () => {
    fc.assert(
      fc.property(anySpread, (spread) => {
        const seen = gaussianBlur(impulse(spread), spread);
        const middle = (seen.length - 1) / 2;
        const sum = seen.reduce((total, value) => total + value, 0);
        const spreadOf = Math.sqrt(
          seen.reduce((total, value, i) => total + value * (i - middle) ** 2, 0),
        );
        expect(sum).toBeCloseTo(1, 9);
        expect(Math.abs(spreadOf / spread - 1)).toBeLessThan(0.05);
      }),
    );
  });

  it('leaves an even row even, away from its ends', () => {
    fc.assert(
      fc.property(anySpread, (spread) => {
        const reach = blurReach(spread);
        const seen = gaussianBlur(new Float64Array(2 * reach + 5).fill(7), spread);
        for (let i = reach; i < reach + 5; i++) expect(seen[i]).toBeCloseTo(7, 9);
      }),
    );
  });

  it('of nothing changes nothing', () => {
    const values = Float64Array.from([1, 5, 2]);
    expect(gaussianBlur(values, 0)).toEqual(values);
    expect(blurReach(0)).toBe(0);
  });
});
