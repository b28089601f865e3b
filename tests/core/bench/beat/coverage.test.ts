/**
 * Simulated weavers ask what the estimator says. `node scripts/weavers.mjs 2000` tries every setting
 * with as many weavers as are wanted; here the usual ones, and some of the others by the few hundred.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { coverageOf, halfwayErrors, jumpsIn, SETTINGS, type Trial, trialsOf } from './trials.ts';

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
