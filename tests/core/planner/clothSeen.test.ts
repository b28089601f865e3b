import { converter, modeLrgb, modeRgb, useMode } from 'culori/fn';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NO_ADJUSTMENTS } from '../../../src/core/bench/adjustments.ts';
import { layCourse } from '../../../src/core/bench/course.ts';
import {
  BYTE_OF_LIGHT,
  LIGHT_OF_BYTE,
  LIGHT_STEPS,
  lightOfPixel,
} from '../../../src/core/measure/linearLight.ts';
import { pixelOf } from '../../../src/core/plan/clothPicture.ts';
import type { Plan } from '../../../src/core/plan/plan.ts';
import {
  type ClothPlan,
  type ClothState,
  clothPlan,
  endWidth,
  windowCells,
} from '../../../src/core/planner/clothPlan.ts';
import { BARE } from '../../../src/core/planner/clothRows.ts';
import {
  BARE_THREAD,
  type Glimpse,
  lightSeen,
  paintSeen,
  type Sight,
} from '../../../src/core/planner/clothSeen.ts';
import { SHARP } from '../../../src/core/planner/eye.ts';
import { anyPlan } from '../bench/arbitraries.ts';
import { alternation, BASE, pieceOf, planOf, solid, yarns } from '../plan/samples.ts';

const GROUND = pixelOf('#f6f1e7');
const CLOSE: Sight = { blur: SHARP, ground: GROUND };

/** One part: the whole warp on the loom, or the first piece washed. */
const seenOf = (plan: Plan, state: ClothState = 'loom'): ClothPlan =>
  clothPlan(layCourse(plan, NO_ADJUSTMENTS), {
    state,
    ...(state === 'washed' ? { piece: 0 } : {}),
  });

const [BLACK, WHITE] = ['#000000', '#ffffff'];

/** One square millimetre a cell, one and one, in two colours. */
function checkers(first = BLACK, second = WHITE): ClothPlan {
  const colours = [first, second];
  return seenOf(
    planOf({
      loom: { ...BASE.loom, dents: { count: 100, per: '10cm' }, kind: 'shaft' },
      yarns: yarns('AB').map((yarn, i) => ({ ...yarn, colour: colours[i] ?? BLACK })),
      warp: {
        order: [{ kind: 'solid', yarn: 'A', ends: 16 }],
        viewpoint: 'front',
      },
      weaving: { ...BASE.weaving, pickSpacing: 1 },
      pieces: [pieceOf([solid('B', 12)], { startShed: 'odd' })],
    }),
  );
}

const wholePage = ({ width, height }: ClothPlan, scale: number, margin = 0): Glimpse => ({
  left: -margin / scale,
  top: -margin / scale,
  scale,
  width: Math.ceil(width * scale) + 2 * margin,
  height: Math.ceil(height * scale) + 2 * margin,
});

describe('light and the numbers of a pixel', () => {
  useMode(modeRgb);
  const toLight = converter('lrgb');
  useMode(modeLrgb);

  it('are turned into each other as culori has it (sRGB, IEC 61966-2-1)', () => {
    for (let byte = 0; byte < 256; byte++) {
      const light = toLight({ mode: 'rgb', r: byte / 255, g: 0, b: 0 }).r;
      expect(LIGHT_OF_BYTE[byte]).toBeCloseTo(light, 6);
      expect(BYTE_OF_LIGHT[Math.round(light * LIGHT_STEPS)]).toBe(byte);
    }
  });

  it('half black and half white is a grey of 187.5, not of 127.5', () => {
    const pixels = new Uint32Array(4);
    const view = { left: 4, top: 4, scale: 0.5, width: 2, height: 2 };
    paintSeen(checkers(), view, CLOSE, pixels);
    for (const pixel of pixels) expect(Math.abs((pixel & 0xff) - 187.52)).toBeLessThan(1);
  });
});

describe('a cloth at one pixel a cell', () => {
  it('is its cells, the first pick lowest', () => {
    const cloth = checkers('#204060', '#e0c090');
    const [part] = cloth.parts;
    if (part === undefined) throw new Error('got no part');
    const cells = windowCells(cloth, part, { ends: [0, 16], rows: [0, 12] });
    const pixels = new Uint32Array(16 * 12);
    paintSeen(cloth, wholePage(cloth, 1), CLOSE, pixels);
    const rows = Array.from({ length: 12 }, (_, row) => [...cells.slice(16 * row, 16 * row + 16)]);
    expect([...pixels]).toEqual(rows.toReversed().flat());
  });
});

