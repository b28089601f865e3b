import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Cell, csvText } from '../../../src/core/backup/csv.ts';

/** Reads a table as RFC 4180, section 2, has it; throws where the text is no such table. */
function readCsv(text: string): string[][] {
  const rows: string[][] = [];
  let at = 0;
  while (at < text.length) {
    const row: string[] = [];
    for (;;) {
      const cell = /"((?:[^"]|"")*)"|([^",\r\n]*)/y;
      cell.lastIndex = at;
      const found = cell.exec(text);
      if (found === null) throw new Error(`no cell at ${at}`);
      row.push(found[1] === undefined ? (found[2] ?? '') : found[1].replaceAll('""', '"'));
      at = cell.lastIndex;
      if (text[at] !== ',') break;
      at++;
    }
    if (text.slice(at, at + 2) !== '\r\n') throw new Error(`no line end at ${at}`);
    at += 2;
    rows.push(row);
  }
  return rows;
}

const bodyOf = (text: string) => text.slice(1);

describe('a table', () => {
  it.each([
    [[['a', 'b']], 'a,b\r\n'],
    [[['a'], ['b']], 'a\r\nb\r\n'],
    [[['one, two', 3]], '"one, two",3\r\n'],
    [[['5 "moss"']], '"5 ""moss"""\r\n'],
    [[['two\nlines']], '"two\nlines"\r\n'],
    [[[0, 2.5]], '0,2.5\r\n'],
    [[['', '']], ',\r\n'],
  ] as const)('%j is %j', (rows, text) => {
    expect(csvText(rows)).toBe(`\ufeff${text}`);
  });

  it.each([
    ['=1+1', "'=1+1"],
    ['+1', "'+1"],
    ['-1', "'-1"],
    ['@SUM(A1)', "'@SUM(A1)"],
    ['\t=1', "'\t=1"],
    ['\tx', "'\tx"],
    [' =1', "' =1"],
    ['\u200b=1', "'\u200b=1"],
    ['＝1', "'＝1"],
    ['a=1', 'a=1'],
    ['10-3', '10-3'],
    ['’tis', '’tis'],
  ])('a cell %j stands there as %j: never a formula', (cell, shown) => {
    expect(bodyOf(csvText([[cell]]))).toBe(`${shown}\r\n`);
  });

  it('a carriage return or a line feed in front is text too', () => {
    expect(bodyOf(csvText([['\r=1']]))).toBe('"\'\r=1"\r\n');
    expect(bodyOf(csvText([['\n=1']]))).toBe('"\'\n=1"\r\n');
  });

  it('a number below nought or none at all is a mistake of ours', () => {
    expect(() => csvText([[-1]])).toThrow('got -1');
    expect(() => csvText([[Number.NaN]])).toThrow('got NaN');
  });

  it('reads back as it was written, cell for cell, and no cell begins as a formula does', () => {
    const cell: fc.Arbitrary<Cell> = fc.oneof(
      fc.nat(),
      fc.string(),
      fc.string({ unit: 'binary' }),
      fc
        .tuple(fc.constantFrom('=', '+', '-', '@', '\t', '\r', '"', ',', ' ', "'"), fc.string())
        .map((it) => it.join('')),
    );
    const row = fc.array(cell, { minLength: 1, maxLength: 5 });
    fc.assert(
      fc.property(fc.array(row, { minLength: 1, maxLength: 5 }), (rows) => {
        const read = readCsv(bodyOf(csvText(rows)));
        const wanted = rows.map((cells) => cells.map(String));
        const bare = (text: string, given = '') => (text === `'${given}` ? given : text);
        expect(read.map((cells, r) => cells.map((it, c) => bare(it, wanted[r]?.[c])))).toEqual(
          wanted,
        );
        expect(read.flat().filter((text) => /^\s*[=+\-@\t\r]/.test(text))).toEqual([]);
      }),
      { numRuns: 500 },
    );
  });
});
