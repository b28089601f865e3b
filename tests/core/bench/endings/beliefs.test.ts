import { describe, expect, it } from 'vitest';
import { NO_ADJUSTMENTS } from '../../../../src/core/bench/adjustments.ts';
import { type Beat, measured, PLANNED, startBeat } from '../../../../src/core/bench/beat/beat.ts';
import { lengthAt } from '../../../../src/core/bench/beat/lengths.ts';
import { type Course, layCourse } from '../../../../src/core/bench/course.ts';
import { beliefsFrom } from '../../../../src/core/bench/endings/beliefs.ts';
import type { EndingContext } from '../../../../src/core/bench/endings/context.ts';
import { endingsOf } from '../../../../src/core/bench/endings/endings.ts';
import { rulerOf } from '../../../../src/core/bench/ruler.ts';
import { INCH, pieceOf, planOf, solid, yarns } from '../../plan/samples.ts';
import { contextAt, exactly } from './contexts.ts';

const TIGHT = { from: { kind: 'start' }, tension: 'tight' } as const;

/** The estimator after readings of the fell, each at a pick. */
function readAt(course: Course, readings: readonly (readonly [number, number])[]): Beat {
  const ruler = rulerOf(course);
  const start = startBeat(course.plan.yarns.length, PLANNED);
  return readings.reduce(
    (beat, [pick, mm], i) =>
      measured(beat, ruler, { piece: 0, firstPick: 0, pick }, { reading: `r${i}`, mm, ...TIGHT }),
    start,
  );
}

/** What the estimator believes of the one piece of a course, and of more than there is of it. */
function believing(course: Course, beat: Beat, pick: number) {
  const ruler = rulerOf(course);
  const place = (to: number) => ({ piece: 0, firstPick: 0, pick: to });
  const believeAhead = (planned: readonly number[]) => {
    const longer = (from: number, to: number) =>
      ruler(from, Math.min(to, pick)).map((mm, i) => mm + (to > pick ? (planned[i] ?? 0) : 0));
    return lengthAt(beat, longer, place(pick + 1));
  };
  return { believe: (to: number) => lengthAt(beat, ruler, place(to)), believeAhead };
}

describe('lengths believed between a few questions', () => {
  const plan = planOf({
    yarns: yarns('AB').map((yarn, i) => (i === 0 ? yarn : { ...yarn, pickSpacing: 2 })),
    pieces: [pieceOf(['A', 'B', 'A', 'B', 'A', 'B'].map((yarn) => solid(yarn, 200)))],
  });
  const course = layCourse(plan, NO_ADJUSTMENTS);

  const readings: Readonly<Record<string, readonly (readonly [number, number])[]>> = {
    'nothing measured': [],
    'measured once, 4 % over': [[150, 396]],
    'measured five times, unsteady': [
      [60, 155],
      [110, 287],
      [190, 490],
      [260, 640],
      [330, 792],
    ],
  };
  for (const [name, list] of Object.entries(readings)) {
    it(`are those the beat's own estimate gives, within a fifth of a millimetre: ${name}`, () => {
      const pick = list.at(-1)?.[0] ?? 0;
      const context = believing(course, readAt(course, list), pick) as unknown as EndingContext;
      const beliefs = beliefsFrom(context, [1000, 1000], 20_000);
      let widest = 0;
      for (const total of [1, 7, 30, 80, 200, 333, 700, 1500, 2900]) {
        // As much of both yarns as is usual, for what else is woven moves the middle only.
        const planned = [total / 2, total / 2];
        const [near, exact] = [beliefs.ahead(planned), context.believeAhead(planned)];
        for (const end of ['mm', 'low', 'high'] as const)
          widest = Math.max(widest, Math.abs(near[end] - exact[end]));
      }
      expect(widest).toBeLessThan(0.2);
    });
  }
});

/*
 * Common practice, no source: motifs of 8 in in two opposite colours taking turns, 35 in wished; the
 * beat drifts, and what is planned 8 in each comes to 35 in after four.
 */
describe('A B A B of 8 in planned, each measured, 35 in after the fourth', () => {
  const plan = planOf({
    yarns: yarns('AB'),
    pieces: [
      pieceOf(
        ['A', 'B', 'A', 'B'].map((yarn) => solid(yarn, 80)),
        {
          wish: { state: 'loom', length: 35 * INCH },
        },
      ),
    ],
  });
  const course = layCourse(plan, NO_ADJUSTMENTS);
  const beat = readAt(course, [
    [80, 8.75 * INCH],
    [160, 17.5 * INCH],
    [240, 26.25 * INCH],
    [320, 35 * INCH],
  ]);
  const context = contextAt(course, 320, {
    ...believing(course, beat, 320),
    warpLeft: exactly(400),
  });
  const [here, oneMore] = endingsOf(course, 320, context).stops;

  it('the fell lies at the wish, and ends in B', () => {
    expect(Math.abs(here?.fromWish?.mm ?? Number.NaN)).toBeLessThan(2);
    expect(here?.reads).toEqual({ same: 'no', begins: 0, ends: 1 });
  });

  it('with one motif more it reads the same, and 44 in is within what the beat explains; 46 in is not', () => {
    expect(oneMore?.reads.same).not.toBe('no');
    const { low, high } = oneMore?.lengths.loom ?? { low: Number.NaN, high: Number.NaN };
    expect(low).toBeLessThan(44 * INCH);
    expect(high).toBeGreaterThan(44 * INCH);
    expect(high).toBeLessThan(46 * INCH);
  });
});
