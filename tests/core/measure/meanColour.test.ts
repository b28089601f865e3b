import { average, formatHex } from 'culori';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { meanColour } from '../../../src/core/measure/meanColour.ts';

type Rgb = readonly [number, number, number];

const level = fc.integer({ min: 0, max: 255 });
const colour: fc.Arbitrary<Rgb> = fc.tuple(level, level, level);

const opaque = (colours: readonly Rgb[]) => colours.flatMap(([r, g, b]) => [r, g, b, 255]);
const hexOf = ([r, g, b]: Rgb) => formatHex({ mode: 'rgb', r: r / 255, g: g / 255, b: b / 255 });

function levelsOf(hex: string | null): readonly number[] {
  return [1, 3, 5].map((at) => Number.parseInt(hex?.slice(at, at + 2) ?? '', 16));
}

describe('the mean colour of a patch', () => {
  it.each<[string, readonly number[], string | null]>([
    ['one pixel is that pixel', [93, 112, 67, 255], '#5d7043'],
    // Half the light of white is level 188 of 255 (IEC 61966-2-1), not 128.
    ['black and white is #bcbcbc', [255, 255, 255, 255, 0, 0, 0, 255], '#bcbcbc'],
    ['red and green is a yellow', [255, 0, 0, 255, 0, 255, 0, 255], '#bcbc00'],
    ['what is clear does not count', [10, 20, 30, 255, 250, 250, 250, 0], '#0a141e'],
    ['nothing opaque has no colour', [10, 20, 30, 0], null],
    ['no pixel has no colour', [], null],
  ])('%s', (_fact, pixels, wanted) => {
    expect(meanColour(pixels)).toBe(wanted);
  });

  it('of equal pixels is their colour, for every colour', () => {
    fc.assert(
      fc.property(colour, fc.integer({ min: 1, max: 30 }), (of, count) => {
        expect(meanColour(opaque(Array.from({ length: count }, () => of)))).toBe(hexOf(of));
      }),
    );
  });

  it('is what culori averages in linear light, within one level', () => {
    fc.assert(
      fc.property(colour, fc.array(colour, { maxLength: 19 }), (first, others) => {
        const colours = [first, ...others];
        const mean = average([hexOf(first), ...others.map(hexOf)], 'lrgb');
        const wanted = levelsOf(formatHex(mean));
        for (const [channel, got] of levelsOf(meanColour(opaque(colours))).entries()) {
          expect(Math.abs(got - (wanted[channel] ?? Number.NaN))).toBeLessThanOrEqual(1);
        }
      }),
    );
  });
});
