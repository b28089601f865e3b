import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NO_ADJUSTMENTS } from '../../../../src/core/bench/adjustments.ts';
import { type Course, layCourse } from '../../../../src/core/bench/course.ts';
import { fitsOf } from '../../../../src/core/bench/endings/fits/fits.ts';
import { reckoningOf } from '../../../../src/core/bench/endings/reckoning.ts';
import { planWith } from '../../../../src/core/bench/endings/revision.ts';
import { checkPlan } from '../../../../src/core/plan/checkPlan.ts';
import { gapAfter, sharesOf } from '../../../../src/core/plan/geometry.ts';
import type { Plan } from '../../../../src/core/plan/plan.ts';
import { anyPlan, happening } from '../arbitraries.ts';
import { having } from '../logs.ts';
import { lengthByHand, picksOfPiece, sameByHand } from './byHand.ts';
import { contextAt, exactly } from './contexts.ts';

const laid = (plan: Plan) => layCourse(plan, NO_ADJUSTMENTS);

/** A plan whose pieces wish for some share of what they are planned to be. */
function wishing(plan: Plan, share: number): Plan {
  const course = laid(plan);
  const pieces = plan.pieces.map((piece, i) => {
    const length = share * (course.pieces[i]?.loomLength ?? 0);
    return { ...piece, wish: { state: 'loom' as const, length: Math.max(0.1, length) } };
  });
  return { ...plan, pieces };
}

/** A warp in the weaving with room for some share of what is still to come. */
const someMoment = fc
  .tuple(anyPlan, fc.constantFrom(0.7, 0.9, 1, 1.05, 1.3))
  .map(([plan, share]) => wishing(plan, share))
  .chain((plan) =>
    fc
      .tuple(
        fc.array(happening(plan), { maxLength: 4 }),
        fc.nat(),
        fc.constantFrom(0.9, 1, 1.1),
        fc.constantFrom(0.5, 0.9, 1, 1.2, 2),
      )
      .map(([happenings, n, factor, room]) => {
        const { course } = having(plan, ...happenings);
        const pieces = course.pieces.filter((it) =>
          picksOfPiece(course, it.index).some((pick) => !pick.isHem),
        );
        const piece = pieces[n % Math.max(1, pieces.length)];
        if (piece === undefined || pieces.length < course.pieces.length) return null;
        const pick = piece.firstPick + (n % (piece.picks + 1));
        return { course, piece: piece.index, pick, factor, room };
      }),
  );

/** Loom length from the fell to the end of the warp, gaps as so much cloth. */
function restByHand(course: Course, pick: number, from: number, factor: number): number {
  const { plan } = course;
  const taken = 1 + sharesOf(plan).warpTaken;
  return course.pieces.slice(from).reduce((sum, it) => {
    const end = it.firstPick + it.picks;
    const woven = Math.max(it.firstPick, Math.min(pick, end));
    return (
      sum + factor * lengthByHand(course, it.index, woven, end) + gapAfter(plan, it.index) / taken
    );
  }, 0);
}

/** As the bench lays it: what was set by hand holds in the pieces before the revised ones. */
function revised(course: Course, plan: Plan, from: number): Course {
  const blocks = course.adjustments.blocks.filter((it) => it.piece < from);
  return layCourse(plan, { ...NO_ADJUSTMENTS, blocks });
}

function letters(course: Course, piece: number): string {
  return picksOfPiece(course, piece)
    .map((it) => course.plan.yarns[it.yarn]?.letter)
    .join('');
}

describe('a fit adopted', () => {
  it('law: is a sound plan with the promised picks and lengths, reads as promised, and leaves what is woven', () => {
    let fitsSeen = 0;
    fc.assert(
      fc.property(someMoment, (moment) => {
        fc.pre(moment !== null);
        if (moment === null) return;
        const { course, piece, pick, factor, room } = moment;
        const rest = restByHand(course, pick, piece, factor);
        const context = contextAt(course, pick, {
          piece,
          beat: { factor },
          warpLeft: exactly(room * rest),
          fringeAfter: () => 0,
        });
        const fits = fitsOf(reckoningOf(course, pick, context));
        for (const fit of fits) {
          fitsSeen++;
          const next = planWith(course.plan, fit.revision());
          expect(checkPlan(next)).toMatchObject({ ok: true });
          const again = revised(course, next, fit.revision().from);
          expect(again.pieces).toHaveLength(course.pieces.length - fit.dropped);
          const first = course.pieces[piece]?.firstPick ?? 0;
          const woven = letters(course, piece).slice(0, pick - first);
          expect(fit.pieces.map((it) => it.piece)).toEqual(
            again.pieces.slice(piece).map((it) => it.index),
          );
          const changed = new Set<number>();
          for (const told of fit.pieces) {
            const isRevised = told.piece >= fit.revision().from;
            const now = isRevised ? again : course;
            const picks = picksOfPiece(now, told.piece);
            expect(picks).toHaveLength(told.allPicks);
            if (told.piece === piece)
              expect(letters(now, piece).slice(0, woven.length)).toBe(woven);
            if (letters(now, told.piece) !== letters(course, told.piece)) changed.add(told.piece);
            const start = now.pieces[told.piece]?.firstPick ?? 0;
            const seen = picks.map((it, at) => {
              const isWoven = told.piece === piece && start + at < pick;
              return { yarn: it.yarn, mm: it.spacing * (isWoven ? 1 : factor) };
            });
            expect(told.reads.same).toBe(sameByHand(course.plan, seen));
            const length = seen.reduce((sum, it) => sum + it.mm, 0);
            expect(told.lengths.loom.mm).toBeCloseTo(length, 5);
            expect(told.picks).toBe(picks.length - (told.piece === piece ? woven.length : 0));
          }
          expect(changed.size > 0 || fit.dropped > 0).toBe(true);
          if (fit.dropped === 0 && changed.size > 0)
            expect(fit.mirrored).toBe(
              fit.pieces.every((it) => !changed.has(it.piece) || it.reads.same !== 'no'),
            );
          if (fit.aim === 'warp') expect(fit.warpAfterAll.verdict).toBe('fits');
        }
      }),
      { numRuns: 100 },
    );
    expect(fitsSeen).toBeGreaterThan(100);
  });
});
