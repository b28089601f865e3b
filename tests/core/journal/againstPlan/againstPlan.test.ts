import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NO_ADJUSTMENTS } from '../../../../src/core/bench/adjustments.ts';
import { weaveAgain } from '../../../../src/core/bench/byEye/weaveAgain.ts';
import { type Course, layCourse } from '../../../../src/core/bench/course.ts';
import type { Happening } from '../../../../src/core/bench/events.ts';
import { yarnAt } from '../../../../src/core/bench/pickAt.ts';
import { progressOf } from '../../../../src/core/bench/progress.ts';
import { againstPlan } from '../../../../src/core/journal/againstPlan/againstPlan.ts';
import { asWoven } from '../../../../src/core/journal/againstPlan/asWoven.ts';
import { formatBlocks } from '../../../../src/core/plan/orderText.ts';
import type { Plan } from '../../../../src/core/plan/plan.ts';
import { anyFreeLog } from '../../bench/byEye/freePlans.ts';
import { having, logged, takenOut, thrown } from '../../bench/logs.ts';
import { alternation, checked, planWeaving, solid } from '../../plan/samples.ts';

const turns = (n: number) => ({ kind: 'turns', turns: n }) as const;
const of = (yarn: string, picks: number): Happening => ({ kind: 'thrownOf', yarn, picks });

/** One line a block: what was planned, what was woven, the change. */
function lines(plan: Plan, ...log: readonly Happening[]) {
  const [piece] = againstPlan(plan, logged(log));
  const text = (it: { readonly blocks: Parameters<typeof formatBlocks>[0] } | null) =>
    it === null ? '–' : formatBlocks(it.blocks, 'metric');
  return piece?.rows.map((row) => [text(row.planned), text(row.woven), row.change].join(' | '));
}

describe('planned against woven', () => {
  const plan = planWeaving('AB', [solid('A', 8), alternation('B2 A2', turns(3)), solid('A', 8)]);

  it('of a piece woven as it was planned every block is', () => {
    expect(lines(plan, thrown(22))).toEqual([
      '8 picks A | 8 picks A | asPlanned',
      '3 turns of (2 B, 2 A) | 3 turns of (2 B, 2 A) | asPlanned',
      '8 picks A | 8 picks A | asPlanned',
    ]);
  });

  it('tells blocks cut short, made longer and skipped', () => {
    const set = (block: number, picks: number): Happening => ({
      kind: 'blockSet',
      piece: 0,
      block,
      picks,
    });
    expect(lines(plan, set(0, 6), set(1, 0), set(2, 12), thrown(99))).toEqual([
      '8 picks A | 6 picks A | shorter',
      '3 turns of (2 B, 2 A) | – | leftOut',
      '8 picks A | 12 picks A | longer',
    ]);
  });

  it('of a piece at the loom tells what is here and what is to come', () => {
    expect(lines(plan, thrown(10))).toEqual([
      '8 picks A | 8 picks A | asPlanned',
      '3 turns of (2 B, 2 A) | 1 turns of (2 B, 2 A) | here',
      '8 picks A | – | toCome',
    ]);
  });

  it('of a part woven by eye tells what it became', () => {
    const free = planWeaving('AB', [solid('A', 4), { kind: 'free' }, solid('A', 4)]);
    const log = [
      thrown(4),
      of('B', 2),
      of('A', 2),
      of('B', 2),
      { kind: 'freeEnded' } as const,
      thrown(4),
    ];
    expect(lines(free, ...log)).toEqual([
      '4 picks A | 4 picks A | asPlanned',
      'by eye | 3 turns of (2 B, 2 A) | byEye',
      '4 picks A | 4 picks A | asPlanned',
    ]);
  });

  it('finds blocks again in a plan that was changed on the way, and what came in between', () => {
    const before = having(plan, thrown(8));
    const revision = weaveAgain(before.course, before.pick, [solid('B', 6)]);
    if (revision === null) throw new Error('wanted a revision');
    expect(lines(plan, thrown(8), { kind: 'revised', ...revision }, thrown(99))).toEqual([
      '8 picks A | 8 picks A | asPlanned',
      '– | 6 picks B | added',
      '3 turns of (2 B, 2 A) | 3 turns of (2 B, 2 A) | asPlanned',
      '8 picks A | 8 picks A | asPlanned',
    ]);
  });

  it('counts picks taken out, piece by piece, also by eye', () => {
    const two = planWeaving('AB', [solid('A', 8)], [{ kind: 'free' }]);
    const log = [
      thrown(8),
      takenOut(3),
      thrown(3),
      of('B', 5),
      takenOut(2),
      of('A', 1),
      takenOut(1),
    ];
    expect(againstPlan(two, logged(log)).map((it) => it.takenOut)).toEqual([3, 3]);
  });

  it('tells sums and how far each piece is', () => {
    const three = planWeaving('A', [solid('A', 10)], [solid('A', 10)], [solid('A', 10)]);
    const pieces = againstPlan(three, logged([thrown(15)]));
    expect(pieces.map(({ state, woven }) => [state, woven.picks])).toEqual([
      ['done', 10],
      ['begun', 5],
      ['toCome', 0],
    ]);
    expect(pieces[1]?.planned).toEqual({ picks: 10, loomLength: expect.closeTo(25.4, 9) });
    expect(pieces[1]?.woven.loomLength).toBeCloseTo(12.7, 9);
  });

  it('tells a piece that was dropped, and one that was added', () => {
    const two = planWeaving('A', [solid('A', 4)], [solid('A', 6)]);
    const dropped = againstPlan(two, logged([{ kind: 'revised', from: 1, pieces: [] }]));
    expect(dropped.map((it) => it.state)).toEqual(['toCome', 'dropped']);
    const more = two.pieces.slice(0, 1);
    const added = againstPlan(two, logged([{ kind: 'revised', from: 2, pieces: more }]));
    expect(added.map((it) => it.planned?.picks ?? null)).toEqual([4, 6, null]);
  });
});

