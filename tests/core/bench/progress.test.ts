import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pickAfterLength } from '../../../src/core/bench/counting.ts';
import type { Course } from '../../../src/core/bench/course.ts';
import type { Happening, LogEvent } from '../../../src/core/bench/events.ts';
import { happened } from '../../../src/core/bench/happened.ts';
import { loomLengthAt, pickAt, pieceAt } from '../../../src/core/bench/pickAt.ts';
import { type Progress, progressOf, startOf } from '../../../src/core/bench/progress.ts';
import { redoTarget, undoTarget } from '../../../src/core/bench/undo.ts';
import { type Plan, SHED_WORDS } from '../../../src/core/plan/plan.ts';
import { alternation, planWeaving, solid } from '../plan/samples.ts';
import { anyPlan, happening, sidesOf } from './arbitraries.ts';
import { having, logged, takenOut, thrown } from './logs.ts';
import { weave } from './weaver.ts';

const TWO_AND_TWO = planWeaving(
  'AB',
  [alternation('A2 B2', { kind: 'turns', turns: 9 })],
  [solid('A', 8)],
);
const OTHER_SHED: Happening = { kind: 'otherShed' };

const planAndLog = anyPlan.chain((plan) =>
  fc.record({ plan: fc.constant(plan), happenings: fc.array(happening(plan), { maxLength: 25 }) }),
);

/** Everything a thrown pick was: what no later event may change. */
function wovenFacts({ course, pick }: Progress): readonly unknown[] {
  return Array.from({ length: pick }, (_, n) => {
    const facts = pickAt(course, n);
    return [facts?.yarn, facts?.shed, facts?.from];
  });
}

describe('progress', () => {
  it('counts what was thrown, and no further than the warp', () => {
    expect(having(TWO_AND_TWO, thrown(5), thrown(1)).pick).toBe(6);
    expect(having(TWO_AND_TWO, thrown(100)).pick).toBe(26);
  });

  it('takes picks out, and no further than the beginning', () => {
    expect(having(TWO_AND_TWO, thrown(5), takenOut(2)).pick).toBe(3);
    expect(having(TWO_AND_TWO, thrown(5), takenOut(9)).pick).toBe(0);
  });

  it('folded event by event is the same as folded whole', () => {
    fc.assert(
      fc.property(planAndLog, ({ plan, happenings }) => {
        expect(progressOf(plan, logged(happenings))).toEqual(having(plan, ...happenings));
      }),
    );
  });

  it('is the same when any event of the log comes twice', () => {
    const twice = fc.tuple(
      planAndLog,
      fc.array(fc.tuple(fc.nat(), fc.nat()), { maxLength: 5 }),
      fc.array(fc.constantFrom('undo', 'redo')),
    );
    fc.assert(
      fc.property(twice, ([{ plan, happenings }, copies, hands]) => {
        const log = hands.reduce((list, hand) => withHand(list, hand), logged(happenings));
        const repeated = [...log];
        for (const [which, later] of copies) {
          const event = repeated[which % Math.max(1, repeated.length)];
          if (event === undefined) continue;
          const at = repeated.indexOf(event) + 1;
          repeated.splice(at + (later % (repeated.length - at + 1)), 0, event);
        }
        expect(progressOf(plan, repeated)).toEqual(progressOf(plan, log));
      }),
    );
  });

  it('stays sound whatever a log from elsewhere holds', () => {
    const rubbish = fc.constantFrom(Number.NaN, Number.POSITIVE_INFINITY, -3, 1.5, 1e12);
    const odd = rubbish.chain((n) =>
      fc.constantFrom<Happening>(
        thrown(n),
        takenOut(n),
        { kind: 'woveLength', loomLength: n },
        { kind: 'blockSet', piece: 0, block: 0, picks: n },
        { kind: 'blockSet', piece: n, block: n, picks: 4 },
        { kind: 'placed', pick: n, shed: 'up', sides: { Z: 'left' } },
        { kind: 'placed', pick: 3, shed: 'odd', sides: {} },
      ),
    );
    fc.assert(
      fc.property(fc.array(odd, { maxLength: 6 }), (events) => {
        const { pick, course } = having(TWO_AND_TWO, thrown(4), ...events);
        expect(Number.isSafeInteger(pick) && pick >= 0 && pick <= course.picks).toBe(true);
      }),
    );
  });
});

