import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  fitted,
  kept,
  moved,
  type Page,
  type Place,
  zoomed,
} from '../../../../src/ui/parts/viewer/view.ts';

const PAGE: Page = { width: 400, height: 600, mostScale: 20 };
const PLACE: Place = { left: 50, width: 1000, height: 700, dpr: 1 };

const anyView = fc.record({
  x: fc.double({ min: -500, max: 900, noNaN: true }),
  y: fc.double({ min: -500, max: 1200, noNaN: true }),
  scale: fc.double({ min: 0.01, max: 40, noNaN: true }),
});
const anyPoint = fc.record({
  x: fc.double({ min: -500, max: 500, noNaN: true }),
  y: fc.double({ min: -350, max: 350, noNaN: true }),
});

describe('the view of a page', () => {
  it('shows the whole page in the middle, with a margin', () => {
    const view = fitted(PAGE, PLACE);
    expect(view).toMatchObject({ x: 200, y: 300 });
    expect(view.scale).toBeCloseTo((700 * 0.9) / 600, 9);
  });

  it('follows the finger: what lay under it still does', () => {
    const view = { x: 100, y: 100, scale: 4 };
    const after = moved(view, 40, -20);
    expect((100 - after.x) * after.scale).toBeCloseTo(40, 9);
    expect((100 - after.y) * after.scale).toBeCloseTo(-20, 9);
  });

  it('zooms round a point, which stays where it is', () => {
    fc.assert(
      fc.property(
        anyView,
        anyPoint,
        fc.double({ min: 0.2, max: 5, noNaN: true }),
        (view, at, by) => {
          const under = (it: typeof view) => [it.x + at.x / it.scale, it.y + at.y / it.scale];
          const [before, after] = [under(view), under(zoomed(view, by, at))];
          for (const i of [0, 1]) {
            const size = Math.abs(before[i] ?? 0) + 1000 / view.scale;
            expect(Math.abs((after[i] ?? 0) - (before[i] ?? 0))).toBeLessThan(1e-9 * size);
          }
        },
      ),
    );
  });

  it('never loses the page, never grows beyond its largest, and keeping twice is keeping once', () => {
    fc.assert(
      fc.property(anyView, (view) => {
        const once = kept(view, PAGE, PLACE);
        expect(once.scale).toBeLessThanOrEqual(PAGE.mostScale);
        expect(once.scale).toBeGreaterThanOrEqual(fitted(PAGE, PLACE).scale - 1e-12);
        const left = PLACE.width / 2 - once.x * once.scale;
        const top = PLACE.height / 2 - once.y * once.scale;
        expect(left).toBeLessThan(PLACE.width);
        expect(left + PAGE.width * once.scale).toBeGreaterThan(0);
        expect(top).toBeLessThan(PLACE.height);
        expect(top + PAGE.height * once.scale).toBeGreaterThan(0);
        const twice = kept(once, PAGE, PLACE);
        expect(twice.x).toBeCloseTo(once.x, 9);
        expect(twice.y).toBeCloseTo(once.y, 9);
      }),
    );
  });

  it('can bring every corner of the page well into the place', () => {
    const corner = kept({ x: -1000, y: -1000, scale: 8 }, PAGE, PLACE);
    expect(PLACE.width / 2 - corner.x * corner.scale).toBeCloseTo(0.3 * PLACE.width, 6);
    expect(PLACE.height / 2 - corner.y * corner.scale).toBeCloseTo(0.3 * PLACE.height, 6);
  });
});