/** The mean light of every pixel, by adding up all cells that touch it, one by one. */
function addedUp(cloth: ClothPlan, view: Glimpse): number[] {
  const out = Array.from({ length: view.width * view.height }, () => [...lightOfPixel(GROUND)]);
  const ground = lightOfPixel(GROUND);
  const step = endWidth(cloth);
  const overlap = (from: number, to: number, at: number) =>
    Math.max(0, Math.min(to, at + 1) - Math.max(from, at));
  for (const part of cloth.parts) {
    const { at, count, sheds } = part.rows;
    const cells = windowCells(cloth, part, { ends: [0, cloth.ends.length], rows: [0, count] });
    for (let row = 0; row < count; row++) {
      const thin = sheds[row] === BARE ? ((1 - BARE_THREAD) / 2) * step : 0;
      const foot = part.top + part.length - view.top;
      const [low, high] = [foot - (at[row + 1] ?? 0), foot - (at[row] ?? 0)];
      for (let end = 0; end < cloth.ends.length; end++) {
        const colour = lightOfPixel(cells[row * cloth.ends.length + end] ?? 0);
        const left = part.left + end * step + thin - view.left;
        const right = left + step - 2 * thin;
        for (let y = 0; y < view.height; y++) {
          const along = overlap(low * view.scale, high * view.scale, y);
          for (let x = 0; along > 0 && x < view.width; x++) {
            const share = along * overlap(left * view.scale, right * view.scale, x);
            const pixel = out[y * view.width + x] ?? [];
            colour.forEach((light, i) => {
              pixel[i] = (pixel[i] ?? 0) + share * (light - (ground[i] ?? 0));
            });
          }
        }
      }
    }
  }
  return out.flat();
}

const anyView = fc.record({
  left: fc.double({ min: -3, max: 8, noNaN: true }),
  top: fc.double({ min: -3, max: 30, noNaN: true }),
  scale: fc.double({ min: 0.05, max: 4, noNaN: true }),
  width: fc.integer({ min: 1, max: 9 }),
  height: fc.integer({ min: 1, max: 9 }),
});
const anyState = fc.constantFrom<ClothState>('loom', 'washed');

function expectClose(seen: ArrayLike<number>, wanted: ArrayLike<number>, within: number): void {
  expect(seen.length).toBe(wanted.length);
  let off = 0;
  for (let i = 0; i < seen.length; i++) {
    off = Math.max(off, Math.abs((seen[i] ?? Number.NaN) - (wanted[i] ?? Number.NaN)));
  }
  expect(off).toBeLessThanOrEqual(within);
}

const sumOf = (light: ArrayLike<number>) => {
  const sum = [0, 0, 0];
  for (let i = 0; i < light.length; i++) sum[i % 3] = (sum[i % 3] ?? 0) + (light[i] ?? 0);
  return sum;
};

describe('a pixel of the cloth', () => {
  it('is the mean in linear light of all the cells it covers', () => {
    fc.assert(
      fc.property(anyPlan, anyState, anyView, (plan, state, view) => {
        const cloth = seenOf(plan, state);
        expectClose(lightSeen(cloth, view, CLOSE), addedUp(cloth, view), 1e-9);
      }),
      { numRuns: 60 },
    );
  });

  it('is painted with the nearest values a pixel can have', () => {
    fc.assert(
      fc.property(
        anyPlan,
        anyState,
        anyView,
        fc.constantFrom(0, 0.6),
        (plan, state, view, soft) => {
          const cloth = seenOf(plan, state);
          const sight = { ...CLOSE, blur: { light: soft, colour: soft } };
          const pixels = new Uint32Array(view.width * view.height);
          paintSeen(cloth, view, sight, pixels);
          const bytes = [...pixels].flatMap((pixel) => [0, 8, 16].map((n) => (pixel >>> n) & 0xff));
          const wanted = [...lightSeen(cloth, view, sight)].map(
            (light) => BYTE_OF_LIGHT[Math.round(light * LIGHT_STEPS)] ?? Number.NaN,
          );
          // A light on the border between two steps may be rounded either way.
          expectClose(bytes, wanted, 1);
        },
      ),
    );
  });

  it('is the same whatever part of the picture is drawn with it', () => {
    fc.assert(
      fc.property(anyPlan, anyView, (plan, view) => {
        const cloth = seenOf(plan);
        const whole = lightSeen(cloth, view, CLOSE);
        const cut = Math.floor(view.height / 2);
        const upper = { ...view, height: cut };
        const lower = { ...view, top: view.top + cut / view.scale, height: view.height - cut };
        const both = [upper, lower].flatMap((half) => [...lightSeen(cloth, half, CLOSE)]);
        expectClose(whole, both, 1e-9);
      }),
    );
  });

  it('at half the size is the mean of four', () => {
    fc.assert(
      fc.property(anyPlan, anyView, (plan, view) => {
        const cloth = seenOf(plan);
        const small = lightSeen(cloth, { ...view, scale: view.scale / 2 }, CLOSE);
        const wide = { ...view, width: 2 * view.width, height: 2 * view.height };
        const large = lightSeen(cloth, wide, CLOSE);
        const mean = Array.from(small, (_, i) => {
          const [x, y] = [Math.floor(i / 3) % view.width, Math.floor(i / 3 / view.width)];
          const four = [0, 1, 2 * view.width, 2 * view.width + 1];
          const at = (4 * view.width * y + 2 * x) * 3 + (i % 3);
          return four.reduce((sum, step) => sum + (large[at + 3 * step] ?? 0) / 4, 0);
        });
        expectClose(small, mean, 1e-9);
      }),
    );
  });

  it('makes, with all the others, as much light as the cloth, at every size', () => {
    const cloth = checkers('#204060', '#e0c090');
    const light = (scale: number, sight: Sight, margin: number) => {
      const view = wholePage(cloth, scale, margin);
      const ground = lightOfPixel(GROUND);
      const above = sumOf(lightSeen(cloth, view, sight)).map(
        (sum, i) => sum - view.width * view.height * (ground[i] ?? 0),
      );
      return above.map((sum) => sum / scale ** 2);
    };
    const wanted = light(1, CLOSE, 0);
    for (const scale of [0.05, 0.31, 0.9, 2, 3.7]) {
      expectClose(light(scale, CLOSE, 2), wanted, 1e-6);
      for (const blur of [0.3, 1, 2.5]) {
        const sight = { ...CLOSE, blur: { light: blur, colour: blur } };
        expectClose(light(scale, sight, 2 + Math.ceil(5 * blur * scale)), wanted, 0.02);
      }
    }
  });
});

