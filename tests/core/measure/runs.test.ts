import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Run } from '../../../src/core/measure/runs.ts';
import {
  countsBy,
  cycleTo,
  elementAt,
  expandRuns,
  mergeRuns,
  repeatRuns,
  reverseRuns,
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

function counts(order: readonly Run<string>[]): Record<string, number> {
  return Object.fromEntries(countsBy(order));
}

describe('colour orders from books', () => {
  const checks = runs('P20 K2 W6 K2 W6 K6 W6 K2 W6 K2');
  const border = runs('W12 R2 W12 B2');

  it('a check of 58 ends has 20 pink, 14 black and 24 white (BRO, Checks)', () => {
    expect(totalOf(checks)).toBe(58);
    expect(counts(checks)).toEqual({ P: 20, K: 14, W: 24 });
  });

  it('that order over 2280 ends and over 500 is cut as its prefix sums (rule)', () => {
    expect(counts(cycleTo(checks, 2280))).toEqual({ P: 798, K: 546, W: 936 });
    expect(counts(cycleTo(checks, 500))).toEqual({ P: 180, K: 116, W: 204 });
  });

  it('12 white, 2 red, 12 white, 2 blue over 440 ends are 378, 32 and 30 (BRO order, rule)', () => {
    expect(counts(cycleTo(border, 440))).toEqual({ W: 378, R: 32, B: 30 });
  });

  it('10 A, 10 B over 410 ends are 210 and 200 (rule)', () => {
    expect(counts(cycleTo(runs('A10 B10'), 410))).toEqual({ A: 210, B: 200 });
  });

  it('any order over any n has colours that sum to n, and below one repeat is a prefix (rule)', () => {
    fc.assert(
      fc.property(realRuns, fc.nat(60), (order, n) => {
        const cut = cycleTo(order, n);
        expect(totalOf(cut)).toBe(n);
        expect([...countsBy(cut).values()].reduce((sum, count) => sum + count, 0)).toBe(n);
        const elements = expandRuns(order);
        const cycled = Array.from({ length: n }, (_, i) => elements[i % elements.length]);
        expect(expandRuns(cut)).toEqual(cycled);
        if (n <= totalOf(order)) expect(cut).toEqual(takeFirst(order, n));
      }),
    );
  });
});

describe('runs', () => {
  it('are merged into the stripes that will be seen', () => {
    expect(mergeRuns(runs('A2 A1 B0 A1 C3'))).toEqual(runs('A4 C3'));
    expect(repeatRuns(runs('A2 B2 A2'), 2)).toEqual(runs('A2 B2 A4 B2 A2'));
    expect(repeatRuns(runs('A2 B2'), 0)).toEqual([]);
  });

  it('compare what they are of by identity', () => {
    const [one, other] = [{ yarn: 'A' }, { yarn: 'A' }];
    const order = [one, other, other].map((of) => ({ of, count: 1 }));
    expect(mergeRuns(order).map((run) => run.count)).toEqual([1, 2]);
    expect(countsBy(order).get(other)).toBe(2);
  });

  it('hold the elements that expanding, repeating and reversing them give', () => {
    fc.assert(
      fc.property(someRuns, fc.nat(4), (order, times) => {
        const elements = expandRuns(order);
        expect(expandRuns(mergeRuns(order))).toEqual(elements);
        expect(expandRuns(reverseRuns(order))).toEqual(elements.toReversed());
        const repeated = Array.from({ length: times }, () => elements).flat();
        expect(expandRuns(repeatRuns(order, times))).toEqual(repeated);
        expect(elements).toHaveLength(totalOf(order));
      }),
    );
  });

  it('have an element at every place up to their end and none beyond', () => {
    fc.assert(
      fc.property(someRuns, fc.integer({ min: -3, max: 50 }), (order, n) => {
        expect(elementAt(order, n)).toBe(n < 0 ? undefined : expandRuns(order)[n]);
      }),
    );
  });

  it('are cut as their elements are, and merged when cut', () => {
    fc.assert(
      fc.property(someRuns, fc.nat(50), (order, n) => {
        const cut = takeFirst(order, n);
        expect(expandRuns(cut)).toEqual(expandRuns(order).slice(0, n));
        expect(mergeRuns(cut)).toEqual(cut);
      }),
    );
  });

  it('count whole things only', () => {
    expect(() => mergeRuns(runs('A1').map((run) => ({ ...run, count: 1.5 })))).toThrow('1.5');
    expect(() => mergeRuns([{ of: 'A', count: -1 }])).toThrow('wanted a whole number from 0');
    expect(() => repeatRuns(runs('A1'), -1)).toThrow('got a count of -1');
    expect(() => takeFirst(runs('A1'), 0.5)).toThrow('got a count of 0.5');
    expect(() => cycleTo([], 3)).toThrow('got an empty order');
    expect(cycleTo([], 0)).toEqual([]);
  });
});
