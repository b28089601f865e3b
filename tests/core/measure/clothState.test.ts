import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Allowances } from '../../../src/core/measure/clothState.ts';
import {
  loomLengthFor,
  loomLengthFromWarp,
  loomWidth,
  offLength,
  reedWidthFor,
  warpFor,
  washedBeat,
  washedLength,
  washedSett,
  washedWidth,
  weftPerPick,
} from '../../../src/core/measure/clothState.ts';
import { MM_PER_INCH, MM_PER_YARD, roundUpWarp } from '../../../src/core/measure/length.ts';
import { threadsIn } from '../../../src/core/measure/sett.ts';

const inch = MM_PER_INCH;
const none: Allowances = {
  drawIn: 0,
  relax: 0,
  shrinkWidth: 0,
  shrinkLength: 0,
  warpTaken: 0,
  weftExtra: 0,
};

const share = fc.double({ min: 0, max: 0.4, noNaN: true });
const anyAllowances: fc.Arbitrary<Allowances> = fc.record({
  drawIn: share,
  relax: share,
  shrinkWidth: share,
  shrinkLength: share,
  warpTaken: share,
  weftExtra: share,
});
const size = fc.double({ min: 1, max: 1e5, noNaN: true });

describe('cloth from state to state', () => {
  it('of 14 in in the reed, 9 % drawn in and 12 % shrunk, is 11.21 in washed (rule)', () => {
    const a = { ...none, drawIn: 0.09, shrinkWidth: 0.12 };
    expect(washedWidth(14 * inch, a) / inch).toBeCloseTo(11.21, 2);
    expect(loomWidth(14 * inch, a) / inch).toBeCloseTo(12.74, 9);
  });

  it('wants 12.5 in for 10 in washed at 20 % shrinkage, in length and in width (CNC)', () => {
    expect(loomLengthFor(10 * inch, { ...none, shrinkLength: 0.2 }) / inch).toBeCloseTo(12.5, 9);
    expect(reedWidthFor(10 * inch, { ...none, shrinkWidth: 0.2 }) / inch).toBeCloseTo(12.5, 9);
    expect(washedLength(12 * inch, { ...none, shrinkLength: 0.2 }) / inch).toBeCloseTo(9.6, 9);
  });

  it('eases off the loom before it is washed: 100 by 3 % and 10 % is 97, then 87.3 (rule)', () => {
    const a = { ...none, relax: 0.03, shrinkLength: 0.1 };
    expect(offLength(100, a)).toBeCloseTo(97, 9);
    expect(washedLength(100, a)).toBeCloseTo(87.3, 9);
  });

  it('takes 180 in of warp for 4 pieces of 34 in, take-up 13 in, waste 31 in (IWL)', () => {
    const pieces = 4 * 34 * inch;
    const warp = warpFor(pieces, { ...none, warpTaken: 13 / (4 * 34) }) + 31 * inch;
    expect(warp / inch).toBeCloseTo(180, 9);
    expect(roundUpWarp(warp, 'inch') / MM_PER_YARD).toBeCloseTo(5, 9);
  });

  it('takes 1222.2 yd of weft for (20 in + 10 %) × 20 ppi × 100 in (CMF)', () => {
    const perPick = weftPerPick(20 * inch, { ...none, weftExtra: 0.1 });
    const yards = (perPick * threadsIn(100 * inch, 20)) / MM_PER_YARD;
    expect(Math.abs(yards - 1222.2)).toBeLessThanOrEqual(0.05);
  });

  it('comes back to the size wished', () => {
    fc.assert(
      fc.property(size, anyAllowances, (wished, a) => {
        expect(washedLength(loomLengthFor(wished, a), a) / wished).toBeCloseTo(1, 9);
        expect(washedWidth(reedWidthFor(wished, a), a) / wished).toBeCloseTo(1, 9);
        expect(loomLengthFromWarp(warpFor(wished, a), a) / wished).toBeCloseTo(1, 9);
      }),
    );
  });

  it('never grows on its way, and never takes less yarn than cloth', () => {
    fc.assert(
      fc.property(size, anyAllowances, (start, a) => {
        expect(offLength(start, a)).toBeLessThanOrEqual(start);
        expect(washedLength(start, a)).toBeLessThanOrEqual(offLength(start, a));
        expect(washedWidth(start, a)).toBeLessThanOrEqual(loomWidth(start, a));
        expect(warpFor(start, a)).toBeGreaterThanOrEqual(start);
        expect(weftPerPick(start, a)).toBeGreaterThanOrEqual(start);
      }),
    );
  });

  it('keeps its threads: sett × width and beat × length stay the same', () => {
    fc.assert(
      fc.property(size, anyAllowances, (start, a) => {
        expect((washedSett(12, a) * washedWidth(start, a)) / (12 * start)).toBeCloseTo(1, 9);
        expect((washedBeat(12, a) * washedLength(start, a)) / (12 * start)).toBeCloseTo(1, 9);
      }),
    );
  });
});
