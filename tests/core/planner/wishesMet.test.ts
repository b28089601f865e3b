import { describe, expect, it } from 'vitest';
import { NO_ADJUSTMENTS } from '../../../src/core/bench/adjustments.ts';
import { layCourse } from '../../../src/core/bench/course.ts';
import type { Happening } from '../../../src/core/bench/events.ts';
import { figuresOf } from '../../../src/core/learn/figures.ts';
import { readingsOf } from '../../../src/core/learn/readings.ts';
import type { Piece } from '../../../src/core/plan/plan.ts';
import { type PieceMet, wishesMet } from '../../../src/core/planner/wishesMet.ts';
import { logged } from '../bench/logs.ts';
import { pieceOf, planOf, solid } from '../plan/samples.ts';
import { sharesFrom } from './examples.ts';

const hem = { kind: 'hem', washedAllowance: 30 } as const;

function met(changes: Partial<Piece>, ...happenings: readonly Happening[]): PieceMet | undefined {
  const plan = planOf({
    allowances: sharesFrom({ relax: 0.04, shrinkLength: 0.1 }),
    pieces: [pieceOf([solid('A', 300)], changes)],
  });
  const course = layCourse(plan, NO_ADJUSTMENTS);
  const readings = readingsOf(logged(happenings), 1);
  const { pieces } = figuresOf({ course, picks: course.picks, readings, loomLengths: [] });
  return wishesMet(plan, pieces, readings)[0];
}

const washed = (mm: number): Happening => ({
  kind: 'clothRead',
  reading: `${mm}`,
  piece: 0,
  state: 'washed',
  lengths: [mm],
  widths: [490],
  fringe: 96,
});

describe('a wish', () => {
  it('is told in its own state: finished is washed less what is turned under', () => {
    const it = met(
      { beginning: hem, ending: hem, wish: { state: 'finished', length: 600 } },
      washed(668),
    );
    // 300 picks are 762 mm of cloth beside the hems, which finish as nothing: × 0.96 × 0.9.
    expect(it?.length.wished).toBe(600);
    // Hems are whole pairs of picks: each end may be a pick more or less.
    expect(Math.abs((it?.length.forecast ?? 0) - 762 * 0.96 * 0.9)).toBeLessThan(2 * 2.54);
    expect(it?.length.real).toBe(608);
    expect(it?.length.range).toBeNull();
    expect(it?.width).toMatchObject({ wished: null, real: 490 });
    expect(it?.fringe).toBeNull();
  });

  it('that was none is told washed, forecast against real', () => {
    const it = met({}, washed(655));
    expect(it).toMatchObject({ state: 'washed', length: { wished: null, real: 655 } });
    expect(it?.length.forecast).toBeCloseTo(300 * 2.54 * 0.96 * 0.9, 9);
  });

  it('of a fringe stands beside what it became', () => {
    const edge = { kind: 'hemstitch', fringe: 100, twisted: true } as const;
    expect(met({ beginning: edge, ending: edge }, washed(655))?.fringe).toEqual({
      wished: 100,
      forecast: 100,
      range: null,
      real: 96,
    });
  });

  it('is not met before anything is read', () => {
    expect(met({ wish: { state: 'off', length: 700 } })).toMatchObject({
      state: 'off',
      length: { wished: 700, real: null },
      width: { real: null },
    });
  });
});
