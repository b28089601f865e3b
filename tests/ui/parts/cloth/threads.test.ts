import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pixelOf } from '../../../../src/core/plan/clothPicture.ts';
import { pickStrip, threadTiles } from '../../../../src/ui/parts/cloth/threads.ts';

const BLUE = pixelOf('#0000f0');
const RED = pixelOf('#f00000');

const pick = (lift: readonly number[], warp = RED, weft = BLUE) => ({
  weft,
  ends: new Uint32Array(lift.length).fill(warp),
  lift: Uint8Array.from(lift),
  above: undefined,
  below: undefined,
  grain: 1,
});

const lifts = fc.array(fc.constantFrom(0, 1), { minLength: 1, maxLength: 24 });
const red = (pixel: number | undefined) => (pixel ?? 0) & 0xff;
const green = (pixel: number | undefined) => ((pixel ?? 0) >>> 8) & 0xff;
const blue = (pixel: number | undefined) => ((pixel ?? 0) >>> 16) & 0xff;

describe('a pick drawn', () => {
  it('shows in the middle of every cell the thread on top', () => {
    fc.assert(
      fc.property(lifts, fc.integer({ min: 3, max: 24 }), (lift, size) => {
        const strip = pickStrip(threadTiles(size, size), pick(lift), lift.length * size);
        lift.forEach((up, end) => {
          const half = Math.floor(size / 2);
          const middle = strip[half * lift.length * size + end * size + half];
          expect(red(middle) > blue(middle)).toBe(up === 1);
        });
      }),
    );
  });

  it('never lets one colour run over into another, however the ends share pixels', () => {
    const sizes = fc.constantFrom(0.25, 1 / 3, 0.5, 1, 1.5, 2.5, 3, 3.5, 10);
    fc.assert(
      fc.property(lifts, sizes, fc.nat(255), (lift, size, grey) => {
        const colour = 0xff000000 | (grey * 0x10101);
        const width = Math.ceil(lift.length * size);
        const strip = pickStrip(threadTiles(size, 4), pick(lift, colour, colour), width);
        expect(strip).toHaveLength(width * 4);
        for (const pixel of strip) {
          expect(pixel >>> 24).toBe(255);
          expect([green(pixel), blue(pixel)]).toEqual([red(pixel), red(pixel)]);
        }
      }),
    );
  });

  it('has no darker edge where the last end is half a pixel wide', () => {
    const strip = pickStrip(threadTiles(1.5, 3), pick([1, 0, 1]), 5);
    expect(strip[4]).toBe(strip[3]);
    expect(strip[14]).toBe(strip[13]);
  });

  it('rounds every thread: lighter in its middle than at its edges', () => {
    const white = pixelOf('#e0e0e0');
    const strip = pickStrip(threadTiles(10, 10), pick([1, 0], white, white), 20);
    const at = (x: number, y: number) => red(strip[y * 20 + x]);
    expect(at(4, 5)).toBeGreaterThan(at(0, 5) + 20);
    expect(at(4, 5)).toBeGreaterThan(at(9, 5) + 20);
    expect(at(15, 4)).toBeGreaterThan(at(15, 0) + 10);
    expect(at(15, 4)).toBeGreaterThan(at(15, 7) + 20);
  });

  it('draws one long float where the pick before lifted the same end', () => {
    const white = pixelOf('#e0e0e0');
    const tiles = threadTiles(10, 10);
    const foot = (below: Uint8Array) =>
      red(pickStrip(tiles, { ...pick([1, 0], white, white), below }, 20)[9 * 20 + 4]);
    expect(foot(Uint8Array.of(1, 0))).toBeGreaterThan(foot(Uint8Array.of(0, 1)) + 10);
  });

  it('is the same whenever it is drawn again, and another with other grain', () => {
    const tiles = threadTiles(6, 6);
    const first = pickStrip(tiles, pick([1, 0, 1, 0]), 24);
    expect(pickStrip(tiles, pick([1, 0, 1, 0]), 24)).toEqual(first);
    expect(pickStrip(tiles, { ...pick([1, 0, 1, 0]), grain: 2 }, 24)).not.toEqual(first);
  });
});
