import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ciede2000, labOf } from '../../../src/core/measure/colour.ts';
import { alikeToSome, DEFICIENCIES, seenWith } from '../../../src/core/measure/colourVision.ts';

const anyHex = fc
  .integer({ min: 0, max: 0xffffff })
  .map((value) => `#${value.toString(16).padStart(6, '0')}`);

describe('a colour to eyes that lack one kind of cone', () => {
  // The matrices of Machado, Oliveira and Fernandes (2009), severity 1.0, times (1, 0, 0): their first
  // column, as the library applies them, to the figures of the screen. Negative parts show as none.
  it.each([
    ['protan', '#271d00'],
    ['deutan', '#5e4700'],
    ['tritan', '#ff0001'],
  ] as const)('full red is to a %s eye %s', (deficiency, hex) => {
    expect(seenWith(deficiency, '#ff0000')).toBe(hex);
  });

  it.each(DEFICIENCIES)('greys stay greys to a %s eye', (deficiency) => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 255 }), (grey) => {
        const hex = `#${grey.toString(16).padStart(2, '0').repeat(3)}`;
        expect(ciede2000(labOf(seenWith(deficiency, hex)), labOf(hex))).toBeLessThan(0.5);
      }),
    );
  });
});

describe('pairs that some eyes cannot tell apart', () => {
  it('moss and rust are one, for two of the three; chalk and ink for nobody', () => {
    const colours = ['#5d7043', '#efe6d2', '#b4552d', '#2f4560'];
    expect(alikeToSome(colours, 8)).toEqual([{ pair: [0, 2], to: ['protan', 'deutan'] }]);
  });

  it('two that look alike to everybody are none of them: that is told elsewhere', () => {
    expect(alikeToSome(['#5d7043', '#5e7144'], 8)).toEqual([]);
    expect(alikeToSome(['#808080', '#808080'], 8)).toEqual([]);
  });

  it('does not depend on the order of the colours', () => {
    fc.assert(
      fc.property(fc.array(anyHex, { maxLength: 5 }), (colours) => {
        const last = colours.length - 1;
        const there = alikeToSome(colours, 8).map(({ pair: [i, j] }) => `${i} ${j}`);
        const back = alikeToSome(colours.toReversed(), 8).map(
          ({ pair: [i, j] }) => `${last - j} ${last - i}`,
        );
        expect([...back].sort()).toEqual([...there].sort());
      }),
    );
  });
});
