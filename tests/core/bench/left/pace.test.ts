import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Happening, LogEvent } from '../../../../src/core/bench/events.ts';
import { pace } from '../../../../src/core/bench/left/pace.ts';

const THROW: Happening = { kind: 'thrown', picks: 1 };

interface Beat {
  /** Seconds since the event before. */
  readonly after: number;
  readonly event?: Happening;
}

function logOf(beats: readonly Beat[]): readonly LogEvent[] {
  let ms = Date.UTC(2025, 4, 1, 9);
  return beats.map(({ after, event = THROW }, n) => {
    ms += 1000 * after;
    const before = n === 0 ? null : `e${n - 1}`;
    return { id: `e${n}`, warp: 'w', after: before, at: new Date(ms).toISOString(), ...event };
  });
}

const every = (seconds: number, picks: number): readonly Beat[] =>
  Array.from({ length: picks }, () => ({ after: seconds }));

const perMinute = (beats: readonly Beat[]) => pace(logOf(beats))?.picksPerMinute;

describe('the pace', () => {
  it.each<[string, readonly Beat[], number]>([
    ['a pick every 6 s', every(6, 30), 10],
    [
      'every 4 and 8 s by turns, as when two shuttles change',
      Array.from({ length: 31 }, (_, n) => ({ after: n % 2 === 0 ? 4 : 8 })),
      10,
    ],
    ['an hour at lunch changes nothing', [...every(6, 20), { after: 3600 }, ...every(6, 20)], 10],
    ['nor does a minute for a bobbin', [...every(6, 20), { after: 60 }, ...every(6, 20)], 10],
    [
      'nor what was done besides',
      [...every(6, 20), { after: 20, event: { kind: 'advanced' } }, { after: 20 }, ...every(6, 20)],
      10,
    ],
    [
      'two picks a tap count twice',
      Array.from({ length: 30 }, () => ({ after: 12, event: { kind: 'thrown', picks: 2 } })),
      10,
    ],
    ['what was long ago no longer counts', [...every(12, 500), ...every(6, 700)], 10],
  ])('%s', (_fact, beats, wanted) => {
    expect(perMinute(beats)).toBeCloseTo(wanted, 9);
  });

  it('leaves a slip that was undone out', () => {
    const slip: readonly Beat[] = [
      { after: 1 },
      { after: 1, event: { kind: 'undone', event: 'e20' } },
      { after: 4 },
    ];
    expect(perMinute([...every(6, 20), ...slip, ...every(6, 20)])).toBeCloseTo(10, 9);
  });

  it('is unknown after twenty picks, known after twenty-one', () => {
    expect(perMinute(every(6, 20))).toBeUndefined();
    expect(perMinute(every(6, 21))).toBeCloseTo(10, 9);
    expect(pace([])).toBeNull();
  });

  it('takes no times that stand still, run back or are none', () => {
    const still = every(6, 30).map((it, n) => (n % 3 === 0 ? { after: n % 2 === 0 ? 0 : -3 } : it));
    expect(perMinute([...still, ...every(6, 30)])).toBeCloseTo(10, 9);
    const log = logOf(every(6, 40));
    const torn = log.map((event, n) => (n === 20 ? { ...event, at: 'yesterday' } : event));
    expect(pace(torn)?.picksPerMinute).toBeCloseTo(10, 9);
  });

  it('is no other for any number of breaks, as long as most of the time is weaving', () => {
    const broken = fc.array(
      fc.record({
        picks: fc.integer({ min: 8, max: 30 }),
        pause: fc.oneof(fc.integer({ min: 30, max: 299 }), fc.integer({ min: 300, max: 90_000 })),
      }),
      { minLength: 4, maxLength: 12 },
    );
    fc.assert(
      fc.property(broken, fc.integer({ min: 2, max: 7 }), (sittings, seconds) => {
        const beats = sittings.flatMap(({ picks, pause }) => [
          ...every(seconds, picks),
          { after: pause },
        ]);
        expect(perMinute(beats)).toBeCloseTo(60 / seconds, 9);
      }),
    );
  });
});
