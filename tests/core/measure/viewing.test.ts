import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { DISTANCES, fontSizeFor, MINUTES } from '../../../src/core/measure/viewing.ts';

describe('the size of words at a distance', () => {
  // A minute of arc at 700 mm is 700 × π / 10 800 = 0.2036 mm: 20 of them are 4.07 mm, the height of a
  // capital; 4.07 / 0.711 = 5.73 mm of font size, × 132 CSS px an inch / 25.4 = 29.8.
  it.each([
    [MINUTES.body, 30],
    [MINUTES.call, 45],
    [MINUTES.count, 67],
  ])('%d minutes of arc at 0.7 m are %d CSS px on a tablet', (minutes, px) => {
    expect(Math.round(fontSizeFor(minutes, 700))).toBe(px);
  });

  it('grows with the distance, and falls with coarser pixels', () => {
    expect(fontSizeFor(20, 1400)).toBeCloseTo(2 * fontSizeFor(20, 700), 3);
    const coarse = { pixelsPerInch: 132, pixelsPerCss: 2 };
    expect(fontSizeFor(20, 700, coarse)).toBeCloseTo(fontSizeFor(20, 700) / 2, 6);
  });
});

describe('the style sheet', () => {
  const css = readFileSync(
    new URL('../../../src/ui/style/distance.css', import.meta.url),
    'utf8',
  ).replace(/@media[\s\S]*/, '');
  const usual = css.match(/^\.weave \{([^}]*)\}/m)?.[1] ?? '';

  it.each(DISTANCES)('has the sizes for %d cm to the pixel', (cm) => {
    const own = css.match(new RegExp(`data-distance="${cm}"\\] \\.weave \\{([^}]*)\\}`))?.[1];
    const rule = own ?? (cm === 70 ? usual : '');
    const sizes = Object.entries({ read: 'body', call: 'call', count: 'count' } as const);
    for (const [name, kind] of sizes) {
      const rem = Number(rule.match(new RegExp(`--${name}: ([\\d.]+)rem`))?.[1]);
      expect(rem * 16, `${name} at ${cm}`).toBe(Math.round(fontSizeFor(MINUTES[kind], cm * 10)));
    }
  });
});
