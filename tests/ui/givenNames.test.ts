import { describe, expect, it } from 'vitest';
import { newPlan } from '../../src/core/planner/newPlan.ts';
import { anotherYarn } from '../../src/core/planner/nextYarn.ts';
import { samplePlan } from '../../src/core/planner/samplePlan.ts';
import { freshPlan, freshSample, freshYarn } from '../../src/ui/givenNames.ts';

describe('in English the names given to what is new are those it is made with', () => {
  it.each(['rigid-heddle', 'shaft'] as const)('a plan for %s', (kind) => {
    const plan = newPlan('inch', kind);
    expect(freshPlan(plan)).toEqual(plan);
    expect(freshSample(plan)).toEqual(samplePlan(plan));
  });

  it('yarns, as many as there are colours and more', () => {
    let yarns = newPlan('metric', 'shaft').yarns;
    for (const letter of 'BCDEFGHI') {
      expect(freshYarn(yarns, letter)).toEqual(anotherYarn(yarns, letter));
      yarns = [...yarns, anotherYarn(yarns, letter)];
    }
  });
});
