import { describe, expect, it } from 'vitest';
import { ticks } from '../../../../src/ui/parts/viewer/ruler.ts';

const numbers = (...args: Parameters<typeof ticks>) =>
  ticks(...args).flatMap(({ text, at }) => (text === null ? [] : [[text, Math.round(at)]]));

describe('a ruler', () => {
  it('counts centimetres from the beginning', () => {
    // 250 mm at 2 pixels a millimetre: a number every 5 cm.
    expect(numbers(500, 0, 500, 2, 'metric')).toEqual([
      ['0', 0],
      ['5', 100],
      ['10', 200],
      ['15', 300],
      ['20', 400],
      ['25', 500],
    ]);
  });

  it('counts inches, and quarters where there is room', () => {
    expect(numbers(76.2 * 3, 0, 300, 3, 'inch').map(([text]) => text)).toEqual([
      '0',
      '1',
      '2',
      '3',
    ]);
    expect(numbers(25.4 * 20, 0, 600, 20, 'inch').map(([text]) => text)).toEqual([
      '0',
      '¼',
      '½',
      '¾',
      '1',
    ]);
  });

  it('shows only what is in sight, and never beyond the end', () => {
    const seen = ticks(1000, 300, 420, 2, 'metric');
    for (const { at } of seen) {
      expect(at).toBeGreaterThanOrEqual(300);
      expect(at).toBeLessThanOrEqual(420);
    }
    expect(ticks(100, 0, 900, 2, 'metric').at(-1)?.at).toBeLessThanOrEqual(100);
    expect(ticks(100, 200, 900, 2, 'metric')).toEqual([]);
  });

  it('keeps its numbers apart at every size', () => {
    for (const units of ['inch', 'metric'] as const) {
      for (let scale = 0.01; scale < 30; scale *= 1.3) {
        const places = ticks(2000, 0, 2000, scale, units).filter(({ text }) => text !== null);
        const gaps = places.slice(1).map(({ at }, i) => at - (places[i]?.at ?? 0));
        for (const gap of gaps) expect(gap).toBeGreaterThanOrEqual(58);
      }
    }
  });
});
