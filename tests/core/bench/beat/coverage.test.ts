/**
 * Simulated weavers ask what the estimator says. `node scripts/weavers.mjs 2000` tries every setting
 * with as many weavers as are wanted; here the usual ones, and some of the others by the few hundred.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import {
  coverageOf,
  halfwayErrors,
  jumpsIn,
  laterPieces,
  SETTINGS,
  type Trial,
  trialsOf,
} from './trials.ts';

const SLACK = 600_000;

describe('of 2,000 usual weavers', () => {
  let trials: readonly Trial[] = [];
  beforeAll(() => {
    const usual = SETTINGS.find(({ name }) => name === 'usual');
    if (usual === undefined) throw new Error('wanted the usual weavers among the settings');
    trials = trialsOf(usual.weaver, 2000, usual.length);
  }, SLACK);

  it.each(['fell', 'final', 'woven'] as const)(
    '87 to 93 in a hundred have the length in its 90 %% interval at a quarter, half and three quarters: %s',
    (what) => {
      for (const share of coverageOf(trials, what)) {
        expect(share).toBeGreaterThanOrEqual(0.87);
        expect(share).toBeLessThanOrEqual(0.93);
      }
    },
  );

  it('the forecast of the final length at half-way is at most half as far off as the plan', () => {
    const { forecast, plan } = halfwayErrors(trials);
    expect(forecast).toBeLessThanOrEqual(plan / 2);
  });

  it('two in five are told of their jump of 5 %, one piece in five without one hears of a change', () => {
    const { jumped, found, calm, alarms } = jumpsIn(trials);
    expect(found / jumped).toBeGreaterThan(0.4);
    expect(alarms / calm).toBeLessThan(0.23);
  });
});

describe('weavers of other kinds', () => {
  const few = [
    ['noise × 0.5', 0.86, 0.995],
    ['noise × 1.5', 0.79, 0.94],
    ['not rounded', 0.84, 0.96],
    ['rounded to cm', 0.84, 0.96],
    ['drift × 0.5', 0.86, 0.99],
    ['spacing sd 9 %', 0.84, 0.96],
    ['jumps in 30 %', 0.84, 0.96],
    ['read every 3 cm', 0.83, 0.96],
    ['read every 25 cm', 0.85, 0.98],
    ['no pins', 0.84, 0.96],
    ['all from pins', 0.84, 0.96],
    ['5 % misread', 0.84, 0.96],
    ['three yarns apart by 4 %', 0.83, 0.96],
    ['pieces of 30 cm', 0.85, 0.98],
  ] as const;

  it.each(few)(
    '%s: at the fell between %d and %d of 300',
    { timeout: SLACK },
    (name, least, most) => {
      const setting = SETTINGS.find((it) => it.name === name);
      if (setting === undefined) throw new Error(`wanted a setting, got ${name}`);
      const trials = trialsOf(setting.weaver, 300, setting.length);
      for (const share of coverageOf(trials, 'fell')) {
        expect(share).toBeGreaterThanOrEqual(least);
        expect(share).toBeLessThanOrEqual(most);
      }
      const { forecast, plan } = halfwayErrors(trials);
      expect(forecast).toBeLessThan(plan / 2);
    },
  );
});

describe('in the pieces after the first', () => {
  it.each([
    // Spread of the beat from piece to piece, and the least and the most that hold before any reading.
    ['woven alike', 0, 0.84, 0.97],
    ['woven with 2 % between them', 0.02, 0.82, 0.95],
    ['woven as if by others each time', 0.06, 0.5, 0.85],
  ] as const)(
    '%s: 90 % intervals hold from half-way on, and what the last piece taught before that',
    { timeout: SLACK },
    (_, carriedSd, least, most) => {
      const held = Array.from({ length: 200 }, (_, seed) => laterPieces(carriedSd, seed, 3)).flat();
      const share = (of: 'start' | 'half') => held.filter((it) => it[of]).length / held.length;
      expect(share('start')).toBeGreaterThanOrEqual(least);
      expect(share('start')).toBeLessThanOrEqual(most);
      expect(share('half')).toBeGreaterThanOrEqual(0.84);
      expect(share('half')).toBeLessThanOrEqual(0.96);
    },
  );
});

describe('a jump of 10 %', () => {
  it('is said to four in five, seldom more than once', { timeout: SLACK }, () => {
    const setting = SETTINGS.find(({ name }) => name === 'jumps of 10 %');
    if (setting === undefined) throw new Error('wanted weavers with jumps of 10 %');
    const weaver = { ...setting.weaver, jumps: { share: 1, size: 0.1 } };
    const trials = trialsOf(weaver, 300).filter(({ jump, picks }) => {
      return jump !== null && jump > 0.15 * picks && jump < 0.7 * picks;
    });
    const { jumped, found } = jumpsIn(trials);
    expect(found / jumped).toBeGreaterThan(0.8);
    const said = trials.reduce((sum, { saidAt }) => sum + saidAt.length, 0);
    expect(said / trials.length).toBeLessThan(1.4);
  });
});
