import { describe, expect, it } from 'vitest';
import type { Happening, LogEvent } from '../../../src/core/bench/events.ts';
import { progressOf } from '../../../src/core/bench/progress.ts';
import { readingsOf } from '../../../src/core/learn/readings.ts';
import { logged, thrown } from '../bench/logs.ts';
import { planWeaving, solid } from '../plan/samples.ts';

const off = (reading: string, mm: number): Happening => ({
  kind: 'clothRead',
  reading,
  piece: 0,
  state: 'off',
  lengths: [mm],
});
const lengthsOf = (log: readonly LogEvent[]) =>
  readingsOf(log, 1).pieces[0]?.states.off.lengths.map((it) => it.value);

describe('readings', () => {
  it('of one size are all kept, with the reading they came by', () => {
    const log = logged([off('a', 600), off('b', 604)]);
    expect(readingsOf(log, 1).pieces[0]?.states.off.lengths).toEqual([
      { reading: 'a', value: 600 },
      { reading: 'b', value: 604 },
    ]);
  });

  it('that were struck are gone, and come back when that is undone', () => {
    const struck = logged([off('a', 600), off('b', 6), { kind: 'readingStruck', reading: 'b' }]);
    expect(lengthsOf(struck)).toEqual([600]);
    const undone: LogEvent = {
      id: 'u',
      warp: 'w',
      after: 'e2',
      at: '2024-05-01T10:00:00Z',
      kind: 'undone',
      event: 'e2',
    };
    expect(lengthsOf([...struck, undone])).toEqual([600, 6]);
  });

  it('of a weight and of the warp hold as last read', () => {
    const log = logged([
      { kind: 'clothRead', reading: 'a', piece: 0, state: 'washed', mass: 180 },
      { kind: 'clothRead', reading: 'b', piece: 0, state: 'washed', mass: 178 },
      { kind: 'warpRead', reading: 'c', tiedOn: 3000, gaps: [100] },
      { kind: 'warpRead', reading: 'd', frontWaste: 0 },
    ]);
    const { pieces, warp } = readingsOf(log, 2);
    expect(pieces[0]?.states.washed.mass).toEqual({ reading: 'b', value: 178 });
    expect(warp).toEqual({
      tiedOn: { reading: 'c', value: 3000 },
      frontWaste: { reading: 'd', value: 0 },
      backWaste: null,
      gaps: { reading: 'c', value: [100] },
    });
  });

  it('that make no sense are not taken', () => {
    const log = logged([
      { kind: 'clothRead', reading: 'a', piece: 7, state: 'off', lengths: [600] },
      { kind: 'clothRead', reading: 'b', piece: 0, state: 'off', lengths: [0, -3, Number.NaN] },
      { kind: 'endRavelled', reading: 'c', piece: 0, straightened: 0, inCloth: 100 },
      { kind: 'warpRead', reading: 'd', tiedOn: 0, gaps: [-1] },
    ]);
    expect(readingsOf(log, 1)).toEqual(readingsOf([], 1));
  });

  it('change nothing at the loom', () => {
    const plan = planWeaving('A', [solid('A', 8)]);
    const log = logged([thrown(3), off('a', 600), { kind: 'noted', text: 'a knot' }]);
    expect(progressOf(plan, log)).toEqual(progressOf(plan, logged([thrown(3)])));
  });

  it('count for the next plans until the piece is left out', () => {
    const counts = (...happenings: readonly Happening[]) =>
      readingsOf(logged(happenings), 1).pieces[0]?.counts;
    expect(counts()).toBe('in');
    expect(counts({ kind: 'learntFrom', piece: 0, counts: 'out' })).toBe('out');
  });
});
