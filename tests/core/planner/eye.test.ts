import { describe, expect, it } from 'vitest';
import {
  ACROSS_THE_ROOM,
  ARMS_LENGTH,
  contrastLeft,
  eyeBlur,
  finestSeen,
} from '../../../src/core/planner/eye.ts';

describe('what an eye tells apart', () => {
  // One arc minute is tan(1/60°): visual acuity 1.0 (ISO 8596).
  it.each([
    [ARMS_LENGTH, 0.175],
    [1000, 0.291],
    [ACROSS_THE_ROOM, 1.164],
  ])('from %i mm, bars of %d mm', (distance, bar) => {
    expect(finestSeen(distance)).toBeCloseTo(bar, 3);
    expect(finestSeen(distance)).toBeCloseTo(distance * Math.tan(Math.PI / 180 / 60), 6);
  });

  // Mullen, J. Physiol. 359, 1985: red and green apart up to 11 to 12 cycles a degree.
  it('of colours alone, 12 cycles a degree', () => {
    const bar = (1000 * Math.PI) / 180 / 12 / 2;
    expect(contrastLeft(eyeBlur(1000).colour, bar)).toBeCloseTo(0.05, 6);
  });

  it('leaves a twentieth of the contrast of bars that just vanish, and most of wide ones', () => {
    const { light } = eyeBlur(4000);
    expect(contrastLeft(light, finestSeen(4000))).toBeCloseTo(0.05, 9);
    expect(contrastLeft(light, 10)).toBeGreaterThan(0.95);
    expect(contrastLeft(0, 1)).toBe(1);
  });

  it('grows finer in step with the distance', () => {
    expect(eyeBlur(2000).light).toBeCloseTo(2 * eyeBlur(1000).light, 12);
  });
});