describe('the cloth in a blurred eye', () => {
  const stripes = (first: string, second: string) =>
    seenOf(
      planOf({
        loom: { ...BASE.loom, dents: { count: 100, per: '10cm' } },
        yarns: yarns('AB').map((yarn, i) => ({ ...yarn, colour: [first, second][i] ?? '' })),
        warp: {
          order: [{ kind: 'solid', yarn: 'A', ends: 60 }],
          viewpoint: 'front',
          firstEnd: 'slot',
        },
        weaving: { ...BASE.weaving, pickSpacing: 1 },
        pieces: [pieceOf([alternation('A4 B4', { kind: 'turns', turns: 15 })])],
      }),
    );
  const middle = { left: 20, top: 20, scale: 2, width: 40, height: 40 };
  const swing = (light: Float64Array, channel: number) => {
    const values = [...light].filter((_, i) => i % 3 === channel);
    return Math.max(...values) - Math.min(...values);
  };

  it('keeps of a wave what a Gaussian keeps of it', () => {
    const cloth = stripes('#000000', '#ffffff');
    const sight = (blur: number) => ({ ...CLOSE, blur: { light: blur, colour: blur } });
    // Cross stripes of 8 mm; the first harmonic of what the shed makes of them is all that is left.
    const kept = (blur: number) => swing(lightSeen(cloth, middle, sight(blur)), 1);
    const wave = (blur: number) => Math.exp(-2 * (Math.PI * blur * (1 / 8)) ** 2);
    expect(kept(3) / kept(2.5)).toBeCloseTo(wave(3) / wave(2.5), 2);
  });

  it('loses a change of colour before a change of light', () => {
    const blur = { light: 1, colour: 2.5 };
    const grey = swing(lightSeen(stripes('#777777', '#a0a0a0'), middle, { ...CLOSE, blur }), 1);
    const sharpGrey = swing(lightSeen(stripes('#777777', '#a0a0a0'), middle, CLOSE), 1);
    // Two colours of nearly the same lightness.
    const hue = swing(lightSeen(stripes('#b86464', '#648a64'), middle, { ...CLOSE, blur }), 0);
    const sharpHue = swing(lightSeen(stripes('#b86464', '#648a64'), middle, CLOSE), 0);
    expect(hue / sharpHue).toBeLessThan(0.5 * (grey / sharpGrey));
  });

  it('of one colour stays that colour inside its edges', () => {
    const blur = { light: 0.8, colour: 2 };
    const seen = new Uint32Array(16);
    const view = { left: 25, top: 25, scale: 1.3, width: 4, height: 4 };
    paintSeen(stripes('#b4552d', '#b4552d'), view, { ...CLOSE, blur }, seen);
    expect([...seen]).toEqual(Array(16).fill(pixelOf('#b4552d')));
  });
});

it('a picture of another size is refused', () => {
  const view = { left: 0, top: 0, scale: 1, width: 2, height: 2 };
  expect(() => paintSeen(checkers(), view, CLOSE, new Uint32Array(3))).toThrow('got room for 3');
});
