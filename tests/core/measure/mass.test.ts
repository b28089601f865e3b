import fc from 'fast-check';
import { unit } from 'mathjs';
import { describe, expect, it } from 'vitest';
import type { Units } from '../../../src/core/measure/length.ts';
import { UNITS } from '../../../src/core/measure/length.ts';
import type { MassProblem } from '../../../src/core/measure/mass.ts';
import { formatMass, G_PER_OUNCE, G_PER_POUND, parseMass } from '../../../src/core/measure/mass.ts';

function parsed(text: string, units: Units): number {
  const result = parseMass(text, units);
  if (!result.ok) throw new Error(`${text} was refused: ${result.problem}`);
  return result.value;
}

describe('a typed mass', () => {
  // Rule: 1 lb = 453.59237 g exactly, 16 oz to the pound.
  it.each<[string, Units, number]>([
    ['100 g', 'inch', 100],
    ['100', 'metric', 100],
    ['3.5 oz', 'metric', 3.5 * G_PER_OUNCE],
    ['3,5', 'inch', 3.5 * G_PER_OUNCE],
    ['1 lb 4 oz', 'metric', 1.25 * G_PER_POUND],
    ['8 oz', 'inch', G_PER_POUND / 2],
    ['1/2 lb', 'metric', G_PER_POUND / 2],
    ['1½ lbs', 'inch', 1.5 * G_PER_POUND],
    ['0.1 kg', 'inch', 100],
    ['1 kg 250 g', 'metric', 1250],
    ['0', 'metric', 0],
    ['1000 kg', 'metric', 1e6],
  ])('%s with %s units is %d g', (text, units, grams) => {
    expect(parsed(text, units)).toBeCloseTo(grams, 9);
  });

  it.each<[string, MassProblem]>([
    ['', 'empty'],
    ['-5 g', 'negative'],
    ['heavy', 'not-a-mass'],
    ['5 gr', 'not-a-mass'],
    ['5 in', 'not-a-mass'],
    ['4 oz 1 lb', 'not-a-mass'],
    ['1,500 g', 'ambiguous-comma'],
    ['1001 kg', 'too-heavy'],
  ])('%j is refused as %s', (text, problem) => {
    expect(parseMass(text, 'metric')).toEqual({ ok: false, problem });
  });

  it('agrees with a general units library', () => {
    const names = ['g', 'kg', 'oz', 'lb'] as const;
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 8000 }), fc.constantFrom(...names), (eighths, name) => {
        const expected = unit(eighths / 8, name).toNumber('g');
        expect(parsed(`${eighths / 8} ${name}`, 'inch')).toBeCloseTo(expected, 6);
      }),
    );
  });
});

describe('a printed mass', () => {
  it.each<[number, Units, string]>([
    [677.34, 'metric', '677 g'],
    [1250, 'metric', '1.25 kg'],
    [999.6, 'metric', '1 kg'],
    [0, 'metric', '0 g'],
    [3.5 * G_PER_OUNCE, 'inch', '3½ oz'],
    [1.25 * G_PER_POUND, 'inch', '1 lb 4 oz'],
    [15.9 * G_PER_OUNCE, 'inch', '1 lb'],
    [2 * G_PER_POUND + G_PER_OUNCE / 4, 'inch', '2 lb ¼ oz'],
    [0, 'inch', '0 oz'],
    [-2 * G_PER_OUNCE, 'inch', '−2 oz'],
    [-0.2, 'metric', '0 g'],
  ])('of %d g in %s is %s', (grams, units, text) => {
    expect(formatMass(grams, units)).toBe(text);
  });

  it('is no text for what is not finite', () => {
    expect(() => formatMass(Number.NaN, 'metric')).toThrow('wanted a finite quantity');
  });

  it('is read back within half a gram or an eighth of an ounce', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 900_000, noNaN: true }),
        fc.constantFrom(...UNITS),
        (grams, units) => {
          const half = units === 'metric' ? 0.5 : G_PER_OUNCE / 8;
          const back = parsed(formatMass(grams, units), units);
          expect(Math.abs(back - grams)).toBeLessThanOrEqual(half + 1e-9 * grams);
        },
      ),
    );
  });
});
