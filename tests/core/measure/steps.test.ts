import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clean, stepDown, stepUp } from '../../../src/core/measure/steps.ts';

describe('steps', () => {
  it.each([
    [63, 5, 60, 65],
    [65, 5, 60, 70],
    [19.05, 6.35, 12.7, 25.4],
    [3 * 6.35, 6.35, 12.7, 25.4],
    [3, 5, 5, 5],
    [0, 5, 5, 5],
  ])('%d in steps of %d goes to %d and %d', (value, step, down, up) => {
    expect(stepDown(value, step)).toBe(down);
    expect(stepUp(value, step)).toBe(up);
  });

  it('0.1 more than 12.7 is 12.8', () => {
    expect(clean(12.7 + 0.1)).toBe(12.8);
  });

  it('a step up and a step down give a whole step back', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 5000 }),
        fc.constantFrom(5, 6.35, 1, 0.5),
        (n, step) => {
          expect(stepDown(stepUp(n * step, step), step)).toBeCloseTo(n * step, 4);
        },
      ),
    );
  });
});
