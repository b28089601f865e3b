import { describe, expect, it } from 'vitest';
import { measured } from './bench/measured.ts';
import { holds, quantile, type Row, ratiosOf, spreadOf } from './bench/row.ts';
import { betweenMarks, FROM, TO, tableOf } from './bench/table.ts';

const row: Row = {
  what: 'a tap',
  unit: 'ms',
  ours: spreadOf([3, 1, 2]),
  floor: { what: 'a click', spread: spreadOf([2, 2, 2]) },
  limits: [{ kind: 'ratio', most: 1.5 }],
};
const budgeted: Row = { ...row, floor: null, limits: [{ kind: 'p95', most: 2 }] };

describe('a spread', () => {
  it('has the median and the p95 between neighbours in proportion', () => {
    // By hand: p95 of 1, 2, 3 lies at 1.9 of 0 … 2, nine tenths of the way from 2 to 3.
    expect(row.ours).toEqual({ median: 2, p95: 2.9, most: 3, samples: [3, 1, 2] });
    expect(quantile([10, 20], 0.25)).toBe(12.5);
  });

  it('is refused of nothing', () => {
    expect(() => spreadOf([])).toThrow('got no samples');
  });
});

describe('a row', () => {
  it('holds where every limit is kept', () => {
    expect(ratiosOf(row)).toEqual({ median: 1, p95: 1.45 });
    expect(holds(row)).toBe(true);
    expect(holds({ ...row, limits: [{ kind: 'ratio', most: 0.9 }] })).toBe(false);
    expect(holds({ ...row, limits: [{ kind: 'each', most: 2.9 }] })).toBe(false);
    expect(holds(budgeted)).toBe(false);
  });

  it('with a limit of a ratio and no floor never holds', () => {
    expect(holds({ ...row, floor: null })).toBe(false);
  });
});

describe('the table', () => {
  it('shows ratios, and shares of a budget, but no times', () => {
    const [, , first, second] = tableOf({ rows: [row, budgeted], failures: [] }).split('\n');
    expect(first).toBe('| a tap | a click | 1.00 × | 1.45 × | 1.5 × | holds |');
    expect(second).toBe(
      '| a tap | its budget | 1.00 × | 1.45 × | p95 2 ms (145 % of it) | **misses** |',
    );
  });

  it('shows what could not be measured, on one line', () => {
    const failures = [{ what: 'a fold', why: 'got\nno | plan' }];
    expect(tableOf({ rows: [], failures })).toContain(
      '| a fold | got no / plan |  |  |  | **not measured** |',
    );
  });

  it('goes between its marks, and again in the place of itself', () => {
    const text = `before\n${FROM}\n${TO}\nafter`;
    const once = betweenMarks(text, 'one');
    expect(once).toBe(`before\n${FROM}\n\none\n\n${TO}\nafter`);
    expect(betweenMarks(once, 'two')).toBe(`before\n${FROM}\n\ntwo\n\n${TO}\nafter`);
    expect(() => betweenMarks('no marks', 'one')).toThrow('got a text without');
  });
});

it('a part that throws is told, and the others are measured', async () => {
  const said: string[] = [];
  const parts = [
    { what: 'one', run: async () => Promise.reject(new Error('no luck')) },
    { what: 'two', run: async () => [row] },
  ];
  const results = await measured(parts, null, (what) => said.push(what));
  expect(results).toEqual({ rows: [row], failures: [{ what: 'one', why: 'no luck' }] });
  expect(said).toEqual(['one', 'one could not be measured: no luck', 'two']);
});
