import fc from 'fast-check';
import { unit } from 'mathjs';
import { describe, expect, it } from 'vitest';
import type { Units } from '../../../src/core/measure/length.ts';
import { MM_PER_INCH, MM_PER_YARD, UNITS } from '../../../src/core/measure/length.ts';
import { type LengthProblem, parseLength } from '../../../src/core/measure/lengthText.ts';

const inch = MM_PER_INCH;
const yard = MM_PER_YARD;

function parsed(text: string, units: Units): number {
  const result = parseLength(text, units);
  if (!result.ok) throw new Error(`${text} was refused: ${result.problem}`);
  return result.value;
}

describe('a typed length', () => {
  // Rule: 1 in = 25.4 mm, 1 yd = 914.4 mm exactly; 12 in to the foot.
  it.each<[string, Units, number]>([
    ['2 1/2', 'inch', 2.5 * inch],
    ['2½', 'inch', 2.5 * inch],
    ['2 ½', 'inch', 2.5 * inch],
    ['2-1/2 in', 'inch', 2.5 * inch],
    ['21⁄2', 'inch', 10.5 * inch],
    ['2.5"', 'inch', 2.5 * inch],
    ['2.5″', 'metric', 2.5 * inch],
    ['2.5 in.', 'metric', 2.5 * inch],
    ['½', 'inch', inch / 2],
    ['3/8', 'inch', (3 * inch) / 8],
    ['.5 in', 'inch', inch / 2],
    ['8', 'inch', 8 * inch],
    ['8', 'metric', 80],
    ['6 cm', 'inch', 60],
    ['6,5 cm', 'metric', 65],
    ['6,5', 'metric', 65],
    ['0,125 m', 'metric', 125],
    ['60 mm', 'inch', 60],
    ['60MM', 'inch', 60],
    ['1 yd', 'metric', yard],
    ['3¼ yd', 'inch', 3.25 * yard],
    ['1 m', 'inch', 1000],
    ['2 ft', 'metric', 24 * inch],
    ['1 yd 4 in', 'inch', 40 * inch],
    ['1 yd, 4 in', 'inch', 40 * inch],
    ['1yd4in', 'inch', 40 * inch],
    [`3' 2"`, 'inch', 38 * inch],
    ['3′ 2½″', 'metric', 38.5 * inch],
    [`3’ 2''`, 'inch', 38 * inch],
    ['1 m 20 cm 5 mm', 'inch', 1205],
    [' 2 1/2\u00a0in ', 'metric', 2.5 * inch],
    ['0', 'inch', 0],
    ['1000 m', 'metric', 1e6],
  ])('%s with %s units is %d mm', (text, units, mm) => {
    expect(parsed(text, units)).toBeCloseTo(mm, 9);
  });

  it('reads every printed fraction', () => {
    const glyphs: readonly [string, number][] = [
      ...[...'½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒'].map((glyph): [string, number] => {
        const [over = '', under = ''] = glyph.normalize('NFKC').split('⁄');
        return [glyph, Number(over) / Number(under)];
      }),
      ['↉', 0],
    ];
    for (const [glyph, value] of glyphs) {
      expect(parsed(`${glyph} in`, 'metric')).toBeCloseTo(value * inch, 9);
      expect(parsed(`7${glyph}`, 'inch')).toBeCloseTo((7 + value) * inch, 9);
    }
  });

  it.each<[string, LengthProblem]>([
    ['', 'empty'],
    ['  \t', 'empty'],
    ['-2 in', 'negative'],
    ['−2½', 'negative'],
    ['–3 cm', 'negative'],
    ['- 3', 'negative'],
    ['-', 'not-a-length'],
    ['-cat', 'not-a-length'],
    ['NaN', 'not-a-length'],
    ['Infinity', 'not-a-length'],
    ['1e3', 'not-a-length'],
    ['0x10', 'not-a-length'],
    ['in', 'not-a-length'],
    ['2 furlongs', 'not-a-length'],
    ['2 in 3 in', 'not-a-length'],
    ['4 in 1 yd', 'not-a-length'],
    ['1 yd 4', 'not-a-length'],
    ['2 3', 'not-a-length'],
    ['1/0', 'not-a-length'],
    ['0/0 in', 'not-a-length'],
    ['1/2/3', 'not-a-length'],
    ['1½/2', 'not-a-length'],
    ['1.2.3', 'not-a-length'],
    ['2.', 'not-a-length'],
    ['+2', 'not-a-length'],
    ['2 in!', 'not-a-length'],
    ['6, 5 cm', 'not-a-length'],
    ['1,500 yd', 'ambiguous-comma'],
    ['1,234.5 mm', 'ambiguous-comma'],
    ['12,500', 'ambiguous-comma'],
    ['1001 m', 'too-long'],
    ['9'.repeat(60), 'too-long'],
  ])('%j is refused as %s', (text, problem) => {
    expect(parseLength(text, 'inch')).toEqual({ ok: false, problem });
  });

  it('longer than anyone types is not even tried', () => {
    expect(parseLength('9'.repeat(400), 'inch')).toEqual({ ok: false, problem: 'not-a-length' });
  });
});

describe('reading any text', () => {
  it('gives a length from 0 to a kilometre or a refusal, and never throws', () => {
    const piece = fc.constantFrom(...'0123456789 .,/-½"\''.split(''), 'in', 'cm', 'yd', 'm', ' ');
    const text = fc.oneof(
      fc.string(),
      fc.array(piece, { maxLength: 12 }).map((p) => p.join('')),
    );
    fc.assert(
      fc.property(text, fc.constantFrom(...UNITS), (typed, units) => {
        const result = parseLength(typed, units);
        if (result.ok) {
          expect(result.value).toBeGreaterThanOrEqual(0);
          expect(result.value).toBeLessThanOrEqual(1e6);
        } else {
          expect(result.problem.length).toBeGreaterThan(0);
        }
      }),
      { numRuns: 500 },
    );
  });

  it('agrees with a general units library', () => {
    const names = ['mm', 'cm', 'm', 'inch', 'ft', 'yd'] as const;
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 8000 }), fc.constantFrom(...names), (eighths, name) => {
        const amount = eighths / 8;
        const expected = unit(amount, name).toNumber('mm');
        expect(parsed(`${amount} ${name}`, 'inch')).toBeCloseTo(expected, 6);
      }),
    );
  });
});
