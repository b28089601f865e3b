import { describe, expect, it } from 'vitest';
import { pixelOf, plainLifts } from '../../../../src/core/plan/clothPicture.ts';
import { warpRows } from '../../../../src/ui/parts/cloth/bareWarp.ts';
import { clothFrame, FAN } from '../../../../src/ui/parts/cloth/frame.ts';

const ENDS = 40;
const GROUND = pixelOf('#f6f1e7');
const frame = clothFrame({ width: 520, height: 200, dpr: 1, ends: ENDS, aspect: 1 });
const warp = {
  ends: new Uint32Array(ENDS).fill(pixelOf('#a02020')),
  ground: GROUND,
  lift: undefined,
};

const rowAt = (y: number, drawn: Parameters<typeof warpRows>[1] = warp) =>
  warpRows(frame, drawn, y, y + 1);
const red = (pixel: number | undefined) => (pixel ?? 0) & 0xff;
const touched = (row: Uint32Array) => row.filter((pixel) => pixel !== GROUND).length;
const endAt = (end: number) => Math.floor(frame.clothLeft + (end + 0.5) * frame.endPx);

describe('the bare warp', () => {
  it('is as wide as the cloth at the fell and wider by the draw-in at the heddle', () => {
    expect(touched(rowAt(frame.fellY))).toBeLessThanOrEqual(frame.clothWidth);
    expect(touched(rowAt(frame.fellY))).toBeGreaterThan(frame.clothWidth - frame.endPx);
    const gained = touched(rowAt(0)) - touched(rowAt(frame.fellY));
    expect(Math.abs(gained - frame.clothWidth * FAN)).toBeLessThanOrEqual(2);
  });

  it('lies straight below the fell', () => {
    expect(rowAt(frame.fellY + 60)).toEqual(rowAt(frame.fellY));
  });

  it('lets the ground show between any two ends, and in its own colour beside them', () => {
    const row = rowAt(frame.fellY);
    for (let end = 1; end < ENDS; end++) {
      const between = row[Math.floor(frame.clothLeft + end * frame.endPx)];
      expect((between ?? 0) >>> 8).not.toBe((row[endAt(end)] ?? 0) >>> 8);
      expect(((between ?? 0) >>> 8) & 0xff).toBeGreaterThan(100);
    }
    expect(row[frame.clothLeft - 1]).toBe(GROUND);
    expect(row[frame.clothLeft + frame.clothWidth]).toBe(GROUND);
  });

  it('is darker where an end is down in the open shed', () => {
    const lift = plainLifts(ENDS, 0)[0];
    const row = rowAt(frame.fellY, { ...warp, lift });
    for (let end = 1; end < ENDS; end += 2) {
      expect(red(row[endAt(end)])).toBeLessThan(red(row[endAt(end - 1)]));
    }
  });

  it('never runs over the edge of the picture', () => {
    const narrow = { ...frame, width: frame.clothWidth / 2, clothLeft: -frame.clothWidth / 4 };
    expect(warpRows(narrow, warp, 0, 1)).toHaveLength(narrow.width);
  });
});
