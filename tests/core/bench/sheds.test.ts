import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NO_ADJUSTMENTS } from '../../../src/core/bench/adjustments.ts';
import { layCourse, shedAgain } from '../../../src/core/bench/course.ts';
import { duesAgain, duesOf } from '../../../src/core/bench/dues.ts';
import { anyPlan } from './arbitraries.ts';

const places = fc.array(fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true }), {
  maxLength: 4,
});

describe('other sheds', () => {
  it('make the course and the dues that laying all of it anew would', () => {
    fc.assert(
      fc.property(anyPlan, places, places, (plan, one, other) => {
        const { picks } = layCourse(plan, NO_ADJUSTMENTS);
        const flipsAt = (shares: readonly number[]) =>
          [...new Set(shares.map((share) => Math.floor(share * picks)))].sort((a, b) => a - b);
        const before = layCourse(plan, { ...NO_ADJUSTMENTS, shedFlips: flipsAt(one) });
        const shedFlips = flipsAt(other);
        const anew = layCourse(plan, { ...NO_ADJUSTMENTS, shedFlips });
        const { course, pieces } = shedAgain(before, shedFlips);
        expect(course).toEqual(anew);
        expect(duesAgain(duesOf(before), course, pieces)).toEqual(duesOf(anew));
      }),
    );
  });
});
