import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { MM_PER_INCH, MM_PER_YARD } from '../../../src/core/measure/length.ts';
import {
  afterLosses,
  beforeLosses,
  crimpFromTakeUp,
  crimpOf,
  dimensionalChange,
  lossOf,
  takeUpFromCrimp,
  takeUpOf,
} from '../../../src/core/measure/takeUp.ts';

const fraction = fc.double({ min: 0, max: 0.6, noNaN: true });
const size = fc.double({ min: 1, max: 1e5, noNaN: true });

describe('crimp and take-up', () => {
  it('of 95 straightened from 90 in cloth are 5.556 % and 5.263 % (D3883)', () => {
    expect(100 * crimpOf(95, 90)).toBeCloseTo(5.556, 3);
    expect(100 * takeUpOf(95, 90)).toBeCloseTo(5.263, 3);
  });

  it('of 95 yd of warp for 90 yd of cloth are 5.56 % and 5.26 % (TAY p. 245, D3883)', () => {
    const [warp, cloth] = [95 * MM_PER_YARD, 90 * MM_PER_YARD];
    expect(Math.abs(100 * crimpOf(warp, cloth) - 5.56)).toBeLessThanOrEqual(0.01);
    expect(Math.abs(100 * takeUpOf(warp, cloth) - 5.26)).toBeLessThanOrEqual(0.01);
  });

  it.each([
    [5, 4.762],
    [10, 9.091],
    [12, 10.714],
    [25, 20],
  ])('a crimp of %d %% is a take-up of %d %% (rule)', (crimp, takeUp) => {
    expect(100 * takeUpFromCrimp(crimp / 100)).toBeCloseTo(takeUp, 3);
    expect(100 * crimpFromTakeUp(takeUp / 100)).toBeCloseTo(crimp, 2);
  });

  it('are one fact seen from the cloth and from the yarn', () => {
    fc.assert(
      fc.property(size, fraction, (cloth, crimp) => {
        const yarn = cloth * (1 + crimp);
        expect(takeUpFromCrimp(crimpOf(yarn, cloth))).toBeCloseTo(takeUpOf(yarn, cloth), 9);
        expect(crimpFromTakeUp(takeUpFromCrimp(crimp))).toBeCloseTo(crimp, 9);
      }),
    );
  });
});

describe('shrinkage', () => {
  it('of 27 to 25.5 in is a dimensional change of −5.56 % (I5077, sign from memory)', () => {
    expect(dimensionalChange(27 * MM_PER_INCH, 25.5 * MM_PER_INCH)).toBeCloseTo(-5.56, 2);
    expect(lossOf(27, 25.5)).toBeCloseTo(0.0556, 4);
  });

  it('of 20 % wants 12.5 in woven for 10 in; 12 in would end at 9.6 (CNC)', () => {
    expect(beforeLosses(10, [0.2])).toBeCloseTo(12.5, 9);
    expect(afterLosses(12, [0.2])).toBeCloseTo(9.6, 9);
  });

  it('in two stages of 9 % and 12 % leaves 11.21 of 14 in (rule)', () => {
    expect(afterLosses(14, [0.09, 0.12])).toBeCloseTo(11.21, 2);
  });

  it('is undone by starting larger, in any number of stages', () => {
    fc.assert(
      fc.property(size, fc.array(fraction, { maxLength: 4 }), (wished, losses) => {
        expect(afterLosses(beforeLosses(wished, losses), losses) / wished).toBeCloseTo(1, 9);
      }),
    );
  });

  it('is stored as the loss and shown as the change, of opposite sign', () => {
    fc.assert(
      fc.property(size, size, (before, after) => {
        expect(dimensionalChange(before, after)).toBeCloseTo(-100 * lossOf(before, after), 6);
        expect(afterLosses(before, [lossOf(before, after)]) / after).toBeCloseTo(1, 6);
      }),
    );
  });
});
