import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  blocksFound,
  endDraggedTo,
  movedEnd,
  spacingNow,
  weftWovenOf,
  wovenOf,
} from '../../../../src/core/bench/byEye/choosing.ts';
import { stretchLength, stripesIn } from '../../../../src/core/bench/byEye/stretch.ts';
import type { Happening } from '../../../../src/core/bench/events.ts';
import { totalOf } from '../../../../src/core/measure/runs.ts';
import { formatBlocks } from '../../../../src/core/plan/orderText.ts';
import { pieceOf, planOf, planWeaving, solid, yarns } from '../../plan/samples.ts';
import { having, thrown } from '../logs.ts';
import { anyFreeLog } from './freePlans.ts';

const of = (yarn: string, picks: number): Happening => ({ kind: 'thrownOf', yarn, picks });
const FREE = { kind: 'free' } as const;
/** A 8, B 2, A 2, B 2, C 6 by eye. */
const { course } = having(
  planWeaving('ABC', [FREE]),
  of('A', 8),
  of('B', 2),
  of('A', 2),
  of('B', 2),
  of('C', 6),
);
const ALL = { from: 0, to: 20 };

describe('what may be chosen of a piece', () => {
  it('is what is woven of it, to the fell', () => {
    const two = having(planWeaving('A', [solid('A', 10)], [solid('A', 10)]), thrown(14));
    expect(wovenOf(two.course, 0, two.pick)).toEqual({ from: 0, to: 10 });
    expect(wovenOf(two.course, 1, two.pick)).toEqual({ from: 10, to: 14 });
    const one = having(planWeaving('A', [solid('A', 10)], [solid('A', 10)]), thrown(10));
    expect(wovenOf(one.course, 1, one.pick)).toBeNull();
    expect(wovenOf(one.course, 2, one.pick)).toBeNull();
  });

  it('its weft is without the hems', () => {
    const hem = { kind: 'hem', washedAllowance: 25.4 } as const;
    const pieces = [pieceOf([solid('B', 6)], { beginning: hem, ending: hem })];
    const hemmed = planOf({ yarns: yarns('AB'), pieces });
    const far = (picks: number) => {
      const it = having(hemmed, thrown(picks));
      return weftWovenOf(it.course, 0, it.pick);
    };
    const { picks = 0 } = having(hemmed).course.blocks[0] ?? {};
    expect(picks).toBeGreaterThan(5);
    expect(far(picks)).toBeNull();
    expect(far(picks + 2)).toEqual({ from: picks, to: picks + 2 });
    expect(far(picks + 6 + 3)).toEqual({ from: picks, to: picks + 6 });
  });
});

describe('an end of a stretch', () => {
  it.each([
    ['the beginning a pick on', { from: 4, to: 12 }, 'from', 'pick', 1, { from: 5, to: 12 }],
    ['the beginning a stripe on', { from: 4, to: 12 }, 'from', 'stripe', 1, { from: 8, to: 12 }],
    ['the beginning a stripe back', { from: 9, to: 12 }, 'from', 'stripe', -1, { from: 8, to: 12 }],
    ['from border to border', { from: 8, to: 12 }, 'from', 'stripe', -1, { from: 0, to: 12 }],
    ['the end a stripe on', { from: 4, to: 13 }, 'to', 'stripe', 1, { from: 4, to: 14 }],
    ['the end a stripe back', { from: 4, to: 14 }, 'to', 'stripe', -1, { from: 4, to: 12 }],
    ['not beyond the fell', { from: 4, to: 20 }, 'to', 'pick', 1, { from: 4, to: 20 }],
    [
      'the end at the last stripe goes to the fell',
      { from: 4, to: 15 },
      'to',
      'stripe',
      1,
      { from: 4, to: 20 },
    ],
    ['not before the first pick', ALL, 'from', 'stripe', -1, ALL],
    ['never empty', { from: 4, to: 5 }, 'to', 'pick', -1, { from: 4, to: 5 }],
    ['not past the other end', { from: 1, to: 5 }, 'from', 'stripe', 1, { from: 1, to: 5 }],
  ] as const)('goes %s', (_, stretch, end, by, way, moved) => {
    expect(movedEnd(course, ALL, stretch, { end, by, way })).toEqual(moved);
  });

  it('dragged lies between two picks, inside the cloth and apart from the other', () => {
    const stretch = { from: 4, to: 12 };
    expect(endDraggedTo(ALL, stretch, 'from', 6.4)).toEqual({ from: 6, to: 12 });
    expect(endDraggedTo(ALL, stretch, 'from', -3)).toEqual({ from: 0, to: 12 });
    expect(endDraggedTo(ALL, stretch, 'from', 40)).toEqual({ from: 11, to: 12 });
    expect(endDraggedTo(ALL, stretch, 'to', 2)).toEqual({ from: 4, to: 5 });
    expect(endDraggedTo(ALL, stretch, 'to', 99)).toEqual({ from: 4, to: 20 });
  });
});

