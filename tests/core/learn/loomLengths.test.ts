import { describe, expect, it } from 'vitest';
import type { Happening } from '../../../src/core/bench/events.ts';
import { loomLengthsOf } from '../../../src/core/learn/loomLengths.ts';
import { sureEnough } from '../../../src/core/learn/sizes.ts';
import { having, thrown } from '../bench/logs.ts';
import { planWeaving, solid } from '../plan/samples.ts';

/** Two pieces of 200 picks, planned at 2.54 mm: 508 mm each. */
const PLAN = planWeaving('A', [solid('A', 200)], [solid('A', 200)]);
const measured = (loomLength: number): Happening => ({
  kind: 'measured',
  reading: `r${loomLength}`,
  loomLength,
  from: { kind: 'start' },
  tension: 'tight',
});
const lengths = (...happenings: readonly Happening[]) => loomLengthsOf(having(PLAN, ...happenings));

describe('the loom length of a piece', () => {
  it('is near the reading at its end, and sure enough to learn from', () => {
    const [first] = lengths(thrown(200), measured(540));
    expect(Math.abs((first?.mm ?? 0) - 540)).toBeLessThan(3);
    expect(sureEnough(first ?? null)).toEqual(first);
  });

  it('of a piece only begun is what there is of it', () => {
    const [first, second] = lengths(thrown(100), measured(270));
    expect(Math.abs((first?.mm ?? 0) - 270)).toBeLessThan(3);
    expect(second).toBeNull();
  });

  it('is not known from the plan, nor from a reading that was struck', () => {
    expect(lengths(thrown(400))).toEqual([null, null]);
    const struck = lengths(thrown(200), measured(540), { kind: 'readingStruck', reading: 'r540' });
    expect(struck).toEqual([null, null]);
  });
});
