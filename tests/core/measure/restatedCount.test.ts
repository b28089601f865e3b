import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { restatedCount } from '../../../src/core/measure/restatedCount.ts';
import {
  COUNT_SYSTEMS,
  type CountSystem,
  parseYarnCount,
  texOf,
  type YarnCount,
} from '../../../src/core/measure/yarnCount.ts';

const count = (system: CountSystem, number: number, plies = 1): YarnCount => ({
  system,
  number,
  plies,
});

describe('a count restated in another system', () => {
  // The yardage of a pound of each: ASTM D2260, Table 1.
  it.each<[YarnCount, CountSystem, number]>([
    [count('cottonCount', 8, 2), 'ydPerLb', 3360],
    [count('cottonCount', 10, 2), 'ydPerLb', 4200],
    [count('linenLea', 16, 2), 'ydPerLb', 2400],
    [count('worsted', 12, 2), 'ydPerLb', 3360],
    [count('woollenRun', 2), 'ydPerLb', 3200],
    [count('metric', 8, 2), 'mPer100g', 400],
    [count('tex', 125), 'mPer100g', 800],
    [count('dtex', 1250), 'mPerKg', 8000],
    [count('ydPerLb', 3360), 'cottonCount', 4],
    [count('ydPerLb', 3360), 'mPer100g', 677.3],
    [count('tex', 30), 'denier', 270],
  ])('%j in %s is %d, unplied', (given, system, number) => {
    expect(restatedCount(given, system)).toEqual({ system, number, plies: 1 });
  });

  it('in its own system it stays as it was written, plies and all', () => {
    for (const system of COUNT_SYSTEMS) {
      expect(restatedCount(count(system, 8, 2), system)).toEqual(count(system, 8, 2));
    }
  });

  it('is the same yarn within half of its fourth figure, and reads back as typed', () => {
    const systems = fc.constantFrom(...COUNT_SYSTEMS);
    const tex = fc.double({ min: 5, max: 5000, noNaN: true });
    fc.assert(
      fc.property(tex, systems, (density, system) => {
        const restated = restatedCount(count('tex', density), system);
        expect(Math.abs(texOf(restated) / density - 1)).toBeLessThanOrEqual(0.000_51);
        const read = parseYarnCount(String(restated.number), system);
        expect(read).toEqual({ ok: true, value: restated });
      }),
    );
  });
});
