import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NO_ADJUSTMENTS } from '../../../src/core/bench/adjustments.ts';
import { layCourse } from '../../../src/core/bench/course.ts';
import { pixelOf } from '../../../src/core/plan/clothPicture.ts';
import { type ClothPlan, clothPlan, endWidth } from '../../../src/core/planner/clothPlan.ts';
import {
  endGroups,
  type FringeBand,
  fringeStrokes,
  meanColour,
} from '../../../src/core/planner/fringe.ts';
import { BASE, pieceOf, planOf, solid, yarns } from '../plan/samples.ts';

function fringed(ends: number, group: number, twisted: boolean): ClothPlan {
  const edge = { kind: 'hemstitch', fringe: 30, twisted } as const;
  const plan = planOf({
    yarns: yarns('AB'),
    warp: {
      order: [
        {
          kind: 'alternation',
          cycle: [
            { yarn: 'A', ends: 1 },
            { yarn: 'B', ends: 1 },
          ],
          turns: ends,
        },
      ],
      firstEnd: 'slot',
      viewpoint: 'front',
    },
    weaving: { ...BASE.weaving, stitchGroup: group },
    pieces: [pieceOf([solid('A', 4)], { ending: edge })],
  });
  return clothPlan(layCourse(plan, NO_ADJUSTMENTS), { state: 'washed' });
}

function bandOf(cloth: ClothPlan): FringeBand {
  const band = cloth.parts[0]?.bands.find((it) => it.kind === 'fringe');
  if (band?.kind !== 'fringe') throw new Error('got no fringe');
  return band;
}

describe('a loose fringe', () => {
  it('has every end where it leaves the cloth, in its colour, and none longer than wished', () => {
    const sizes = fc.record({
      ends: fc.integer({ min: 1, max: 60 }),
      group: fc.integer({ min: 1, max: 9 }),
    });
    fc.assert(
      fc.property(sizes, ({ ends, group }) => {
        const cloth = fringed(ends, group, false);
        const strokes = fringeStrokes(cloth, bandOf(cloth), endGroups(cloth), 'threads');
        expect(strokes.map(({ colour }) => colour)).toEqual([...cloth.ends]);
        for (const [end, { curve }] of strokes.entries()) {
          expect(curve[0]).toBeCloseTo((end + 0.5) * endWidth(cloth), 9);
          expect(curve[1]).toBe(0);
          const tip = curve[curve.length - 1] ?? Number.NaN;
          expect(tip).toBeLessThanOrEqual(30);
          expect(tip).toBeGreaterThan(28);
        }
      }),
    );
  });

  it('hangs apart: no group touches its neighbour', () => {
    const cloth = fringed(12, 4, false);
    const groups = endGroups(cloth);
    for (const group of groups) {
      const strokes = fringeStrokes(cloth, bandOf(cloth), [group], 'threads');
      const tips = strokes.map(({ curve }) => curve[curve.length - 2] ?? Number.NaN);
      const half = (strokes[0]?.width ?? 0) / 2;
      expect(Math.min(...tips) - half).toBeGreaterThan(group.left);
      expect(Math.max(...tips) + half).toBeLessThan(group.left + group.width);
    }
  });
});

describe('a fringe far off', () => {
  it('is a stroke a group, in the mean colour of its ends', () => {
    const cloth = fringed(10, 4, true);
    const groups = endGroups(cloth);
    const strokes = fringeStrokes(cloth, bandOf(cloth), groups, 'groups');
    expect(strokes).toHaveLength(groups.length);
    const [first] = groups;
    expect(strokes[0]?.colour).toBe(meanColour([...cloth.ends.subarray(0, first?.ends)]));
  });

  it('the mean of black and white has half the light of white: a grey of 188', () => {
    expect(meanColour([pixelOf('#000000'), pixelOf('#ffffff')])).toBe(pixelOf('#bcbcbc'));
    expect(meanColour([pixelOf('#b4552d')])).toBe(pixelOf('#b4552d'));
  });
});

describe('a twisted fringe', () => {
  it('reaches no farther than its length, and shows every end above and below the cord', () => {
    const cloth = fringed(16, 4, true);
    const strokes = fringeStrokes(cloth, bandOf(cloth), endGroups(cloth), 'threads');
    const ys = strokes.flatMap(({ curve }) => curve.filter((_, i) => i % 2 === 1));
    expect(Math.max(...ys)).toBeLessThanOrEqual(30);
    expect(Math.min(...ys)).toBeGreaterThanOrEqual(0);
    expect(strokes.filter(({ curve }) => curve[1] === 0)).toHaveLength(16);
  });

  it('too thin for its turns is a cord in one, with tuft and knot as the turned one has them', () => {
    const cloth = fringed(16, 4, true);
    const groups = endGroups(cloth);
    const [first] = groups;
    if (first === undefined) throw new Error('got no group');
    const plain = fringeStrokes(cloth, bandOf(cloth), [first], 'cords');
    const turned = fringeStrokes(cloth, bandOf(cloth), [first], 'threads');
    expect(plain.at(-1)).toEqual(turned.at(-1));
    const [cord, tuft] = plain;
    const knot = plain.at(-1)?.curve[1];
    expect(cord?.curve[1]).toBe(0);
    expect(cord?.curve.at(-1)).toBe(knot);
    expect(tuft?.curve[1]).toBe(knot);
    expect(tuft?.curve.at(-1)).toBeCloseTo(30, 9);
    expect(cord?.colour).toBe(meanColour([...cloth.ends.subarray(0, first.ends)]));
    const half = Math.max(cord?.width ?? 0, tuft?.width ?? 0) / 2;
    expect(half).toBeLessThan(first.width / 2);
    expect(fringeStrokes(cloth, bandOf(cloth), groups, 'cords')).toHaveLength(3 * groups.length);
  });

  it('loose ends are each drawn by themselves all the same', () => {
    const cloth = fringed(16, 4, false);
    const strokes = (detail: 'cords' | 'threads') =>
      fringeStrokes(cloth, bandOf(cloth), endGroups(cloth), detail);
    expect(strokes('cords')).toEqual(strokes('threads'));
  });
});
