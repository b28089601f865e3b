import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CountProblem, CountSystem, YarnCount } from '../../../src/core/measure/yarnCount.ts';
import {
  COUNT_SYSTEMS,
  formatYarnCount,
  parseYarnCount,
} from '../../../src/core/measure/yarnCount.ts';

function parsed(text: string, system: CountSystem): YarnCount {
  const result = parseYarnCount(text, system);
  if (!result.ok) throw new Error(`${text} was refused: ${result.problem}`);
  return result.value;
}

describe('a typed count', () => {
  it.each<[string, CountSystem, number, number]>([
    ['8/2', 'cottonCount', 8, 2],
    [' 8 / 2 ', 'cottonCount', 8, 2],
    ['20', 'cottonCount', 20, 1],
    ['2/8', 'metric', 8, 2],
    ['2/4,8', 'metric', 4.8, 2],
    ['2/1.5', 'metric', 1.5, 2],
    ['7.5/2', 'metric', 7.5, 2],
    ['30×2', 'tex', 30, 2],
    ['30 x 2', 'tex', 30, 2],
    ['2×3', 'metric', 2, 3],
    ['3360', 'ydPerLb', 3360, 1],
    ['1/20', 'worsted', 20, 1],
  ])('%s in %s is %d in %d plies', (text, system, number, plies) => {
    expect(parsed(text, system)).toEqual({ system, number, plies });
  });

  it.each<[string, CountSystem, CountProblem]>([
    ['', 'cottonCount', 'empty'],
    ['-8/2', 'cottonCount', 'negative'],
    ['−8', 'tex', 'negative'],
    ['eight', 'cottonCount', 'not-a-count'],
    ['0', 'cottonCount', 'not-a-count'],
    ['8/0', 'cottonCount', 'not-a-count'],
    ['8/', 'cottonCount', 'not-a-count'],
    ['/2', 'cottonCount', 'not-a-count'],
    ['8/2/2', 'cottonCount', 'not-a-count'],
    ['2½', 'woollenRun', 'not-a-count'],
    ['½', 'woollenRun', 'not-a-count'],
    ['8.5/2.5', 'cottonCount', 'not-a-count'],
    ['30×2.5', 'tex', 'not-a-count'],
    ['30/2', 'tex', 'not-a-count'],
    ['3360/2', 'ydPerLb', 'not-a-count'],
    ['3,360', 'ydPerLb', 'ambiguous-comma'],
    ['20×100', 'cottonCount', 'too-many-plies'],
    ['100000', 'cottonCount', 'too-fine'],
    ['2000000', 'tex', 'too-thick'],
  ])('%j in %s is refused as %s', (text, system, problem) => {
    expect(parseYarnCount(text, system)).toEqual({ ok: false, problem });
  });

  it('is written back the way its system writes it', () => {
    expect(formatYarnCount({ system: 'cottonCount', number: 8, plies: 2 })).toBe('8/2');
    expect(formatYarnCount({ system: 'metric', number: 8, plies: 2 })).toBe('2/8');
    expect(formatYarnCount({ system: 'tex', number: 30, plies: 2 })).toBe('30×2');
    expect(formatYarnCount({ system: 'metric', number: 2, plies: 3 })).toBe('2×3');
    expect(formatYarnCount({ system: 'ydPerLb', number: 3360, plies: 2 })).toBe('3360');
  });

  it('reads back what was written, in every system', () => {
    const number = fc.oneof(
      fc.integer({ min: 1, max: 120 }),
      fc.integer({ min: 1, max: 1200 }).map((tenths) => tenths / 10),
    );
    fc.assert(
      fc.property(
        fc.constantFrom(...COUNT_SYSTEMS),
        number,
        fc.integer({ min: 1, max: 24 }),
        (system, n, plies) => {
          const isLabel = ['ydPerLb', 'mPer100g', 'mPerKg'].includes(system);
          const count = { system, number: n, plies: isLabel ? 1 : plies };
          const result = parseYarnCount(formatYarnCount(count), system);
          const known: unknown[] = ['too-fine', 'too-thick'];
          if (result.ok) expect(result.value).toEqual(count);
          else expect(known).toContain(result.problem);
        },
      ),
      { numRuns: 1000 },
    );
  });
});
