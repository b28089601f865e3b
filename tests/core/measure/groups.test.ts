import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { shareIntoGroups } from '../../../src/core/measure/groups.ts';

describe('hemstitch groups', () => {
  it('of 393 ends in sixes are 65, three of them of seven (practice)', () => {
    expect(shareIntoGroups(393, 6)).toEqual({ groups: 65, larger: 3, size: 6 });
  });

  it.each([
    [12, 4, { groups: 3, larger: 0, size: 4 }],
    [11, 6, { groups: 2, larger: 1, size: 5 }],
    [13, 6, { groups: 2, larger: 1, size: 6 }],
    [7, 6, { groups: 1, larger: 0, size: 7 }],
    [4, 6, { groups: 1, larger: 0, size: 4 }],
    [0, 6, { groups: 0, larger: 0, size: 0 }],
  ])('of %d ends in groups of %d are shared as evenly as can be', (ends, wished, shared) => {
    expect(shareIntoGroups(ends, wished)).toEqual(shared);
  });

  it('hold every end, and none is larger than wished by more than one', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 3000 }), fc.integer({ min: 1, max: 12 }), (ends, n) => {
        const { groups, larger, size } = shareIntoGroups(ends, n);
        expect(groups * size + larger).toBe(ends);
        expect(larger).toBeLessThan(groups);
        expect(larger > 0 ? size + 1 : size).toBeLessThanOrEqual(n + 1);
      }),
    );
  });

  it('are of whole ends', () => {
    expect(() => shareIntoGroups(10, 0)).toThrow('got 10 ends in groups of 0');
    expect(() => shareIntoGroups(-1, 4)).toThrow('wanted whole numbers');
    expect(() => shareIntoGroups(10.5, 4)).toThrow('got 10.5 ends');
  });
});
