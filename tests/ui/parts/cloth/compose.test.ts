import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pixelOf, plainLifts } from '../../../../src/core/plan/clothPicture.ts';
import { clothImage, composePicks } from '../../../../src/ui/parts/cloth/compose.ts';
import { clothFrame } from '../../../../src/ui/parts/cloth/frame.ts';

const ENDS = 24;
const RED = pixelOf('#d02020');
const GREEN = pixelOf('#20a020');
const GAP = 0;
const frame = clothFrame({ width: 320, height: 160, dpr: 1, ends: ENDS, aspect: 1 });
const warp = {
  ends: new Uint32Array(ENDS).fill(pixelOf('#ece4d2')),
  lifts: plainLifts(ENDS, 0),
  ground: pixelOf('#f6f1e7'),
};
const { pickPx, clothWidth } = frame;

/** Picks looked at, from the fell down. */
const PICKS = 16;

const wovenOf = (colours: readonly number[], before = 0) => ({
  colours: Uint32Array.from(colours),
  sheds: Uint8Array.from(colours, (_, pick) => (pick + before) % 2),
  before,
});

/** Pixels of the cloth, a pick's height of rows each. */
const bandsOf = (colours: readonly number[], before = 0) => bandsOfWoven(wovenOf(colours, before));

const bandsOfWoven = (
  woven: ReturnType<typeof wovenOf>,
  { top, drawn } = { top: woven.colours.length - 1, drawn: woven.colours.length },
) => {
  const band = clothWidth * pickPx;
  const pixels = new Uint32Array(band * PICKS);
  composePicks(clothImage(frame, warp), woven, { top, picks: PICKS, drawn }, pixels);
  return Array.from({ length: PICKS }, (_, at) => pixels.slice(at * band, (at + 1) * band));
};

/** Red, green or neither, whichever the weft of this band adds to the pale warp. */
const weftIn = (band: Uint32Array | undefined) => {
  let balance = 0;
  for (const pixel of band ?? []) balance += (pixel & 0xff) - ((pixel >>> 8) & 0xff);
  const mean = balance / (band?.length ?? 1);
  return mean > 30 ? 'red' : mean < -10 ? 'green' : 'bare';
};

describe('the cloth composed', () => {
  it('has the newest pick at the fell, older ones below it, then bare warp', () => {
    const bands = bandsOf([RED, GREEN, GREEN]);
    expect(bands.slice(0, 5).map(weftIn)).toEqual(['green', 'green', 'red', 'bare', 'bare']);
  });

  it('is bare warp before the first pick', () => {
    expect(new Set(bandsOf([]).map(weftIn))).toEqual(new Set(['bare']));
  });

  it('shows bare warp in a gap', () => {
    expect(bandsOf([RED, GAP, GREEN]).slice(0, 4).map(weftIn)).toEqual([
      'green',
      'bare',
      'red',
      'bare',
    ]);
  });

  it('stays clear where a pick is not drawn, and above the last', () => {
    const bands = bandsOfWoven(wovenOf([RED, GREEN]), { top: 3, drawn: 1 });
    const clear = new Uint32Array(clothWidth * pickPx);
    expect(bands.slice(0, 3)).toEqual([clear, clear, clear]);
    expect(bands.slice(3, 5).map(weftIn)).toEqual(['red', 'bare']);
  });

  it('shows a pick the same on whichever tile it lies', () => {
    const woven = wovenOf([RED, GREEN, GAP, RED, GREEN, GREEN]);
    const whole = bandsOfWoven(woven);
    const lower = bandsOfWoven(woven, { top: 3, drawn: 6 });
    expect(lower.slice(0, 4)).toEqual(whole.slice(2, 6));
  });

  it('moves down unchanged, thread by thread, as one more pick is woven', () => {
    const weft = fc.array(fc.constantFrom(RED, GREEN, GAP), { minLength: 2, maxLength: 30 });
    fc.assert(
      fc.property(weft, fc.constantFrom(RED, GREEN), fc.nat(500), (colours, next, before) => {
        const older = bandsOf(colours, before);
        const newer = bandsOf([...colours, next], before);
        // The pick at the fell changes: its warp floats now end under the new one.
        expect(newer.slice(2)).toEqual(older.slice(1, -1));
      }),
      { numRuns: 20 },
    );
  });

  it('shows the same picks the same, however many older ones are given', () => {
    const all = [RED, GREEN, RED, RED, GREEN, GREEN, RED];
    expect(bandsOf(all.slice(3), 3).slice(0, 3)).toEqual(bandsOf(all).slice(0, 3));
  });

  it('shows two picks in one shed: every float goes on over both', () => {
    const right = wovenOf([RED, RED, RED]);
    const twice = bandsOfWoven({ ...right, sheds: Uint8Array.of(0, 1, 1) });
    const once = bandsOfWoven(right);
    expect(twice[1]).not.toEqual(once[1]);
    expect(twice[2]).toEqual(once[2]);
    const before = bandsOfWoven({ ...right, sheds: Uint8Array.of(1, 1, 0) });
    expect(before[1]).not.toEqual(once[1]);
    expect(before[0]).toEqual(once[0]);
  });

  it('refuses a shed nobody lifts', () => {
    const woven = { ...wovenOf([RED]), sheds: Uint8Array.of(2) };
    expect(() => bandsOfWoven(woven)).toThrow('got shed 2');
  });
});
