import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hatchLines, hatchStyles, type Segment } from '../../../src/core/paper/hatch.ts';

const lengthOf = ({ x1, y1, x2, y2 }: Segment) => Math.hypot(x2 - x1, y2 - y1);

describe('the style of a yarn', () => {
  it.each([
    ['one yarn is left white', ['#335577'], [0]],
    ['the lighter of two is white, the darker as dark as can be', ['#2f4560', '#efe6d2'], [6, 0]],
    ['three are spread', ['#000000', '#808080', '#ffffff'], [6, 3, 0]],
    ['equal ones still differ', ['#808080', '#808080', '#808080'], [0, 3, 6]],
  ])('%s', (_, colours, styles) => {
    expect(hatchStyles(colours)).toEqual(styles);
  });

  it('of up to seven yarns is each another', () => {
    for (let n = 1; n <= 7; n++) {
      const greys = Array.from({ length: n }, (_, i) => `#${(16 + i * 30).toString(16)}0000`);
      expect(new Set(hatchStyles(greys)).size).toBe(n);
    }
  });
});

describe('hatching', () => {
  it('white has no line, and each next style more ink than the one before', () => {
    const rect = { x: 0, y: 0, width: 100, height: 100 };
    const ink = [0, 1, 2, 3, 4, 5, 6].map((style) =>
      hatchLines(style, rect).reduce((sum, line) => sum + lengthOf(line), 0),
    );
    expect(ink[0]).toBe(0);
    for (let i = 1; i < ink.length; i++) expect(ink[i]).toBeGreaterThan((ink[i - 1] ?? 0) * 1.1);
  });

  it('upright lines 1.5 mm apart in 7.5 mm are four, from edge to edge', () => {
    expect(hatchLines(2, { x: 0, y: 10, width: 7.5, height: 3 })).toEqual(
      [1.5, 3, 4.5, 6].map((x) => ({ x1: x, y1: 10, x2: x, y2: 13 })),
    );
  });

  const rects = fc.record({
    x: fc.double({ min: -50, max: 200, noNaN: true }),
    y: fc.double({ min: -50, max: 300, noNaN: true }),
    width: fc.double({ min: 0.1, max: 30, noNaN: true }),
    height: fc.double({ min: 0.1, max: 200, noNaN: true }),
  });

  it('stays in its rectangle, at 45° or upright', () => {
    fc.assert(
      fc.property(rects, fc.integer({ min: 0, max: 6 }), (rect, style) => {
        const near = 1e-6;
        for (const line of hatchLines(style, rect)) {
          for (const x of [line.x1, line.x2]) {
            expect(x).toBeGreaterThanOrEqual(rect.x - near);
            expect(x).toBeLessThanOrEqual(rect.x + rect.width + near);
          }
          for (const y of [line.y1, line.y2]) {
            expect(y).toBeGreaterThanOrEqual(rect.y - near);
            expect(y).toBeLessThanOrEqual(rect.y + rect.height + near);
          }
          const across = Math.abs(line.x2 - line.x1);
          const along = Math.abs(line.y2 - line.y1);
          expect(across < near || Math.abs(across - along) < near).toBe(true);
        }
      }),
    );
  });

  it('runs through: two halves of a rectangle have as much ink as the whole', () => {
    fc.assert(
      fc.property(rects, fc.integer({ min: 0, max: 6 }), (rect, style) => {
        const half = { ...rect, height: rect.height / 2 };
        const other = { ...half, y: rect.y + rect.height / 2 };
        const ink = (lines: readonly Segment[]) =>
          lines.reduce((sum, line) => sum + lengthOf(line), 0);
        const both = ink(hatchLines(style, half)) + ink(hatchLines(style, other));
        expect(both).toBeCloseTo(ink(hatchLines(style, rect)), 5);
      }),
    );
  });
});
