import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pixelOf } from '../../../../src/core/plan/clothPicture.ts';
import {
  isLight,
  paled,
  styleOf,
  toned,
  unevenness,
} from '../../../../src/ui/parts/cloth/colour.ts';

describe('a colour of yarn', () => {
  it.each([
    ['#646464', 0.1, '#6e6e6e'],
    ['#646464', -0.5, '#323232'],
    ['#f0e010', 0.2, '#ffff13'],
  ])('%s toned by %d is %s', (colour, share, expected) => {
    expect(toned(pixelOf(colour), share)).toBe(pixelOf(expected));
  });

  it.each([
    ['#000000', 0.2, '#333333'],
    ['#ffffff', 0.5, '#ffffff'],
  ])('%s paled by %d is %s', (colour, share, expected) => {
    expect(paled(pixelOf(colour), share)).toBe(pixelOf(expected));
  });

  it('is written for a canvas as red, green, blue and opacity', () => {
    expect(styleOf(pixelOf('#010203'), 0.5)).toBe('rgb(1 2 3 / 0.5)');
  });

  it.each([
    ['#ece4d2', true],
    ['#26364f', false],
    ['#00c000', false],
    ['#d9a441', true],
  ])('%s takes dark writing: %s', (colour, light) => {
    expect(isLight(pixelOf(colour))).toBe(light);
  });

  it('varies between −1 and 1, the same for the same thread, about even on the whole', () => {
    fc.assert(
      fc.property(fc.integer(), fc.integer(), (a, b) => {
        const value = unevenness(a, b);
        expect(Math.abs(value)).toBeLessThanOrEqual(1);
        expect(unevenness(a, b)).toBe(value);
      }),
    );
    const sum = Array.from({ length: 1000 }, (_, end) => unevenness(end, 3)).reduce(
      (a, b) => a + b,
    );
    expect(Math.abs(sum / 1000)).toBeLessThan(0.1);
  });
});