function withHand(log: readonly LogEvent[], hand: 'undo' | 'redo'): readonly LogEvent[] {
  const event = hand === 'undo' ? undoTarget(log) : redoTarget(log);
  if (event === null) return log;
  const kind = hand === 'undo' ? 'undone' : 'redone';
  const head = {
    id: `e${log.length}`,
    warp: 'w',
    after: log.at(-1)?.id ?? null,
    at: '2024-05-01T10:00:00Z',
  };
  return [...log, { ...head, kind, event }];
}

describe('undo', () => {
  it('of a throw changes nothing', () => {
    fc.assert(
      fc.property(planAndLog, fc.integer({ min: 1, max: 5 }), ({ plan, happenings }, picks) => {
        const log = logged(happenings);
        const more = logged([...happenings, thrown(picks)]);
        expect(progressOf(plan, withHand(more, 'undo'))).toEqual(progressOf(plan, log));
      }),
    );
  });

  it('has nothing to take back at the beginning, and redo nothing to give', () => {
    expect([undoTarget([]), redoTarget([]), redoTarget(logged([thrown(1)]))]).toEqual([
      null,
      null,
      null,
    ]);
  });

  it('and redo, any number of them, walk the same road back and forth', () => {
    type Step = 'undo' | 'redo' | Happening;
    const steps = anyPlan.chain((plan) => {
      const step = fc.oneof<fc.Arbitrary<Step>[]>(
        happening(plan),
        fc.constant('undo'),
        fc.constant('undo'),
        fc.constant('redo'),
      );
      return fc.record({ plan: fc.constant(plan), steps: fc.array(step, { maxLength: 40 }) });
    });
    fc.assert(
      fc.property(steps, ({ plan, steps: taken }) => {
        let log: readonly LogEvent[] = [];
        let standing: readonly Happening[] = [];
        let undone: readonly Happening[] = [];
        for (const step of taken) {
          const last = standing.at(-1);
          const next = undone.at(-1);
          if (step === 'undo') {
            log = withHand(log, 'undo');
            if (last !== undefined) [standing, undone] = [standing.slice(0, -1), [...undone, last]];
          } else if (step === 'redo') {
            log = withHand(log, 'redo');
            if (next !== undefined) [standing, undone] = [[...standing, next], undone.slice(0, -1)];
          } else {
            log = [...log, ...logged([step]).map((it) => ({ ...it, id: `e${log.length}` }))];
            [standing, undone] = [[...standing, step], []];
          }
        }
        expect(progressOf(plan, log)).toEqual(having(plan, ...standing));
      }),
    );
  });
});

describe('picks taken out and thrown again', () => {
  it('are the same picks', () => {
    fc.assert(
      fc.property(planAndLog, fc.nat(30), ({ plan, happenings }, picks) => {
        const before = having(plan, ...happenings);
        const from = Math.max(0, before.pick - picks);
        const { shedFlips, sides } = before.course.adjustments;
        fc.pre(shedFlips.every((at) => at <= from) && sides.every((it) => it.pick <= from));
        // A length that was counted goes with the cloth it was counted on.
        fc.pre(before.marks.every((it) => it.pick <= from));
        const again = [takenOut(before.pick - from), thrown(before.pick - from)].reduce(
          happened,
          before,
        );
        expect([again.pick, again.course, again.dues]).toEqual([
          before.pick,
          before.course,
          before.dues,
        ]);
      }),
    );
  });

  it('lose what was found about them', () => {
    const placed: Happening = { kind: 'placed', pick: 6, shed: 'up', sides: { A: 'left' } };
    const found = having(TWO_AND_TWO, placed, OTHER_SHED, thrown(2));
    expect(found.course.adjustments).toMatchObject({ sides: [{ pick: 6 }] });
    const before = happened(found, takenOut(3));
    expect(before.course.adjustments).toEqual({ shedFlips: [], sides: [], blocks: [], free: [] });
    expect(happened(before, thrown(3)).course).toEqual(having(TWO_AND_TWO, thrown(8)).course);
  });
});