describe('blocks found in a stretch', () => {
  it('lie one after the other', () => {
    const found = blocksFound(course, ALL).map((it) => [it.from, it.to]);
    expect(found).toEqual([
      [0, 8],
      [8, 14],
      [14, 20],
    ]);
  });

  it('of a group the first time round is told as well', () => {
    const round = [of('A', 9), of('B', 2), of('A', 2), of('B', 2), of('C', 5)];
    const many = having(planWeaving('ABC', [FREE]), of('B', 3), ...round, ...round, ...round);
    const found = blocksFound(many.course, { from: 0, to: 63 });
    expect(
      found.map((it) => [it.depth, it.from, it.to, formatBlocks([it.block], 'metric')]),
    ).toEqual([
      [0, 0, 3, '3 picks B'],
      [0, 3, 63, '3 times (9 picks A, 3 turns of (2 B, 2 A), 5 picks C)'],
      [1, 3, 12, '9 picks A'],
      [1, 12, 18, '3 turns of (2 B, 2 A)'],
      [1, 18, 23, '5 picks C'],
    ]);
  });

  it('law: they cover the stretch, and each has just its own picks', () => {
    fc.assert(
      fc.property(anyFreeLog, fc.nat(), ({ plan, log }, which) => {
        const { course: any, pick } = having(plan, ...log);
        const stretch = wovenOf(any, which % any.pieces.length, pick);
        if (stretch === null) return;
        const found = blocksFound(any, stretch);
        const outer = found.filter((it) => it.depth === 0);
        expect(outer[0]?.from).toBe(stretch.from);
        expect(outer.at(-1)?.to).toBe(stretch.to);
        for (const [i, it] of outer.entries()) {
          if (i > 0) expect(it.from).toBe(outer[i - 1]?.to);
        }
        for (const it of found) {
          expect(it.to).toBeGreaterThan(it.from);
          const again = blocksFound(any, it).filter(({ depth }) => depth === 0);
          expect(totalOf(stripesIn(any, it))).toBe(it.to - it.from);
          // A block of the shortest telling is told by itself in one block.
          if (it.depth === 0) expect(again).toHaveLength(1);
        }
      }),
      { numRuns: 200 },
    );
  }, 300_000);
});

describe('the spacing of a yarn now', () => {
  it('is that of the plan until something was measured', () => {
    expect(spacingNow(course)('A')).toBeCloseTo(course.plan.weaving.pickSpacing, 9);
  });

  it('follows the readings', () => {
    const measured = having(planWeaving('AB', [FREE]), of('A', 40), {
      kind: 'measured',
      reading: 'r',
      loomLength: 120,
      from: { kind: 'start' },
      tension: 'tight',
    });
    const length = stretchLength(measured.course, { from: 0, to: 40 });
    expect(40 * spacingNow(measured.course)('A')).toBeCloseTo(length, 0);
    expect(spacingNow(measured.course)('A')).toBeGreaterThan(2.6);
  });
});
