import { describe, expect, it } from 'vitest';
import { isDraft } from '../../../src/core/plan/draftShape.ts';
import { newPlan } from '../../../src/core/planner/newPlan.ts';

const plan = newPlan('inch', 'rigid-heddle');

describe('a stored draft', () => {
  it('need not be a plan: empty orders, wild numbers and strange letters can be mended', () => {
    expect(isDraft(plan)).toBe(true);
    expect(isDraft({ ...plan, name: '', pieces: [], warp: { ...plan.warp, order: [] } })).toBe(
      true,
    );
    expect(isDraft({ ...plan, loom: { ...plan.loom, weavingWidth: -5 } })).toBe(true);
    expect(isDraft({ ...plan, warp: { order: [{ kind: 'solid', yarn: 'Q', ends: 0.5 }] } })).toBe(
      true,
    );
  });

  it.each([
    ['nothing', undefined],
    ['a word', 'towels'],
    ['an empty object', {}],
    ['a plan without a loom', { ...plan, loom: undefined }],
    ['a piece without a weft', { ...plan, pieces: [{ name: 'Towel' }] }],
    ['a row that is no row', { ...plan, warp: { order: ['24 A'] } }],
    ['a yarn without a colour', { ...plan, yarns: [{ ...plan.yarns[0], colour: 'moss' }] }],
  ])('that cannot be shown is left where it is: %s', (_, input) => {
    expect(isDraft(input)).toBe(false);
  });
});
