import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Run } from '../../../src/core/measure/runs.ts';
import {
  closeAtPivot,
  closes,
  expandRuns,
  mergeRuns,
  mirrorAtPivots,
  mirrorRuns,
  readsSameBothWays,
  takeFirst,
  totalOf,
} from '../../../src/core/measure/runs.ts';

/** `A2 B1` as runs, for tables that can be read. */
function runs(text: string): readonly Run<string>[] {
  return [...text.matchAll(/([A-Za-z])(\d+)/g)].map(([, of = '', count = '']) => ({
    of,
    count: Number(count),
  }));
}

const someRuns = fc.array(
  fc.record({ of: fc.constantFrom('A', 'B', 'C'), count: fc.integer({ min: 0, max: 5 }) }),
  { maxLength: 8 },
);
const realRuns = someRuns.filter((order) => totalOf(order) > 0);

describe('a mirrored order', () => {
  it('shares its pivots: A4 B2 C6 makes A4 B2 C6 B2, 2 × 12 − 4 − 6 = 14 (rule)', () => {
    expect(mirrorAtPivots(runs('A4 B2 C6'))).toEqual(runs('A4 B2 C6 B2'));
    expect(totalOf(mirrorAtPivots(runs('A4 B2 C6')))).toBe(14);
  });

  it('needs one pivot more to end as it began: three repeats are 3 × 14 + 4 = 46 (rule)', () => {
    expect(closeAtPivot(runs('A4 B2 C6'), 1)).toEqual(runs('A4 B2 C6 B2 A4'));
    expect(totalOf(closeAtPivot(runs('A4 B2 C6'), 3))).toBe(46);
    expect(closeAtPivot(runs('A4 B2 C6'), 0)).toEqual([]);
  });

  it('of two runs is already its own way back, and of one run is itself', () => {
    expect(mirrorAtPivots(runs('A4 B6'))).toEqual(runs('A4 B6'));
    expect(mirrorAtPivots(runs('A4'))).toEqual(runs('A4'));
    expect(closeAtPivot(runs('A4'), 2)).toEqual(runs('A8'));
  });

  it('counts 2 × half − both pivots, and n repeats with one pivot more read the same both ways', () => {
    const half = realRuns.filter((order) => mergeRuns(order).length > 1);
    fc.assert(
      fc.property(half, fc.integer({ min: 1, max: 4 }), (order, times) => {
        const merged = mergeRuns(order);
        const first = merged.at(0)?.count ?? 0;
        const last = merged.at(-1)?.count ?? 0;
        const full = totalOf(mirrorAtPivots(order));
        expect(full).toBe(2 * totalOf(order) - first - last);
        const closed = closeAtPivot(order, times);
        expect(totalOf(closed)).toBe(times * full + first);
        expect(readsSameBothWays(closed)).toBe(true);
        expect(closes(closed)).toBe(true);
      }),
    );
  });

  it('shares the whole centre run unless it is doubled', () => {
    expect(mirrorRuns(runs('A2 B3'), 'shared')).toEqual(runs('A2 B3 A2'));
    expect(mirrorRuns(runs('A2 B3'), 'doubled')).toEqual(runs('A2 B6 A2'));
    expect(mirrorRuns(runs('A2 B1 B2'), 'shared')).toEqual(runs('A2 B3 A2'));
    expect(mirrorRuns(runs(''), 'doubled')).toEqual([]);
  });

  it('reads the same both ways, whichever way its centre is made', () => {
    fc.assert(
      fc.property(someRuns, fc.constantFrom('shared', 'doubled'), (order, centre) => {
        const mirrored = mirrorRuns(order, centre);
        const shared = centre === 'shared' ? (mergeRuns(order).at(-1)?.count ?? 0) : 0;
        expect(totalOf(mirrored)).toBe(2 * totalOf(order) - shared);
        expect(readsSameBothWays(mirrored)).toBe(true);
        expect(takeFirst(mirrored, totalOf(order))).toEqual(mergeRuns(order));
      }),
    );
  });
});

describe('closing and mirroring are two facts', () => {
  it.each<[string, boolean, boolean]>([
    ['A2 B2 A2', true, true],
    ['A1 B1 C1 A1', true, false],
    ['A1 B1 C1 B1 A1', true, true],
    ['A2 B2', false, false],
    ['A2 B2 A3', true, false],
    ['A2 B2 A1 A1', true, true],
    ['A0 B2 C1 B2', true, true],
    ['A5', true, true],
    ['', false, true],
  ])('%j closes: %s, reads the same both ways: %s', (order, closing, mirroring) => {
    expect(closes(runs(order))).toBe(closing);
    expect(readsSameBothWays(runs(order))).toBe(mirroring);
  });

  it('of two colours an alternation closes on odd turns, of m on turns ≡ 1 mod m', () => {
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 5 }), fc.integer({ min: 1, max: 40 }), (m, turns) => {
        const order = Array.from({ length: turns }, (_, i) => ({ of: i % m, count: 2 }));
        expect(closes(order)).toBe(turns % m === 1);
      }),
    );
  });

  it('an order reads the same both ways exactly when its elements do', () => {
    fc.assert(
      fc.property(someRuns, (order) => {
        const elements = expandRuns(order);
        const same = elements.every((element, i) => element === elements.at(-1 - i));
        expect(readsSameBothWays(order)).toBe(same);
      }),
    );
  });
});
