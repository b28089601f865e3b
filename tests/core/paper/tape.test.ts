import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NO_ADJUSTMENTS } from '../../../src/core/bench/adjustments.ts';
import { type Course, layCourse } from '../../../src/core/bench/course.ts';
import { duesOf } from '../../../src/core/bench/dues.ts';
import type { Units } from '../../../src/core/measure/length.ts';
import { PAPERS, printable } from '../../../src/core/paper/paper.ts';
import {
  layTape,
  paperMarks,
  STRIP_WIDTH,
  type Strip,
  TAPE_OVERLAP,
  TAPE_TAB,
  type TapeOptions,
  ticksOf,
  yOn,
} from '../../../src/core/paper/tape.ts';
import type { Plan } from '../../../src/core/plan/plan.ts';
import { anyPlan } from '../bench/arbitraries.ts';
import { checked, demo, pieceOf, planOf, solid, solidOfLength } from '../plan/samples.ts';

const courseOf = (plan: Plan): Course => layCourse(plan, NO_ADJUSTMENTS);
const A4: TapeOptions = { paper: 'a4', units: 'metric', stretch: 1 };

function tapeOf(plan: Plan, options: TapeOptions): readonly (readonly Strip[])[] {
  const course = courseOf(plan);
  const pieces = course.pieces.map(({ index }) => index);
  return layTape(course, duesOf(course), pieces, options);
}

/** One piece of so many picks of 2.5 mm. */
const pieceOfPicks = (picks: number) =>
  planOf({
    units: 'metric',
    weaving: { ...planOf({}).weaving, pickSpacing: 2.5 },
    pieces: [pieceOf([solid('A', picks)])],
  });

describe('strips of a tape', () => {
  // 272.5 mm of A4 less 11 above, 20 and 9 below and 12 of overlap are 220.5: 22 cm a strip.
  it.each([
    [10, [25]],
    [88, [220]],
    // The last strip has no overlap, but a tab of 9 mm: 3 mm more room.
    [89, [222.5]],
    [90, [120, 105]],
    [160, [200, 200]],
    [264, [220, 220, 220]],
    [270, [170, 170, 170, 165]],
  ])('%i picks of 2.5 mm on A4: strips of %j mm', (picks, lengths) => {
    const strips = tapeOf(pieceOfPicks(picks), A4).flat();
    expect(strips.map(({ from, to }) => to - from)).toEqual(lengths);
  });

  it('are joined at half inches where the plan is in inches', () => {
    const strips = tapeOf(checked(demo('moss-and-chalk')), { ...A4, units: 'inch' }).flat();
    expect(strips.map(({ from }) => Math.round((from / 25.4) * 1000) / 1000)).toEqual([
      0, 8.5, 17, 0, 8.5, 17,
    ]);
  });

  it('stand six on a page of A4 and of Letter', () => {
    const plan = planOf({ units: 'metric', pieces: [pieceOf([solidOfLength('A', 1900)])] });
    for (const paper of PAPERS) {
      const pages = tapeOf(plan, { ...A4, paper });
      expect(pages.map((strips) => strips.length)).toEqual(paper === 'a4' ? [6, 3] : [6, 4]);
    }
  });

  it('are printed once for pieces that have the very same tape', () => {
    const piece = pieceOf([solid('A', 40)]);
    const other = pieceOf([solid('B', 40)]);
    const strips = tapeOf(planOf({ pieces: [piece, other, piece] }), A4).flat();
    expect(strips.map(({ pieces }) => pieces)).toEqual([[0, 2], [1]]);
  });

  it('of pieces hemstitched apart are not the very same', () => {
    const plain = pieceOf([solid('A', 40)]);
    const hem = { kind: 'hemstitch', fringe: 0, twisted: false } as const;
    const stitched = pieceOf([solid('A', 40)], { ending: hem });
    expect(tapeOf(planOf({ pieces: [plain, stitched] }), A4).flat()).toHaveLength(2);
  });

  it('drawn longer for a printer that shrinks, hold less each', () => {
    const [strip] = tapeOf(pieceOfPicks(88), { ...A4, stretch: 100 / 95 }).flat();
    expect(strip?.to).toBeLessThan(220);
    if (strip === undefined) throw new Error('got no strip');
    // 10 mm of cloth are 10.526 mm of paper, which that printer makes 10 mm again.
    expect(yOn(strip, 0) - yOn(strip, 10)).toBeCloseTo(10.526, 3);
  });
});

const options = fc.record({
  paper: fc.constantFrom(...PAPERS),
  units: fc.constantFrom<Units>('inch', 'metric'),
  stretch: fc.constantFrom(1, 0.95, 1.07),
});

