import { describe, expect, it } from 'vitest';
import type { Happening } from '../../../../src/core/bench/events.ts';
import { loomLeft } from '../../../../src/core/planner/motif/loomLeft.ts';
import { having, thrown } from '../../bench/logs.ts';
import { pieceOf, planOf, planWeaving, solid, yarns } from '../../plan/samples.ts';

const of = (yarn: string, picks: number): Happening => ({ kind: 'thrownOf', yarn, picks });
const left = (plan: Parameters<typeof having>[0], ...log: readonly Happening[]) => {
  const { course, pick } = having(plan, ...log);
  return loomLeft(course, pick);
};

describe('what is left of a piece', () => {
  it('is its weft from the fell on, a hem not included', () => {
    // Ten picks to the inch.
    expect(left(planWeaving('A', [solid('A', 40)]), thrown(10))).toBeCloseTo(30 * 2.54, 6);
    const hem = { kind: 'hem', washedAllowance: 25.4 } as const;
    const hemmed = planOf({
      yarns: yarns('AB'),
      pieces: [pieceOf([solid('B', 40)], { beginning: hem, ending: hem })],
    });
    const { picks = 0 } = having(hemmed).course.blocks[0] ?? {};
    expect(left(hemmed, thrown(picks + 10))).toBeCloseTo(30 * 2.54, 6);
  });

  it('of a part by eye is what it is meant to be', () => {
    const plan = planWeaving('A', [{ kind: 'free', loomLength: 100 }]);
    expect(left(plan, of('A', 10))).toBeCloseTo(100 - 25.4, 6);
  });

  it('of a part by eye without a length is up to the wish', () => {
    const wish = { state: 'loom', length: 200 } as const;
    const plan = planOf({ yarns: yarns('A'), pieces: [pieceOf([{ kind: 'free' }], { wish })] });
    expect(left(plan, of('A', 10))).toBeCloseTo(200 - 25.4, 6);
    expect(left(planWeaving('A', [{ kind: 'free' }]), of('A', 10))).toBe(0);
  });

  it('is nothing at the end', () => {
    expect(left(planWeaving('A', [solid('A', 40)]), thrown(40))).toBe(0);
  });
});
