import { describe, expect, it } from 'vitest';
import type { Happening, LogEvent } from '../../../src/core/bench/events.ts';
import { progressOf } from '../../../src/core/bench/progress.ts';
import { undoTarget } from '../../../src/core/bench/undo.ts';
import type { WarpingWay } from '../../../src/core/plan/warping/list.ts';
import { planWeaving, solid } from '../plan/samples.ts';

const plan = planWeaving('A', [solid('A', 4)]);
const direct: WarpingWay = { method: 'direct', viewpoint: 'front', seenFrom: 'front' };
const ends: WarpingWay = { method: 'ends', viewpoint: 'back', seenFrom: 'back' };

const logOf = (...happenings: readonly Happening[]): readonly LogEvent[] =>
  happenings.map((it, i) => ({
    ...it,
    id: `e${i}`,
    warp: 'w',
    after: i === 0 ? null : `e${i - 1}`,
    at: '2026-01-01T00:00:00.000Z',
  }));

const placeAfter = (...happenings: readonly Happening[]) => {
  const { warped, warpingWay, pick } = progressOf(plan, logOf(...happenings));
  return { warped, warpingWay, pick };
};

describe('steps of warping in the log', () => {
  it('none are done and no way is chosen at the beginning', () => {
    expect(placeAfter()).toEqual({ warped: 0, warpingWay: null, pick: 0 });
  });

  it('add up and throw no pick; the way is that of the last one', () => {
    expect(
      placeAfter(
        { kind: 'warped', steps: 1, way: direct },
        { kind: 'warped', steps: 1, way: { ...direct, seenFrom: 'back' } },
      ),
    ).toEqual({ warped: 2, warpingWay: { ...direct, seenFrom: 'back' }, pick: 0 });
  });

  it('without a way leave it as it was', () => {
    expect(
      placeAfter({ kind: 'warped', steps: 1, way: direct }, { kind: 'warped', steps: 2 }),
    ).toEqual({ warped: 3, warpingWay: direct, pick: 0 });
  });

  it('of another way begin anew, and undoing that gives way and place back', () => {
    const done: readonly Happening[] = [
      { kind: 'warped', steps: 1, way: direct },
      { kind: 'warped', steps: 1, way: direct },
      { kind: 'warped', steps: -2, way: ends },
    ];
    expect(placeAfter(...done)).toEqual({ warped: 0, warpingWay: ends, pick: 0 });
    const target = undoTarget(logOf(...done)) ?? '';
    expect(placeAfter(...done, { kind: 'undone', event: target })).toEqual({
      warped: 2,
      warpingWay: direct,
      pick: 0,
    });
  });

  it('never fall below none', () => {
    expect(placeAfter({ kind: 'warped', steps: -3, way: ends }).warped).toBe(0);
  });
});
