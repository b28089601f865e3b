import fc from 'fast-check';
import { unit } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { MM_PER_YARD } from '../../../src/core/measure/length.ts';
import { G_PER_POUND } from '../../../src/core/measure/mass.ts';
import type { CountSystem, YarnCount } from '../../../src/core/measure/yarnCount.ts';
import {
  COUNT_SYSTEMS,
  countIn,
  foldedCount,
  lengthOf,
  massOf,
  mPer100g,
  mPerKg,
  parseYarnCount,
  texOf,
  ydPerLb,
} from '../../../src/core/measure/yarnCount.ts';

function single(system: CountSystem, number: number): number {
  return texOf({ system, number, plies: 1 });
}

function parsed(text: string, system: CountSystem): YarnCount {
  const result = parseYarnCount(text, system);
  if (!result.ok) throw new Error(`${text} was refused: ${result.problem}`);
  return result.value;
}

/** Within the tolerance that check values print, not within a number of decimals. */
function expectNear(got: number, wanted: number, tolerance: number): void {
  expect(Math.abs(got - wanted), `got ${got}, wanted ${wanted}`).toBeLessThanOrEqual(tolerance);
}

describe('counts by ASTM D2260 (D2260)', () => {
  it.each<[CountSystem, number, number]>([
    ['cottonCount', 590.541, 0.001],
    ['worsted', 885.812, 0.001],
    ['linenLea', 1653.52, 0.01],
    ['woollenCut', 1653.52, 0.01],
    ['woollenRun', 310.034, 0.001],
    ['metric', 1000, 0.001],
    ['ydPerLb', 496_054.6, 0.1],
  ])('%s: tex is %d over the number', (system, constant, tolerance) => {
    expectNear(single(system, 1), constant, tolerance);
    expectNear(single(system, 8), constant / 8, tolerance);
  });

  it('one metric count is 496.055 yd/lb', () => {
    expectNear(ydPerLb(single('metric', 1)), 496.055, 0.001);
  });

  it('denier is 9 × tex, and cotton count × denier is 5314.87', () => {
    expect(countIn('denier', 30)).toBeCloseTo(270, 9);
    expect(single('denier', 270)).toBeCloseTo(30, 9);
    expectNear(10 * countIn('denier', single('cottonCount', 10)), 5314.87, 0.01);
  });

  it('a cotton count c is 1.5 c worsted, 0.525 c run and 2.8 c lea', () => {
    const tex = single('cottonCount', 1);
    expectNear(countIn('worsted', tex), 1.5, 1e-5);
    expectNear(countIn('woollenRun', tex), 0.525, 1e-5);
    expectNear(countIn('linenLea', tex), 2.8, 1e-5);
  });

  it('10 cotton is 15 worsted, and 30 tex is 19.7 cotton (D2260 examples)', () => {
    expectNear(countIn('worsted', single('cottonCount', 10)), 15, 0.05);
    expectNear(countIn('cottonCount', 30), 19.7, 0.05);
  });
});

describe('counts by older books', () => {
  it('20 cotton is 30 worsted and 56 linen (BRO p. 91)', () => {
    const tex = single('cottonCount', 20);
    expect(countIn('worsted', tex)).toBeCloseTo(30, 9);
    expect(countIn('linenLea', tex)).toBeCloseTo(56, 9);
  });

  it.each<[number[], number]>([
    [[40, 20], 13.33],
    [[40, 80, 120], 21.81],
    [[60, 40], 24],
  ])('%j folded is %d (BRO p. 91, TAY p. 239)', (singles, folded) => {
    expectNear(foldedCount(singles), folded, 0.01);
  });

  it('9240 yd of 44s cotton are 11 hanks and weigh ¼ lb (BRO, Wrapping)', () => {
    expect(9240 / 840).toBe(11);
    const grams = massOf(9240 * MM_PER_YARD, single('cottonCount', 44));
    expect(grams).toBeCloseTo(G_PER_POUND / 4, 9);
  });

  it('120 yd weighing 25 grains are cotton 40s (BRO, Wrapping)', () => {
    const grain = G_PER_POUND / 7000;
    const tex = (25 * grain) / ((120 * MM_PER_YARD) / 1e6);
    expect(countIn('cottonCount', tex)).toBeCloseTo(40, 9);
    expect(lengthOf(25 * grain, single('cottonCount', 40))).toBeCloseTo(120 * MM_PER_YARD, 6);
  });
});

