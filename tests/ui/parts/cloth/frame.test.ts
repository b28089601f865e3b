import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clothFrame, FAN } from '../../../../src/ui/parts/cloth/frame.ts';

const room = fc.record({
  width: fc.integer({ min: 320, max: 1400 }),
  height: fc.integer({ min: 160, max: 900 }),
  dpr: fc.constantFrom(1, 1.5, 2, 3),
  ends: fc.integer({ min: 1, max: 1200 }),
  aspect: fc.double({ min: 0.4, max: 2.5, noNaN: true }),
});

describe('the frame of the cloth', () => {
  // Ours: the three sizes of screen every page works at, and 216 ends.
  it.each([
    [1180, 1, 5, 5],
    [1180, 2, 10, 10],
    [820, 2, 7, 7],
    [390, 1, 1.5, 3],
    [390, 2, 3, 6],
    [390, 3, 4, 9],
  ])(
    '%i wide at %i device pixels gives 216 ends %d each and a pick %i',
    (width, dpr, end, pick) => {
      const frame = clothFrame({ width, height: 500, dpr, ends: 216, aspect: 1 });
      expect(frame).toMatchObject({ endPx: end, pickPx: pick, clothWidth: Math.ceil(216 * end) });
    },
  );

  it('draws a narrow band no wider than 12 CSS pixels an end, in the middle', () => {
    const frame = clothFrame({ width: 1000, height: 400, dpr: 2, ends: 20, aspect: 1 });
    expect(frame).toMatchObject({ endPx: 24, clothWidth: 480, clothLeft: 760 });
  });

  it('leaves the gutter free on both sides of the warp, even where it fans out', () => {
    fc.assert(
      fc.property(room, (r) => {
        const { width, clothLeft, clothWidth } = clothFrame({ ...r, gutter: 10 });
        const fanned = clothWidth * (1 + FAN);
        expect(fanned).toBeLessThanOrEqual(width - 20 * r.dpr * (1 - FAN) + 2);
        expect(clothLeft).toBe(Math.floor((width - clothWidth) / 2));
      }),
    );
  });

  it('gives threads whole pixels after a few ends, and picks whole ones of 3 CSS pixels or more', () => {
    fc.assert(
      fc.property(room, (r) => {
        const { endPx, pickPx } = clothFrame(r);
        const period = endPx >= 1 ? 2 : Math.round(1 / endPx);
        expect((period * endPx) % 1).toBeCloseTo(0, 9);
        expect(Number.isInteger(pickPx)).toBe(true);
        expect(pickPx).toBeGreaterThanOrEqual(3 * r.dpr);
      }),
    );
  });

  it('keeps the proportion of pick and end to half a pixel where picks are high enough', () => {
    fc.assert(
      fc.property(room, (r) => {
        const { endPx, pickPx } = clothFrame(r);
        fc.pre(endPx * r.aspect > 3 * r.dpr);
        expect(Math.abs(pickPx - endPx * r.aspect)).toBeLessThanOrEqual(0.5);
      }),
    );
  });
});
