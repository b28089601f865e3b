import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type PieceShare, pooled } from '../../../src/core/learn/pooled.ts';

const shares = (error: number, ...warps: readonly (readonly number[])[]): readonly PieceShare[] =>
  warps.flatMap((own, w) => own.map((share) => ({ warp: `w${w}`, share, error })));

describe('shares pooled', () => {
  it('of one piece: its own share, and twice the usual variance about it', () => {
    // 2 × 0.01² of spread, 0.01² of it the mean's.
    const it = pooled(shares(0, [0.08]));
    expect(it).toMatchObject({ share: 0.08, between: null, within: 0, pieces: 1, warps: 1 });
    expect(it.spread).toBeCloseTo(Math.SQRT2 / 100, 12);
    expect(it.ofMean).toBeCloseTo(0.01, 12);
  });

  it('of three pieces of one warp, by hand', () => {
    // In parts in a hundred: 7, 8, 9. Squares 2 on 2 degrees beside ½ worth 4: (2 + 2) / 6 = ⅔ of
    // pieces. Of means ½ + ½ · ⅓ = ⅔. Spread ⅔ + ⅔ + ⅔ · (1 − ⅓) = 16/9, of it the mean ⅔.
    const it = pooled(shares(0, [0.07, 0.08, 0.09]));
    expect(it.share).toBeCloseTo(0.08, 12);
    expect(it.between).toBeCloseTo(0.01, 12);
    expect(it.spread).toBeCloseTo((4 / 3) * 0.01, 12);
    expect(it.ofMean).toBeCloseTo(Math.sqrt(2 / 3) * 0.01, 12);
  });

  it('of two warps: the mean of their means, however many pieces each has', () => {
    const it = pooled(shares(0, [0.06], [0.08, 0.1]));
    expect(it.share).toBeCloseTo(0.075, 12);
    expect(it).toMatchObject({ pieces: 3, warps: 2 });
  });

  it('readings that leave much open widen it', () => {
    // The readings' 0.03² is in the mean, not in what the next piece is.
    const it = pooled(shares(0.03, [0.08]));
    expect(it.within).toBeCloseTo(0.03, 12);
    expect(it.ofMean).toBeCloseTo(Math.hypot(0.01, 0.03), 12);
    expect(it.spread).toBeCloseTo(Math.sqrt(2 * 0.01 ** 2 + 0.03 ** 2), 12);
  });

  const any = fc.array(
    fc.record({
      warp: fc.constantFrom('a', 'b', 'c'),
      share: fc.double({ min: 0, max: 0.2, noNaN: true }),
      error: fc.double({ min: 0, max: 0.02, noNaN: true }),
    }),
    { minLength: 1, maxLength: 12 },
  );

  it('the share lies between the least and the greatest, its spread above that of the mean', () => {
    fc.assert(
      fc.property(any, (list) => {
        const it = pooled(list);
        const all = list.map((one) => one.share);
        expect(it.share).toBeGreaterThanOrEqual(Math.min(...all) - 1e-12);
        expect(it.share).toBeLessThanOrEqual(Math.max(...all) + 1e-12);
        expect(it.spread).toBeGreaterThanOrEqual(it.ofMean);
        expect(it.ofMean).toBeGreaterThan(0);
      }),
    );
  });

  it('the order of the pieces does not matter', () => {
    fc.assert(
      fc.property(any, (list) => {
        const [one, other] = [pooled(list), pooled([...list].reverse())];
        expect(other.share).toBeCloseTo(one.share, 12);
        expect(other.spread).toBeCloseTo(one.spread, 12);
      }),
    );
  });

  it('warps that agree make the mean surer, one after another', () => {
    const of = (n: number) => pooled(shares(0, ...Array.from({ length: n }, () => [0.08]))).ofMean;
    expect([1, 2, 3, 6].map(of)).toEqual([1, 2, 3, 6].map(of).toSorted((a, b) => b - a));
  });

  it('nothing cannot be pooled', () => {
    expect(() => pooled([])).toThrow('got none');
  });
});
