import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clothKindOf, likenessOf } from '../../../src/core/learn/clothKind.ts';
import { checkPlan } from '../../../src/core/plan/checkPlan.ts';
import { reedWidth, warpEnds } from '../../../src/core/plan/geometry.ts';
import { samplePlan } from '../../../src/core/planner/samplePlan.ts';
import { anyPlan } from '../bench/arbitraries.ts';
import { checked, demo } from '../plan/samples.ts';

describe('a sample', () => {
  it('of the towels is 6 in wide and 8 in long, in all their yarns', () => {
    const sample = samplePlan(checked(demo('moss-and-chalk')));
    expect(reedWidth(sample) / 25.4).toBeCloseTo(6, 0);
    expect(sample.pieces).toHaveLength(1);
    expect(sample.warp.order.map((it) => (it.kind === 'solid' ? it.yarn : ''))).toEqual([
      'B',
      'A',
      'C',
    ]);
    expect(sample.name).toBe('Two hand towels in moss and chalk, sample');
  });

  it('is a plan, no wider than the one it is for, and of the same cloth', () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        const sample = samplePlan(plan);
        expect(checkPlan(sample).ok).toBe(true);
        expect(warpEnds(sample)).toBeLessThanOrEqual(warpEnds(plan));
        expect(likenessOf(clothKindOf(plan), clothKindOf(sample))).toBe('same');
      }),
    );
  });
});
