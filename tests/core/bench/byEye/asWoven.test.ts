import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NO_ADJUSTMENTS } from '../../../../src/core/bench/adjustments.ts';
import { type Course, layCourse } from '../../../../src/core/bench/course.ts';
import { pieceAsWoven } from '../../../../src/core/bench/endings/woven/asWoven.ts';
import type { Happening } from '../../../../src/core/bench/events.ts';
import { happened } from '../../../../src/core/bench/happened.ts';
import { yarnAt } from '../../../../src/core/bench/pickAt.ts';
import type { Block } from '../../../../src/core/plan/plan.ts';
import { alternation, checked, planWeaving, solid } from '../../plan/samples.ts';
import { having, thrown } from '../logs.ts';
import { anyFreeLog } from './freePlans.ts';

const FREE: Block = { kind: 'free' };
const of = (yarn: string, picks = 1): Happening => ({ kind: 'thrownOf', yarn, picks });
const turns = (n: number) => ({ kind: 'turns', turns: n }) as const;
const stripes: readonly Happening[] = [of('A', 8), of('B', 2), of('A', 2), of('B', 2), of('A', 8)];

/** Yarns of the picks of a piece, those that only stand for the next one left out. */
function yarnsOf(course: Course, piece: number): string {
  const { firstPick = 0, picks = 0 } = course.pieces[piece] ?? {};
  const all = Array.from({ length: picks }, (_, n) => firstPick + n);
  return all
    .filter((n) => !course.open.includes(n))
    .map((n) => yarnAt(course, n))
    .join('');
}

describe('a part woven by eye, as it was woven', () => {
  it('is the blocks it can be told in', () => {
    const { course } = having(planWeaving('AB', [FREE]), ...stripes, { kind: 'freeEnded' });
    expect(pieceAsWoven(course, 0).weft).toEqual([
      solid('A', 8),
      alternation('B2 A2', turns(3)),
      solid('A', 8),
    ]);
  });

  it('goes on by eye as long as it is not ended, what is left of its length with it', () => {
    const plan = planWeaving('AB', [{ kind: 'free', loomLength: 50.8 }, solid('B', 4)]);
    expect(pieceAsWoven(having(plan, of('A', 8)).course, 0).weft).toEqual([
      solid('A', 8),
      { kind: 'free', loomLength: expect.closeTo(50.8 - 8 * 2.54, 9) },
      solid('B', 4),
    ]);
    expect(pieceAsWoven(having(plan, of('A', 20)).course, 0).weft[1]).toEqual(FREE);
  });

  it('keeps its name: the block’s own, or that of a group around them', () => {
    const named = planWeaving('AB', [{ kind: 'free', name: 'Border' }]);
    const ended: Happening = { kind: 'freeEnded' };
    expect(pieceAsWoven(having(named, of('A', 3), ended).course, 0).weft).toEqual([
      { ...solid('A', 3), name: 'Border' },
    ]);
    expect(pieceAsWoven(having(named, ...stripes, ended).course, 0).weft).toMatchObject([
      { kind: 'repeat', name: 'Border', times: 1 },
    ]);
  });

  it('adopted as a plan it changes no woven pick, and by eye it goes on', () => {
    const plan = planWeaving('AB', [solid('B', 4), FREE]);
    const before = having(plan, thrown(4), ...stripes);
    const pieces = [pieceAsWoven(before.course, 0)];
    const after = happened(before, { kind: 'revised', from: 0, pieces });
    expect([after.revision, after.pick]).toEqual([1, before.pick]);
    expect(yarnsOf(happened(after, of('B')).course, 0)).toBe(`${yarnsOf(before.course, 0)}1`);
  });

  it('law: laid again it has the same yarn at every pick, whatever happened', () => {
    fc.assert(
      fc.property(anyFreeLog, ({ plan, log }) => {
        const { course } = having(plan, ...log);
        const has = (piece: number) =>
          course.blocks.some((it) => it.piece === piece && it.laid.block !== null && it.picks > 0);
        fc.pre(course.pieces.every((it) => has(it.index)));
        const pieces = course.pieces.map((it) => pieceAsWoven(course, it.index));
        const again = layCourse(checked({ ...course.plan, pieces }), NO_ADJUSTMENTS);
        for (const { index } of course.pieces)
          expect(yarnsOf(again, index)).toBe(yarnsOf(course, index));
      }),
      { numRuns: 300 },
    );
  }, 300_000);
});