describe('laws of planned against woven', () => {
  it('the rows come to what is planned and what is in the cloth', () => {
    fc.assert(
      fc.property(anyFreeLog, ({ plan, log }) => {
        const { course, pick } = progressOf(plan, logged(log));
        const pieces = againstPlan(plan, logged(log));
        const sum = (list: readonly number[]) => list.reduce((a, b) => a + b, 0);
        expect(sum(pieces.map((it) => it.woven.picks))).toBe(pick);
        for (const it of pieces) {
          expect(sum(it.rows.map((row) => row.woven?.picks ?? 0))).toBe(it.woven.picks);
          expect(sum(it.rows.map((row) => row.planned?.picks ?? 0))).toBe(it.planned?.picks ?? 0);
        }
        expect(pieces.length).toBe(course.pieces.length);
      }),
      { numRuns: 200 },
    );
  }, 300_000);

  it('a piece taken as it was woven has the picks it has in the cloth', () => {
    fc.assert(
      fc.property(anyFreeLog, ({ plan, log }) => {
        const { course, pick } = progressOf(plan, logged(log));
        for (const { index } of course.pieces) {
          const piece = asWoven(course, index, pick);
          if (piece === null) continue;
          const again = layCourse(checked({ ...course.plan, pieces: [piece] }), NO_ADJUSTMENTS);
          const { firstPick = 0 } = course.pieces[index] ?? {};
          const woven = yarnsOf(course, firstPick, pick).slice(0, again.picks);
          expect(yarnsOf(again, 0, woven.length)).toBe(woven);
          const size = Math.min(pick, firstPick + (course.pieces[index]?.picks ?? 0)) - firstPick;
          // A hem that was planned to end it is part of it as well.
          expect(again.picks).toBeGreaterThanOrEqual(size);
        }
      }),
      { numRuns: 200 },
    );
  }, 300_000);
});

function yarnsOf(course: Course, from: number, to: number): string {
  const picks = Array.from({ length: Math.max(0, to - from) }, (_, n) => from + n);
  return picks.map((n) => yarnAt(course, n)).join('');
}
