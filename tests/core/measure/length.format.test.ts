import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { LengthStyle, Units } from '../../../src/core/measure/length.ts';
import {
  formatLength,
  LENGTH_STYLES,
  MM_PER_INCH,
  MM_PER_YARD,
  printedStep,
  roundUpWarp,
  UNITS,
} from '../../../src/core/measure/length.ts';
import { parseLength } from '../../../src/core/measure/lengthText.ts';

const inch = MM_PER_INCH;
const yard = MM_PER_YARD;

function parsed(text: string, units: Units): number {
  const result = parseLength(text, units);
  if (!result.ok) throw new Error(`${text} was refused: ${result.problem}`);
  return result.value;
}

describe('a printed length', () => {
  it.each<[number, Units, LengthStyle, string]>([
    [2.5 * inch, 'inch', 'short', '2½ in'],
    [8 * inch, 'inch', 'short', '8 in'],
    [(3 * inch) / 8, 'inch', 'short', '⅜ in'],
    [0, 'inch', 'short', '0 in'],
    [7.99 * inch, 'inch', 'short', '8 in'],
    [7.93 * inch, 'inch', 'short', '7⅞ in'],
    [65, 'metric', 'short', '6.5 cm'],
    [240, 'metric', 'short', '24 cm'],
    [239.96, 'metric', 'short', '24 cm'],
    [3.25 * yard, 'inch', 'long', '3¼ yd'],
    [0.9 * yard, 'inch', 'long', '1 yd'],
    [2950, 'metric', 'long', '2.95 m'],
    [3000, 'metric', 'long', '3 m'],
    [63.4, 'metric', 'fine', '63 mm'],
    [0.625 * inch, 'inch', 'fine', '⅝ in'],
    [-1.25 * inch, 'inch', 'short', '−1¼ in'],
    [-0.2, 'metric', 'short', '0 cm'],
  ])('%d mm in %s, %s, is %s', (mm, units, style, text) => {
    expect(formatLength(mm, units, style)).toBe(text);
  });

  it('is short when no style is asked for', () => {
    expect(formatLength(65, 'metric')).toBe('6.5 cm');
    expect(printedStep('metric')).toBe(1);
  });

  it('is no text for what is not finite', () => {
    expect(() => formatLength(Number.NaN, 'inch')).toThrow('wanted a finite quantity');
    expect(() => formatLength(Number.POSITIVE_INFINITY, 'metric')).toThrow('got Infinity');
  });

  it('is read back within half the printed step', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.double({ min: 0, max: 999_000, noNaN: true }),
          fc.integer({ min: 0, max: 4000 }).map((sixteenths) => (sixteenths * inch) / 16),
        ),
        fc.constantFrom(...UNITS),
        fc.constantFrom(...LENGTH_STYLES),
        (mm, units, style) => {
          const back = parsed(formatLength(mm, units, style), units);
          expect(Math.abs(back - mm)).toBeLessThanOrEqual(
            printedStep(units, style) / 2 + 1e-9 * mm,
          );
        },
      ),
    );
  });

  it('stays as it is when printed again', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 999_000, noNaN: true }),
        fc.constantFrom(...UNITS),
        fc.constantFrom(...LENGTH_STYLES),
        (mm, units, style) => {
          const text = formatLength(mm, units, style);
          expect(formatLength(parsed(text, units), units, style)).toBe(text);
        },
      ),
    );
  });
});

describe('a warp length', () => {
  // Common practice, no source: a warp length is rounded up to ¼ yd or 10 cm, never down.
  it.each<[string, number, Units, number]>([
    ['180 in', 180 * inch, 'inch', 5 * yard],
    ['a hair above 5 yd', 5 * yard + 0.001, 'inch', 5.25 * yard],
    ['181 in', 181 * inch, 'inch', 5.25 * yard],
    ['2.95 m', 2950, 'metric', 3000],
    ['3 m', 3000, 'metric', 3000],
    ['3.001 m', 3001, 'metric', 3100],
    ['nothing', 0, 'inch', 0],
  ])('of %s is measured out as the next step', (_, mm, units, expected) => {
    expect(roundUpWarp(mm, units)).toBeCloseTo(expected, 9);
  });

  it('stays where it is when the sum strays by a rounding error', () => {
    expect(roundUpWarp(0.1 + 0.2 + 99.7, 'metric')).toBe(100);
    expect(roundUpWarp(100 + 1e-9, 'metric')).toBe(100);
    expect(roundUpWarp(3 * (yard / 4) + 1e-10, 'inch')).toBeCloseTo(3 * (yard / 4), 9);
  });

  it('is never rounded down, nor by a whole step, and rounding again changes nothing', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1e6, noNaN: true }),
        fc.constantFrom(...UNITS),
        (mm, units) => {
          const step = units === 'inch' ? yard / 4 : 100;
          const rounded = roundUpWarp(mm, units);
          expect(rounded).toBeGreaterThanOrEqual(mm - 1e-6);
          expect(rounded).toBeLessThan(mm + step);
          expect(Math.abs(rounded / step - Math.round(rounded / step))).toBeLessThan(1e-9);
          expect(roundUpWarp(rounded, units)).toBe(rounded);
        },
      ),
    );
  });

  it('below nought is refused', () => {
    expect(() => roundUpWarp(-1, 'metric')).toThrow('wanted 0 or more');
    expect(() => roundUpWarp(Number.NaN, 'metric')).toThrow('got a warp length of NaN');
  });
});
