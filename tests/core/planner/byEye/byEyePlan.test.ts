import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { freeAtFell } from '../../../../src/core/bench/byEye/throwing.ts';
import { startOf } from '../../../../src/core/bench/progress.ts';
import { standingOf } from '../../../../src/core/bench/standing.ts';
import { UNITS, WARP_STEPS } from '../../../../src/core/measure/length.ts';
import { checkPlan } from '../../../../src/core/plan/checkPlan.ts';
import { LOOM_KINDS } from '../../../../src/core/plan/plan.ts';
import {
  BY_EYE_EDGES,
  type ByEyeWarp,
  byEyePlan,
  meantLength,
  startingByEye,
} from '../../../../src/core/planner/byEye/byEyePlan.ts';
import { yarns } from '../../plan/samples.ts';

const KINDS = UNITS.flatMap((units) => LOOM_KINDS.map((loom) => [units, loom] as const));
const metric = (change: Partial<ByEyeWarp> = {}): ByEyeWarp => ({
  ...startingByEye('metric', 'rigid-heddle', []),
  ...change,
});

describe('a warp to be woven by eye', () => {
  it.each(KINDS)('in %s for a %s loom can be woven as it starts', (units, loom) => {
    const plan = byEyePlan(startingByEye(units, loom, []));
    expect(checkPlan(plan)).toMatchObject({ ok: true });
    const now = startOf(plan);
    expect(freeAtFell(now.course, 0)).not.toBeNull();
    expect(plan.yarns.length).toBeGreaterThan(1);
  });

  it('takes its yarns from the shelf where there are any, the first for the warp', () => {
    const warp = startingByEye('inch', 'shaft', yarns('AB'));
    expect(warp.yarns.map((yarn) => yarn.letter)).toEqual(['A', 'B']);
    expect(byEyePlan(warp).warp.order).toMatchObject([{ kind: 'solid', yarn: 'A' }]);
  });

  // 2.5 m less 20 + 30 cm of waste is 2 m of warp; at 10 % taken that weaves 2000 / 1.1 = 1818.18 mm.
  it.each([
    ['one piece as long as the warp', {}, 1818.18],
    ['a part of a step is not counted on', { warpLength: 2599 }, 1818.18],
    ['three pieces without gaps share it', { pieces: 3 }, 606.06],
    ['too short a warp has nothing to weave', { warpLength: 400 }, -90.91],
  ] as const)('%s', (_, change, each) => {
    expect(meantLength(byEyePlan(metric(change)))).toBeCloseTo(each, 2);
  });

  it('a warp wider than the usual loom makes the loom as wide', () => {
    const plan = byEyePlan(metric({ ends: 400 }));
    expect(plan.loom.weavingWidth).toBeCloseTo(800, 6);
    expect(checkPlan(plan)).toMatchObject({ ok: true });
  });

  it('is tied on as long as was told, and all that can be woven of it is meant to be', () => {
    const anyWarp = fc
      .record({
        units: fc.constantFrom(...UNITS),
        loom: fc.constantFrom(...LOOM_KINDS),
        edge: fc.constantFrom(...BY_EYE_EDGES),
        pieces: fc.integer({ min: 1, max: 6 }),
        steps: fc.integer({ min: 20, max: 60 }),
        over: fc.double({ min: 0, max: 0.99, noNaN: true }),
        ends: fc.integer({ min: 2, max: 300 }),
      })
      .map(({ units, loom, steps, over, ...rest }) => ({
        steps,
        warp: {
          ...startingByEye(units, loom, []),
          ...rest,
          warpLength: (steps + over) * WARP_STEPS[units],
        },
      }));
    fc.assert(
      fc.property(anyWarp, ({ warp, steps }) => {
        const plan = byEyePlan(warp);
        fc.pre(meantLength(plan) > 0);
        expect(checkPlan(plan)).toMatchObject({ ok: true });
        const now = startOf(plan);
        expect(now.tiedOn.mm).toBeCloseTo(steps * WARP_STEPS[warp.units], 6);
        const whole = now.course.pieces.reduce((sum, piece) => sum + piece.loomLength, 0);
        const { left } = standingOf(now).warp;
        const gaps = now.course.pieces.reduce((sum, piece) => sum + piece.gapAfter, 0);
        // Gaps and the last fringe come out of what is left as well.
        expect(left.mm).toBeGreaterThanOrEqual(whole + gaps / 1.2 - 1e-6);
        if (warp.pieces === 1 && warp.edge !== 'hemstitch') expect(left.mm).toBeCloseTo(whole, 6);
      }),
      { numRuns: 300 },
    );
  });
});
