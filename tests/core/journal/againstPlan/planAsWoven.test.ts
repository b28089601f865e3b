import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NO_ADJUSTMENTS } from '../../../../src/core/bench/adjustments.ts';
import { type Course, layCourse } from '../../../../src/core/bench/course.ts';
import type { Happening } from '../../../../src/core/bench/events.ts';
import { yarnAt } from '../../../../src/core/bench/pickAt.ts';
import { lengthOfPiece } from '../../../../src/core/bench/tape.ts';
import { planAsWoven } from '../../../../src/core/journal/againstPlan/planAsWoven.ts';
import { checkPlan } from '../../../../src/core/plan/checkPlan.ts';
import { anyFreeLog } from '../../bench/byEye/freePlans.ts';
import { having, thrown } from '../../bench/logs.ts';
import { checked, planWeaving, solid } from '../../plan/samples.ts';

const measured = (loomLength: number): Happening => ({
  kind: 'measured',
  reading: 'r',
  loomLength,
  from: { kind: 'start' },
  tension: 'tight',
});

describe('a plan as it was woven', () => {
  const plan = planWeaving('AB', [solid('A', 20), solid('B', 20)], [solid('A', 10)]);

  it('has the picks of the cloth and the beat it was woven with', () => {
    // Planned 40 picks of 2.54 mm, 101.6 mm.
    const cut: Happening = { kind: 'blockSet', piece: 0, block: 1, picks: 16 };
    const { course, pick } = having(plan, cut, thrown(36), measured(108));
    const again = planAsWoven(course, [0], pick);
    expect(again?.pieces.map((it) => it.weft)).toEqual([[solid('A', 20), solid('B', 16)]]);
    const laid = layCourse(checked(again), NO_ADJUSTMENTS);
    expect(laid.pieces[0]?.loomLength).toBeCloseTo(course.pieces[0]?.loomLength ?? 0, 6);
    expect(laid.pieces[0]?.loomLength).toBeGreaterThan(100);
  });

  it('takes the pieces asked for, and leaves out what is not begun', () => {
    const { course, pick } = having(plan, thrown(40));
    expect(planAsWoven(course, [0, 1], pick)?.pieces.map((it) => it.name)).toEqual([
      plan.pieces[0]?.name,
    ]);
    expect(planAsWoven(course, [1], pick)).toBeNull();
  });

  it('law: it is a sound plan, pick for pick and millimetre for millimetre', () => {
    const anyReading = fc.double({ min: 0.8, max: 1.25, noNaN: true });
    fc.assert(
      fc.property(anyFreeLog, anyReading, ({ plan: any, log }, factor) => {
        const before = having(any, ...log);
        const { index = 0, firstPick = 0 } =
          before.course.pieces.findLast((it) => it.firstPick < before.pick) ?? {};
        const length = before.course.pieces[index]?.loomLength ?? 0;
        const { course, pick } = having(any, ...log, measured(length * factor));
        const it = planAsWoven(course, [index], pick);
        if (it === null) return;
        expect(checkPlan(it)).toMatchObject({ ok: true });
        const again = layCourse(it, NO_ADJUSTMENTS);
        const size = Math.min(pick, firstPick + (course.pieces[index]?.picks ?? 0)) - firstPick;
        expect(yarnsOf(again, 0, size)).toBe(yarnsOf(course, firstPick, firstPick + size));
        const [there, here] = [again.pieces[0], course.pieces[index]];
        if (there === undefined || here === undefined) throw new Error('wanted both pieces');
        expect(lengthOfPiece(again, there, size)).toBeCloseTo(
          lengthOfPiece(course, here, firstPick + size),
          6,
        );
      }),
      { numRuns: 200 },
    );
  }, 300_000);
});

function yarnsOf(course: Course, from: number, to: number): string {
  return Array.from({ length: Math.max(0, to - from) }, (_, n) => yarnAt(course, from + n)).join(
    '',
  );
}