describe('plied counts as written (rule)', () => {
  it.each<[string, CountSystem, number, number]>([
    ['8/2', 'cottonCount', 3360, 1e-6],
    ['8/4', 'cottonCount', 1680, 1e-6],
    ['10/2', 'cottonCount', 4200, 1e-6],
    ['5/2', 'cottonCount', 2100, 1e-6],
    ['16/2', 'cottonCount', 6720, 1e-6],
    ['16/2', 'linenLea', 2400, 1e-6],
    ['40/2', 'linenLea', 6000, 1e-6],
    ['2/8', 'worsted', 2240, 1e-6],
    ['16/2', 'worsted', 4480, 0.1],
    ['16/2', 'metric', 3968.4, 0.1],
    // Common practice, no source: 3/2 is three-count cotton, 12/15 a seine twine of 15 plies.
    ['3/2', 'cottonCount', 1260, 1e-6],
    ['12/15', 'cottonCount', (12 * 840) / 15, 1e-6],
    ['2/16', 'cottonCount', 6720, 1e-6],
    ['4/8', 'cottonCount', 1680, 1e-6],
  ])('%s %s is %d yd/lb', (text, system, yards, tolerance) => {
    expectNear(ydPerLb(texOf(parsed(text, system))), yards, tolerance);
  });

  it('metric 2/16 is 8000 m/kg, 2/60 is 30 000 m/kg', () => {
    expect(mPerKg(texOf(parsed('2/16', 'metric')))).toBeCloseTo(8000, 6);
    expect(mPerKg(texOf(parsed('2/60', 'metric')))).toBeCloseTo(30_000, 6);
  });

  it('100 g of 8/2 cotton are 677.34 m or 740.75 yd', () => {
    const tex = texOf(parsed('8/2', 'cottonCount'));
    expectNear(lengthOf(100, tex) / 1000, 677.34, 0.01);
    expectNear(lengthOf(100, tex) / MM_PER_YARD, 740.75, 0.01);
    expectNear(mPer100g(tex), 677.34, 0.01);
  });

  it('two unlike plies fold as two like ones do', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 200, noNaN: true }),
        fc.integer({ min: 1, max: 12 }),
        (n, plies) => {
          expect(foldedCount(Array.from({ length: plies }, () => n))).toBeCloseTo(n / plies, 9);
        },
      ),
    );
  });

  it('plies thicken a tex yarn and leave a label figure alone', () => {
    expect(texOf({ system: 'tex', number: 30, plies: 2 })).toBe(60);
    expect(texOf({ system: 'dtex', number: 300, plies: 2 })).toBeCloseTo(60, 9);
    for (const system of ['ydPerLb', 'mPer100g', 'mPerKg'] as const) {
      expect(texOf({ system, number: 500, plies: 4 })).toBe(single(system, 500));
    }
  });
});

describe('any count', () => {
  const tex = fc.double({ min: 1, max: 5000, noNaN: true });

  it('goes to tex and back in every system', () => {
    fc.assert(
      fc.property(fc.constantFrom(...COUNT_SYSTEMS), tex, (system, density) => {
        const back = single(system, countIn(system, density));
        expect(Math.abs(back / density - 1)).toBeLessThan(1e-12);
      }),
    );
  });

  it('gives the same lengths as a general units library', () => {
    fc.assert(
      fc.property(fc.integer({ min: 50, max: 20_000 }), (yards) => {
        const density = single('ydPerLb', yards);
        const expected = unit(yards, 'yd/lb').toNumber('m/kg');
        expect(Math.abs(mPerKg(density) / expected - 1)).toBeLessThan(1e-12);
        expect(Math.abs(mPer100g(density) / (expected / 10) - 1)).toBeLessThan(1e-12);
        expect(Math.abs(ydPerLb(density) / yards - 1)).toBeLessThan(1e-12);
      }),
    );
  });

  it('weighs a length and measures it back', () => {
    fc.assert(
      fc.property(tex, fc.double({ min: 0.1, max: 1e4, noNaN: true }), (density, grams) => {
        expect(Math.abs(massOf(lengthOf(grams, density), density) / grams - 1)).toBeLessThan(1e-12);
      }),
    );
  });

  it('of nothing, or of no plies, is a broken promise', () => {
    expect(() => texOf({ system: 'tex', number: 0, plies: 1 })).toThrow('wanted above 0');
    expect(() => texOf({ system: 'tex', number: Number.NaN, plies: 1 })).toThrow('got count NaN');
    expect(() => texOf({ system: 'tex', number: 9, plies: 0 })).toThrow('in 0 plies');
    expect(() => foldedCount([])).toThrow('wanted one or more');
  });
});
