import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Happening, LogEvent } from '../../../src/core/bench/events.ts';
import { keptOn, plainOf, sumOfIds } from '../../../src/core/bench/keeping.ts';
import { foldedOn, goOn, keptNear, progressFrom } from '../../../src/core/bench/kept.ts';
import { progressOf, startOf } from '../../../src/core/bench/progress.ts';
import { planWeaving, solid } from '../plan/samples.ts';
import { anyPlan, happening } from './arbitraries.ts';
import { logged, thrown } from './logs.ts';

const undone = (event: string): Happening => ({ kind: 'undone', event });
const redone = (event: string): Happening => ({ kind: 'redone', event });
const PLAN = planWeaving('A', [solid('A', 900)]);
const throwing = (picks: number) => Array.from({ length: picks }, () => thrown(1));
/** As a browser keeps it and gives it back. */
const keptAndRead = (progress: ReturnType<typeof progressOf>) =>
  progressFrom(structuredClone(plainOf(progress)));

/** Slips go back over the last few events, and now and then farther. */
function logOf(steps: readonly (readonly [Happening, number, number])[]): readonly LogEvent[] {
  return logged(
    steps.map(([what, choice, back], n) => {
      const event = `e${Math.max(0, n - 1 - back)}`;
      return [undone(event), redone(event)][choice] ?? what;
    }),
  );
}

const planAndLog = (most: number, back: number) =>
  anyPlan.chain((plan) =>
    fc.tuple(
      fc.constant(plan),
      fc.array(fc.tuple(happening(plan), fc.nat(7), fc.nat(back)), { maxLength: most }).map(logOf),
    ),
  );

describe('a log folded up to some event', () => {
  it('is cut forty events before its end', () => {
    const log = logged(throwing(100));
    expect(keptNear(PLAN, log)).toMatchObject({ events: 60, progress: { pick: 60 } });
    expect(keptNear(PLAN, logged(throwing(40)))).toBeNull();
  });

  it('is cut before what the last events undid', () => {
    const log = logged([...throwing(160), undone('e115'), thrown(1)]);
    expect(keptNear(PLAN, log)).toMatchObject({ events: 75, progress: { pick: 75 } });
  });

  it('is cut farther back where what is undone there was done earlier still', () => {
    const log = logged([...throwing(120), undone('e63'), ...throwing(39), undone('e120')]);
    expect(keptNear(PLAN, log)).toMatchObject({ events: 23, progress: { pick: 23 } });
  });

  it('is cut as near its end where every tenth event takes back the one before', () => {
    const slips = Array.from({ length: 1_000 }, (_, n) =>
      n % 10 === 9 ? undone(`e${n - 1}`) : thrown(1),
    );
    expect(keptNear(PLAN, logged(slips))?.events).toBe(960);
    expect(keptNear(PLAN, logged(slips.slice(0, 999)))?.events).toBe(918);
  });

  it('is not cut where something is undone that lies very far back', () => {
    expect(keptNear(PLAN, logged([...throwing(700), undone('e5')]))).toBeNull();
  });

  it('goes on from what was kept before', () => {
    const log = logged([...throwing(100), undone('e99'), ...throwing(100)]);
    const before = keptNear(PLAN, log.slice(0, 90));
    const now = keptNear(PLAN, log, before);
    expect(now).toEqual(keptNear(PLAN, log));
    expect(now?.events).toBe(161);
  });

  it('says when something reaches back beyond it', () => {
    const log = logged([...throwing(10), undone('e3')]);
    const kept = { events: 8, progress: progressOf(PLAN, log.slice(0, 8)) };
    expect(goOn(kept.progress, log.slice(8))).toBeNull();
    expect(foldedOn(PLAN, log, kept).progress.pick).toBe(9);
  });

  it('is kept on until it lies far back', () => {
    const log = logged(throwing(600));
    const kept = keptNear(PLAN, log.slice(0, 100));
    expect(keptOn(PLAN, log.slice(0, 300), kept, startOf(PLAN))).toBe(kept);
    expect(keptOn(PLAN, log, kept, startOf(PLAN))?.events).toBe(560);
  });

  it('shares the course with the progress at hand, as long as nothing was changed', () => {
    const log = logged(throwing(600));
    const now = progressOf(PLAN, log);
    expect(keptOn(PLAN, log, null, now)?.progress.course).toBe(now.course);
    const other = progressOf(PLAN, logged([...throwing(600), { kind: 'otherShed' }]));
    const kept = keptOn(PLAN, log, null, other);
    expect(kept).toEqual(keptNear(PLAN, log));
    expect(kept?.progress.course).not.toBe(other.course);
  });

  it('and gone on from is the whole log folded, wherever it is cut', () => {
    fc.assert(
      fc.property(planAndLog(30, 4), fc.nat(30), ([plan, log], at) => {
        const events = Math.min(at, log.length);
        const kept = { events, progress: keptAndRead(progressOf(plan, log.slice(0, events))) };
        expect(foldedOn(plan, log, kept).progress).toEqual(progressOf(plan, log));
      }),
    );
  });

  it('near its end, step by step, and gone on from is the whole log folded', () => {
    fc.assert(
      fc.property(planAndLog(150, 12), fc.nat(150), ([plan, log], first) => {
        const before = keptNear(plan, log.slice(0, first));
        const kept = keptNear(plan, log, before);
        expect(foldedOn(plan, log, kept).progress).toEqual(progressOf(plan, log));
        expect(foldedOn(plan, log, before).progress).toEqual(progressOf(plan, log));
      }),
      { numRuns: 40 },
    );
  });

  it('is laid anew as it was', () => {
    fc.assert(
      fc.property(planAndLog(30, 4), ([plan, log]) => {
        const progress = progressOf(plan, log);
        expect(keptAndRead(progress)).toEqual(progress);
      }),
    );
  });
});

describe('the check value of the ids', () => {
  const ids = (...names: readonly string[]) =>
    names.map((id, n): LogEvent => ({ ...(logged([thrown(1)])[0] as LogEvent), id, at: `${n}` }));

  it.each<readonly [string, readonly string[], readonly string[], boolean]>([
    ['the same ids', ['a', 'b'], ['a', 'b'], true],
    ['another order', ['a', 'b'], ['b', 'a'], false],
    ['ids cut elsewhere', ['ab', 'c'], ['a', 'bc'], false],
    ['one less', ['a', 'b'], ['a'], false],
  ])('of %s', (_, one, other, isSame) => {
    const sums = [one, other].map((it) => sumOfIds(ids(...it), it.length));
    expect(sums[0] === sums[1]).toBe(isSame);
  });

  it('looks no farther than it is told', () => {
    expect(sumOfIds(ids('a', 'b', 'c'), 2)).toBe(sumOfIds(ids('a', 'b'), 2));
  });
});
