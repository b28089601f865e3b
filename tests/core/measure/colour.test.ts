import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Lab } from '../../../src/core/measure/colour.ts';
import {
  BLACK,
  ciede2000,
  contrast,
  labOf,
  parseHex,
  readableInk,
  WHITE,
} from '../../../src/core/measure/colour.ts';

type Triple = readonly [number, number, number];

function lab([l, a, b]: Triple): Lab {
  return { l, a, b };
}

const anyHex = fc
  .integer({ min: 0, max: 0xffffff })
  .map((value) => `#${value.toString(16).padStart(6, '0')}`);
const anyLab = fc.record({
  l: fc.double({ min: 0, max: 100, noNaN: true }),
  a: fc.double({ min: -100, max: 100, noNaN: true }),
  b: fc.double({ min: -100, max: 100, noNaN: true }),
});

describe('colour difference by CIEDE2000', () => {
  it.each<[Triple, Triple, number]>([
    [[50, 2.6772, -79.7751], [50, 0, -82.7485], 2.0425],
    [[50, 3.1571, -77.2803], [50, 0, -82.7485], 2.8615],
    [[50, 0, 0], [50, -1, 2], 2.3669],
    [[50, 2.5, 0], [50, 0, -2.5], 4.3065],
    [[60.2574, -34.0099, 36.2677], [60.4626, -34.1751, 39.4387], 1.2644],
    [[22.7233, 20.0904, -46.694], [23.0331, 14.973, -42.5619], 2.0373],
    [[2.0776, 0.0795, -1.135], [0.9033, -0.0636, -0.5514], 0.9082],
  ])('between %j and %j is %d (SHA, Table 1)', (one, other, expected) => {
    expect(Math.abs(ciede2000(lab(one), lab(other)) - expected)).toBeLessThanOrEqual(5e-5);
  });

  it('is the same both ways, never negative, and nothing between equals', () => {
    fc.assert(
      fc.property(anyLab, anyLab, (one, other) => {
        const there = ciede2000(one, other);
        expect(there).toBeGreaterThanOrEqual(0);
        expect(Math.abs(there - ciede2000(other, one))).toBeLessThan(1e-9);
        expect(ciede2000(one, one)).toBe(0);
      }),
    );
  });
});

// The check values give this row no source of its own.
describe('sRGB to CIELAB under D65', () => {
  it.each<[string, Triple]>([
    ['#FFFFFF', [100, 0, 0]],
    ['#FF0000', [53.24, 80.09, 67.2]],
    ['#808080', [53.59, 0, 0]],
  ])('%s is %j', (hex, [l, a, b]) => {
    const got = labOf(hex);
    expect(Math.abs(got.l - l)).toBeLessThanOrEqual(0.02);
    expect(Math.abs(got.a - a)).toBeLessThanOrEqual(0.02);
    expect(Math.abs(got.b - b)).toBeLessThanOrEqual(0.02);
  });

  it('gives a lightness from 0 to 100, and greys no colour', () => {
    fc.assert(
      fc.property(anyHex, fc.integer({ min: 0, max: 255 }), (hex, grey) => {
        expect(labOf(hex).l).toBeGreaterThanOrEqual(0);
        expect(labOf(hex).l).toBeLessThanOrEqual(100.000001);
        const { a, b } = labOf(`#${grey.toString(16).padStart(2, '0').repeat(3)}`);
        expect(Math.hypot(a, b)).toBeLessThan(0.01);
      }),
    );
  });
});

describe('contrast (WCG)', () => {
  it.each<[string, string, number]>([
    ['#000000', '#ffffff', 21],
    ['#0000FF', '#ffffff', 8.59],
    ['#949494', '#ffffff', 3.03],
  ])('of %s on %s is %d', (one, other, expected) => {
    expect(Math.abs(contrast(one, other) - expected)).toBeLessThanOrEqual(0.005);
    expect(contrast(other, one)).toBe(contrast(one, other));
  });

  it('of the readable ink is the greater one and enough for text (WCG 1.4.3: 4.5)', () => {
    fc.assert(
      fc.property(anyHex, (hex) => {
        const best = Math.max(contrast(hex, BLACK), contrast(hex, WHITE));
        expect(contrast(hex, readableInk(hex))).toBe(best);
        expect(best).toBeGreaterThanOrEqual(4.5);
      }),
    );
    expect(readableInk('#ffff00')).toBe(BLACK);
    expect(readableInk('#000080')).toBe(WHITE);
  });
});

describe('a typed colour', () => {
  it('is six digits after a hash, kept in lower case', () => {
    expect(parseHex('#AbCdEf')).toEqual({ ok: true, value: '#abcdef' });
  });

  it.each([
    '',
    'abcdef',
    '#abc',
    '#abcdefg',
    '#abcdeg',
    '#12345678',
    'red',
    ' #abcdef',
    '#abcdef\n',
  ])('%j is none', (text) => {
    expect(parseHex(text)).toEqual({ ok: false, problem: 'not-a-colour' });
  });

  it('that was never checked is a broken promise', () => {
    expect(() => labOf('red')).toThrow('wanted #rrggbb');
    expect(() => contrast('#000', WHITE)).toThrow('got the colour #000');
  });
});