describe('a length woven without counting', () => {
  it('lands at the nearest pick of its piece and makes the place unsure', () => {
    fc.assert(
      fc.property(anyPlan, fc.nat(), fc.integer({ min: 1, max: 300 }), (plan, seed, tenths) => {
        const woven = weave(plan);
        const from = seed % woven.length;
        const here = woven[from];
        if (here === undefined) throw new Error('no pick');
        const progress = having(plan, thrown(from), {
          kind: 'woveLength',
          loomLength: tenths / 10,
        });
        const { course } = progress;
        const piece = pieceAt(course, from);
        const end = piece.firstPick + piece.picks;
        const lengthTo = (pick: number) =>
          (pick === end ? piece.loomLength : (woven[pick]?.loomLength ?? 0)) - here.loomLength;
        const miss = (pick: number) => Math.abs(lengthTo(pick) - tenths / 10);
        const landings = Array.from({ length: end - from + 1 }, (_, n) => from + n);
        const least = Math.min(...landings.map(miss));
        expect(miss(progress.pick)).toBeLessThanOrEqual(least + 1e-9);
        expect(progress.placeUnsure).toBe(progress.pick > from);
        expect(progress.estimated).toEqual(
          progress.pick > from ? [{ from, to: progress.pick }] : [],
        );
      }),
    );
  });

  it('is sure again once the weaver has looked', () => {
    const unsure = having(TWO_AND_TWO, { kind: 'woveLength', loomLength: 20 });
    expect(unsure).toMatchObject({ pick: 8, placeUnsure: true });
    const sides = { A: 'left', B: 'left' } as const;
    const sure = happened(unsure, { kind: 'placed', pick: 9, shed: 'up', sides });
    expect(sure).toMatchObject({ pick: 9, placeUnsure: false, estimated: [{ from: 0, to: 8 }] });
  });

  it('is sure again when all that was worked out is taken out of the cloth', () => {
    const unsure = having(TWO_AND_TWO, thrown(3), { kind: 'woveLength', loomLength: 10 });
    const still = happened(unsure, { kind: 'takenOut', picks: 1 });
    expect(still).toMatchObject({ placeUnsure: true });
    const out = happened(unsure, { kind: 'takenOut', picks: unsure.pick - 3 });
    expect(out).toMatchObject({ pick: 3, placeUnsure: false, estimated: [] });
  });

  it('is never negative', () => {
    expect(pickAfterLength(having(TWO_AND_TWO).course, 5, -40)).toBe(5);
  });
});

function factsFrom(course: Course, pick: number) {
  const facts = pickAt(course, pick);
  if (facts === null) throw new Error(`no pick ${pick}`);
  return facts;
}

function lyingOn(course: Course, pick: number, side: 'left' | 'right'): readonly string[] {
  return factsFrom(course, pick)
    .parked[side].filter((it) => it.state !== 'ready')
    .map((it) => course.plan.yarns[it.yarn]?.letter ?? '?');
}

