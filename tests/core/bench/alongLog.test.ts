import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { picksAlong } from '../../../src/core/bench/alongLog.ts';
import type { Happening, LogEvent } from '../../../src/core/bench/events.ts';
import { progressOf } from '../../../src/core/bench/progress.ts';
import { planWeaving, solid } from '../plan/samples.ts';
import { anyPlan, happening } from './arbitraries.ts';
import { logged, takenOut, thrown } from './logs.ts';

const undone = (event: string): Happening => ({ kind: 'undone', event });
const redone = (event: string): Happening => ({ kind: 'redone', event });

describe('the pick after each event', () => {
  const plan = planWeaving('A', [solid('A', 20)]);

  it.each([
    [
      [thrown(1), thrown(1), thrown(5)],
      [1, 2, 7],
    ],
    [
      [thrown(3), takenOut(2)],
      [3, 1],
    ],
    [
      [thrown(1), thrown(1), undone('e1')],
      [1, 2, 1],
    ],
    [
      [thrown(1), thrown(1), undone('e0'), thrown(1)],
      [1, 2, 1, 2],
    ],
    [
      [thrown(4), undone('e0'), redone('e0')],
      [4, 0, 4],
    ],
    [
      [undone('e1'), thrown(3), thrown(1)],
      [0, 0, 1],
    ],
    [[thrown(30)], [20]],
    [[], []],
  ] as const)('of %j is %j', (happenings, picks) => {
    expect(picksAlong(plan, logged(happenings))).toEqual(picks);
  });

  it('is what the bench showed then: the fold of the log up to there', () => {
    const long = anyPlan.chain((it) =>
      fc.tuple(
        fc.constant(it),
        fc.array(fc.tuple(happening(it), fc.nat(5), fc.nat(20)), { maxLength: 25 }),
      ),
    );
    fc.assert(
      fc.property(long, ([it, steps]) => {
        const log = steps.map(([what, choice, target], n): LogEvent => {
          const event = `e${target}`;
          const undoes = [undone(event), redone(event)][choice];
          // Now and then an event that was there already.
          const id = choice === 5 ? `e${target}` : `e${n}`;
          return { ...(undoes ?? what), id, warp: 'w', after: null, at: '' };
        });
        const folded = log.map((_, n) => progressOf(it, log.slice(0, n + 1)).pick);
        expect(picksAlong(it, log)).toEqual(folded);
      }),
      { numRuns: 200 },
    );
  });
});
