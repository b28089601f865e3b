import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { linesFor, pagesOf, type RowHeight } from '../../../src/core/paper/pages.ts';
import { PAPER_MARGIN, PAPER_SIZES, printable } from '../../../src/core/paper/paper.ts';

describe('paper', () => {
  it('is A4 as ISO 216 has it and Letter of 8½ × 11 in', () => {
    expect(PAPER_SIZES.a4).toEqual({ width: 210, height: 297 });
    expect(PAPER_SIZES.letter.width).toBeCloseTo(8.5 * 25.4, 9);
    expect(PAPER_SIZES.letter.height).toBeCloseTo(11 * 25.4, 9);
  });

  it('keeps 12 mm free all round', () => {
    expect(PAPER_MARGIN).toBe(12);
    expect(printable('a4')).toEqual({ width: 186, height: 272.5 });
  });
});

describe('lines of a text', () => {
  // Ten letters of type 5 are 30 mm wide at 0.6 of its size each.
  it.each([
    ['', 1],
    ['ten letter', 1],
    ['ten letters', 2],
    ['a b c d e f g h i j', 2],
    ['abcdefghijabcdefghijk', 3],
    ['one abcdefghijabcdefghijk', 4],
  ])('%j in a column of ten: %i', (text, lines) => {
    expect(linesFor(text, 30, 5)).toBe(lines);
  });

  it('bold type takes more room', () => {
    expect(linesFor('ten letter', 30, 5, 'bold')).toBe(2);
  });
});

const row = (height: number): RowHeight => ({ height });
const heading = (height: number): RowHeight => ({ height, headsNext: true });

describe('pages', () => {
  it.each([
    ['nothing has no page', [], []],
    ['all on one', [row(4), row(6)], [[0, 2]]],
    [
      'the one too many goes over',
      [row(4), row(6), row(1)],
      [
        [0, 2],
        [2, 3],
      ],
    ],
    [
      'a heading goes with what it heads',
      [row(4), row(3), heading(2), row(2)],
      [
        [0, 2],
        [2, 4],
      ],
    ],
    [
      'two headings go together',
      [row(5), heading(2), heading(2), row(2)],
      [
        [0, 1],
        [1, 4],
      ],
    ],
    [
      'one too high has a page',
      [row(3), row(14), row(3)],
      [
        [0, 1],
        [1, 2],
        [2, 3],
      ],
    ],
    [
      'headings alone are broken somewhere',
      [heading(6), heading(6)],
      [
        [0, 1],
        [1, 2],
      ],
    ],
  ] as const)('of ten: %s', (_, rows, pages) => {
    expect(pagesOf(rows, 10).map(({ from, to }) => [from, to])).toEqual(pages);
  });

  it('hold every row once, in order, none over its room but one by itself', () => {
    const anyRow = fc.record({ height: fc.integer({ min: 1, max: 14 }), head: fc.boolean() });
    fc.assert(
      fc.property(fc.array(anyRow, { maxLength: 40 }), (drawn) => {
        const rows = drawn.map(({ height, head }) => (head ? heading(height) : row(height)));
        const pages = pagesOf(rows, 12);
        const seen = pages.flatMap(({ from, to }) => rows.slice(from, to));
        expect(seen).toEqual(rows);
        for (const { from, to } of pages) {
          expect(to).toBeGreaterThan(from);
          const used = rows.slice(from, to).reduce((sum, it) => sum + it.height, 0);
          expect(used <= 12 || to - from === 1).toBe(true);
          const isLast = to === rows.length;
          const headings = rows.slice(from, to).every((it) => it.headsNext);
          if (!isLast && !headings) expect(rows[to - 1]?.headsNext).toBeUndefined();
        }
      }),
      { numRuns: 1000 },
    );
  });
});
