import { describe, expect, it } from 'vitest';
import { NO_ADJUSTMENTS } from '../../../src/core/bench/adjustments.ts';
import { type Course, layCourse } from '../../../src/core/bench/course.ts';
import { pickAt } from '../../../src/core/bench/pickAt.ts';
import { alternation, planWeaving } from '../plan/samples.ts';

/** A course whose long lists count how often they are read. */
function counting(course: Course): {
  readonly course: Course;
  readonly readsOf: (n: number) => number;
} {
  let reads = 0;
  const counted = <T extends object>(list: T): T =>
    new Proxy(list, {
      get: (target, key) => {
        if (typeof key === 'string' && /^\d+$/.test(key)) reads++;
        return Reflect.get(target, key, target);
      },
    });
  const lists = <T extends object>(rooms: T): T => {
    const entries = Object.entries(rooms).map(([name, it]) => [
      name,
      ArrayBuffer.isView(it) ? counted(it) : it,
    ]);
    return Object.fromEntries(entries) as T;
  };
  const watched = { ...course, turns: lists(course.turns), stripes: lists(course.stripes) };
  const readsOf = (n: number) => {
    reads = 0;
    pickAt(watched, n);
    return reads;
  };
  return { course: watched, readsOf };
}

function oneAndOne(pieces: number, picks: number): Course {
  const weft = [alternation('A1 B1', { kind: 'turns', turns: picks })];
  return layCourse(
    planWeaving('AB', ...Array.from({ length: pieces }, () => weft)),
    NO_ADJUSTMENTS,
  );
}

describe('the cost of a pick', () => {
  const { course, readsOf } = counting(oneAndOne(20, 3000));
  const everywhere = Array.from({ length: 200 }, (_, i) =>
    Math.floor((i * (course.picks - 1)) / 199),
  );

  it('does not grow on the way: the last pick costs what the first one costs', () => {
    const reads = everywhere.map(readsOf);
    expect(Math.min(...reads)).toBeGreaterThan(10);
    expect(Math.max(...reads)).toBeLessThan(2 * Math.min(...reads));
  });

  it('grows only by a few steps of searching from 60 picks to 60,000', () => {
    const small = counting(oneAndOne(1, 60));
    const most = (it: typeof small, picks: readonly number[]) => Math.max(...picks.map(it.readsOf));
    const few = most(
      small,
      Array.from({ length: 60 }, (_, n) => n),
    );
    expect(most({ course, readsOf }, everywhere)).toBeLessThan(3 * few);
  });
});