describe('a place found', () => {
  it('has the shed and the sides the weaver told', () => {
    const told = planAndLog.chain(({ plan, happenings }) =>
      fc.record({
        before: fc.constant(having(plan, ...happenings)),
        sides: sidesOf(plan),
        seed: fc.nat(),
        shed: fc.nat(1),
      }),
    );
    fc.assert(
      fc.property(told, ({ before, sides, seed, shed }) => {
        fc.pre(before.course.picks > 0);
        const { plan, picks } = before.course;
        const pick = seed % picks;
        const word = SHED_WORDS[plan.loom.kind][shed] ?? 'up';
        const { course, ...progress } = happened(before, {
          kind: 'placed',
          pick,
          shed: word,
          sides,
        });
        expect([progress.pick, factsFrom(course, pick).shed]).toEqual([pick, shed]);
        const letter = plan.yarns[factsFrom(course, pick).yarn]?.letter ?? '?';
        expect(factsFrom(course, pick).from).toBe(sides[letter]);
        expect(lyingOn(course, pick, 'left').every((it) => sides[it] === 'left')).toBe(true);
        expect(lyingOn(course, pick, 'right').every((it) => sides[it] === 'right')).toBe(true);
      }),
    );
  });
});

describe('the other shed', () => {
  it('holds from its pick to the end of its piece, and a second tap takes it back', () => {
    fc.assert(
      fc.property(planAndLog, ({ plan, happenings }) => {
        const before = having(plan, ...happenings);
        fc.pre(before.pick < before.course.picks);
        const turned = happened(before, OTHER_SHED);
        const piece = pieceAt(before.course, before.pick);
        const end = piece.firstPick + piece.picks;
        for (let n = 0; n < before.course.picks; n++) {
          const shed = factsFrom(before.course, n).shed;
          const changes = n >= before.pick && n < end;
          expect(factsFrom(turned.course, n).shed).toBe(changes ? 1 - shed : shed);
        }
        expect(happened(turned, OTHER_SHED).course).toEqual(before.course);
      }),
    );
  });

  it('is no news when everything is woven', () => {
    const done = having(TWO_AND_TWO, thrown(26));
    expect(happened(done, OTHER_SHED)).toBe(done);
  });
});

describe('a block set to other picks', () => {
  const set = (picks: number, block = 0, piece = 0): Happening => ({
    kind: 'blockSet',
    piece,
    block,
    picks,
  });

  it('ends early or goes on, but never before what is woven of it', () => {
    expect(having(TWO_AND_TWO, thrown(5), set(7)).course.picks).toBe(15);
    expect(having(TWO_AND_TWO, thrown(5), set(2)).course.picks).toBe(13);
    expect(having(TWO_AND_TWO, set(20)).course.picks).toBe(28);
    expect(having(TWO_AND_TWO, set(20), set(18)).course).toMatchObject({ picks: 26 });
  });

  it('is left alone once the weaving has passed it', () => {
    const passed = having(TWO_AND_TWO, thrown(19));
    expect(happened(passed, set(30))).toBe(passed);
    expect(happened(passed, set(3, 1, 0))).toBe(passed);
    expect(happened(passed, set(3, 0, 7))).toBe(passed);
  });

  it('never changes what is woven', () => {
    fc.assert(
      fc.property(
        planAndLog,
        fc.array(fc.tuple(fc.nat(3), fc.nat(8), fc.nat(20)), { minLength: 1, maxLength: 4 }),
        ({ plan, happenings }, sets) => {
          const before = having(plan, ...happenings);
          const later = sets
            .map(([piece, block, picks]) => set(picks, block, piece))
            .reduce(happened, before);
          expect(later.pick).toBe(before.pick);
          expect(wovenFacts(later)).toEqual(wovenFacts(before));
        },
      ),
    );
  });
});

describe('loom lengths', () => {
  it('grow by one spacing a pick and begin anew with each piece', () => {
    const { course } = having(TWO_AND_TWO);
    expect(
      [0, 1, 17, 18, 19, 26].map((n) => Math.round(loomLengthAt(course, n) * 100) / 100),
    ).toEqual([0, 2.54, 43.18, 0, 2.54, 20.32]);
  });

  it('are kept by a plan started afresh', () => {
    const plan: Plan = TWO_AND_TWO;
    expect(startOf(plan)).toEqual(progressOf(plan, []));
  });
});
