import { describe, expect, it } from 'vitest';
import { NO_READINGS, rounded, roundingNoise } from '../../../../src/core/bench/beat/rounding.ts';
import { chanceFrom } from './simulatedWeaver.ts';

const INCH = 25.4;

function noiseAfter(count: number, step: number, seed = 1): number {
  const chance = chanceFrom(seed);
  let rounding = NO_READINGS;
  for (let i = 0; i < count; i++) {
    const mm = chance.between([40, 900]);
    rounding = rounded(rounding, step > 0 ? Math.round(mm / step) * step : mm);
  }
  return Math.sqrt(roundingNoise(rounding));
}

describe('what readings are rounded to', () => {
  // An error anywhere within a step is step / √12 (sd).
  it.each([
    ['nothing', 0, 0.03],
    ['millimetres', 1, 1 / Math.sqrt(12)],
    ['half centimetres', 5, 5 / Math.sqrt(12)],
    ['centimetres', 10, 10 / Math.sqrt(12)],
    ['eighths of an inch', INCH / 8, INCH / 8 / Math.sqrt(12)],
    ['quarters', INCH / 4, INCH / 4 / Math.sqrt(12)],
    ['half inches', INCH / 2, INCH / 2 / Math.sqrt(12)],
    ['inches', INCH, INCH / Math.sqrt(12)],
  ])('%s, shows in a dozen readings', (_, step, sd) => {
    for (const seed of [1, 2, 3, 4, 5]) {
      expect(Math.abs(noiseAfter(12, step, seed) - sd)).toBeLessThan(0.1 + 0.1 * sd);
    }
  });

  it.each([
    [[123], 0, 0.5],
    [[120], 1, 2.5],
    [[120, 240], 2, 2.9],
    [[120, 243], 0, 0.5],
    [[5 * INCH], 1, 5],
    [[(INCH * 37) / 8], 0.8, 1],
    [[123.37], 0, 0.6],
  ])('after %j mm adds an error between %d and %d mm (sd)', (readings, least, most) => {
    const sd = Math.sqrt(roundingNoise(readings.reduce(rounded, NO_READINGS)));
    expect(sd).toBeGreaterThanOrEqual(least);
    expect(sd).toBeLessThan(most);
  });

  it('one slip among many changes little', () => {
    let rounding = NO_READINGS;
    for (const mm of [50, 120, 180, 260, 330, 373, 440, 520]) rounding = rounded(rounding, mm);
    expect(Math.sqrt(roundingNoise(rounding))).toBeGreaterThan(2.5);
  });
});