describe('every tape', () => {
  it('covers each piece from end to end, on the paper, joined at marks of the scale', () => {
    fc.assert(
      fc.property(anyPlan, fc.integer({ min: 1, max: 40 }), options, (plan, times, chosen) => {
        // Longer cloth: the same picks set farther apart.
        const weaving = { ...plan.weaving, pickSpacing: plan.weaving.pickSpacing * times };
        const course = courseOf({ ...plan, weaving });
        const dues = duesOf(course);
        const all = course.pieces.map(({ index }) => index);
        const pages = layTape(course, dues, all, chosen);
        const { width, height } = printable(chosen.paper);
        const step = chosen.units === 'inch' ? 12.7 : 10;
        const strips = pages.flat();
        const told = strips.flatMap(({ pieces, part }) => (part === 0 ? pieces : []));
        expect([...told].sort((a, b) => a - b)).toEqual(all);
        for (const strip of strips) {
          const length = course.pieces[strip.pieces[0] ?? -1]?.loomLength ?? 0;
          const next = strips.find(
            (it) => it.pieces === strip.pieces && it.part === strip.part + 1,
          );
          expect(strip.to).toBeCloseTo(next?.from ?? length, 9);
          expect(strip.drawnTo).toBeLessThanOrEqual(length);
          expect(strip.to).toBeGreaterThan(strip.from);
          expect(Math.abs(strip.from / step - Math.round(strip.from / step))).toBeLessThan(1e-6);
          expect(strip.left).toBeGreaterThanOrEqual(10);
          expect(strip.left + STRIP_WIDTH).toBeLessThanOrEqual(width);
          const spare = next === undefined ? TAPE_TAB : TAPE_OVERLAP;
          expect(yOn(strip, strip.to) - spare).toBeGreaterThanOrEqual(11 - 1e-6);
          expect(strip.foot + TAPE_TAB).toBeLessThanOrEqual(height - 20 + 1e-6);
        }
      }),
      { numRuns: 300 },
    );
  });
});

describe('marks of a tape', () => {
  it('of the towels: blocks, hemstitching at both ends, the end', () => {
    const course = courseOf(checked(demo('moss-and-chalk')));
    const [piece] = course.pieces;
    if (piece === undefined) throw new Error('got no piece');
    const inches = paperMarks(course, duesOf(course), piece).map(
      ({ kind, at }) => `${kind} ${Math.round((at / 25.4) * 10) / 10}`,
    );
    // Ten picks an inch; the first stitching after four picks.
    expect(inches).toEqual([
      'begin 0',
      'hemstitch 0.4',
      ...['2.4', '5.4', '7.8', '8.6', '10', '11.4', '13.8', '15.2', '16.6', '17.4'].map(
        (at) => `block ${at}`,
      ),
      'block 19.8',
      'block 22.8',
      'hemstitch 25.2',
      'end 25.2',
    ]);
  });

  it('of the runners: hems at both ends, edges to lock', () => {
    const course = courseOf(checked(demo('ink-oat-ochre')));
    const [piece] = course.pieces;
    if (piece === undefined) throw new Error('got no piece');
    const marks = paperMarks(course, duesOf(course), piece);
    // 32 picks of 1.2 mm; the same before the end.
    expect(marks.filter(({ kind }) => kind === 'hem').map(({ at }) => at.toFixed(1))).toEqual([
      '38.4',
      (piece.loomLength - 38.4).toFixed(1),
    ]);
    expect(marks.filter(({ kind }) => kind === 'lockEdge')).toHaveLength(4);
  });

  it('a part by eye is cloth like the blocks before it: nothing is turned under where it begins', () => {
    const hem = { kind: 'hem', washedAllowance: 30, yarn: 'A' } as const;
    const weft = [solid('A', 40), { kind: 'free', loomLength: 100 } as const];
    const course = courseOf(planOf({ pieces: [pieceOf(weft, { ending: hem })] }));
    const [piece] = course.pieces;
    if (piece === undefined) throw new Error('got no piece');
    const kinds = paperMarks(course, duesOf(course), piece).map(({ kind }) => kind);
    expect(kinds.filter((kind) => kind === 'block' || kind === 'hem')).toEqual(['block']);
  });
});

describe('the scale', () => {
  it('has a tick a millimetre, longer at five and ten, with the centimetres', () => {
    const ticks = ticksOf('metric', 0, 20);
    expect(ticks.map(({ at }) => at)).toEqual(Array.from({ length: 21 }, (_, i) => i));
    expect(ticks.filter(({ rank }) => rank === 'half').map(({ at }) => at)).toEqual([5, 15]);
    expect(ticks.flatMap(({ number }) => (number === null ? [] : [number]))).toEqual([0, 1, 2]);
  });

  it('has a tick an eighth of an inch, longer at a half and a whole', () => {
    const ticks = ticksOf('inch', 25.4, 50.8);
    expect(ticks.map(({ at }) => Math.round((at / 25.4) * 1e9) / 1e9)).toEqual([
      1, 1.125, 1.25, 1.375, 1.5, 1.625, 1.75, 1.875, 2,
    ]);
    expect(ticks.map(({ rank }) => rank[0]).join('')).toBe('wssshsssw');
    expect(ticks.flatMap(({ number }) => (number === null ? [] : [number]))).toEqual([1, 2]);
  });
});
