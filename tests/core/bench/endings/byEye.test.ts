/** Endings of pieces that are woven by eye, wholly or in part. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { endingsOf } from '../../../../src/core/bench/endings/endings.ts';
import { planWith } from '../../../../src/core/bench/endings/revision.ts';
import type { Happening } from '../../../../src/core/bench/events.ts';
import { happened } from '../../../../src/core/bench/happened.ts';
import { yarnAt } from '../../../../src/core/bench/pickAt.ts';
import type { Progress } from '../../../../src/core/bench/progress.ts';
import { revisedCourse } from '../../../../src/core/bench/revise.ts';
import { checkPlan } from '../../../../src/core/plan/checkPlan.ts';
import type { Block } from '../../../../src/core/plan/plan.ts';
import { alternation, planWeaving, solid } from '../../plan/samples.ts';
import { anyFreeLog } from '../byEye/freePlans.ts';
import { having, thrown } from '../logs.ts';
import { picksOfPiece } from './byHand.ts';
import { contextAt, exactly } from './contexts.ts';

const FREE: Block = { kind: 'free' };
const of = (yarn: string, picks: number): Happening => ({ kind: 'thrownOf', yarn, picks });

function endingsIn({ course, pick }: Progress, piece = 0) {
  return endingsOf(course, pick, contextAt(course, pick, { piece, warpLeft: exactly(300) }));
}

describe('ending a piece woven by eye', () => {
  it('may be here, wherever that is, as what was thrown', () => {
    const progress = having(planWeaving('AB', [FREE]), of('A', 8), of('B', 3));
    const [stop] = endingsIn(progress).stops;
    expect(stop).toMatchObject({ place: { kind: 'here' }, weftEnd: 11, picks: 0, allPicks: 11 });
    expect(stop?.revision().pieces[0]?.weft).toEqual([solid('A', 8), solid('B', 3)]);
  });

  it('may be after what is planned beyond the part at the fell', () => {
    const plan = planWeaving('AB', [solid('A', 4), FREE, solid('B', 6)]);
    const progress = having(plan, thrown(4), of('B', 2), of('A', 2));
    expect(endingsIn(progress).stops.map((it) => [it.place.kind, it.weftEnd, it.picks])).toEqual([
      ['here', 8, 0],
      ['planned', 14, 6],
    ]);
  });

  it('is not told beyond a part of which nothing is thrown yet, nor are there fits', () => {
    const plan = planWeaving('AB', [solid('A', 4), solid('B', 4), FREE, solid('B', 6)]);
    const { stops, fits } = endingsIn(having(plan, thrown(4)));
    expect(stops.map((it) => [it.place.kind, it.weftEnd])).toEqual([
      ['here', 4],
      ['block', 8],
    ]);
    expect(fits).toEqual([]);
  });

  it('a later part counts for as long as it is meant to be', () => {
    const part: Block = { kind: 'free', loomLength: 50 };
    const plan = planWeaving('AB', [alternation('A2 B2', { kind: 'turns', turns: 4 })], [part]);
    const [stop] = endingsIn(having(plan, thrown(2))).stops;
    const warp = stop?.warp.leaves.mm ?? Number.NaN;
    expect(stop?.warpAfterAll.leaves.mm).toBeCloseTo(warp - 50, 6);
  });

  it('law: each stop and fit is taken by the bench as it stands, with the picks it promised', () => {
    let taken = 0;
    fc.assert(
      fc.property(anyFreeLog, fc.nat(), ({ plan, log }, n) => {
        const progress = log.reduce(happened, having(plan));
        const { course, pick } = progress;
        const piece = course.pieces.findLast((it) => it.firstPick <= pick)?.index ?? 0;
        const { stops, fits } = endingsIn(progress, piece);
        for (const [list, i] of [
          [stops, n],
          [fits, n],
        ] as const) {
          const ending = list[i % Math.max(1, list.length)];
          if (ending === undefined) continue;
          taken++;
          const { from, pieces } = ending.revision();
          expect(checkPlan(planWith(course.plan, { from, pieces }))).toMatchObject({ ok: true });
          const next = revisedCourse(course, pick, from, pieces);
          expect(next).not.toBeNull();
          const told = 'pieces' in ending ? ending.pieces : [ending];
          for (const it of told) {
            if (next === null || it.piece < from) continue;
            expect(picksOfPiece(next, it.piece)).toHaveLength(it.allPicks);
          }
          for (let k = 0; next !== null && k < pick; k++)
            expect(yarnAt(next, k)).toBe(yarnAt(course, k));
        }
      }),
    );
    expect(taken).toBeGreaterThan(60);
  });
});
