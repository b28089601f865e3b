import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NO_ADJUSTMENTS } from '../../../../src/core/bench/adjustments.ts';
import { freeAtFell } from '../../../../src/core/bench/byEye/throwing.ts';
import { yarnsToThrow } from '../../../../src/core/bench/byEye/yarnsToThrow.ts';
import { layCourse } from '../../../../src/core/bench/course.ts';
import type { Happening } from '../../../../src/core/bench/events.ts';
import { folded, happened } from '../../../../src/core/bench/happened.ts';
import { openDues } from '../../../../src/core/bench/openDues.ts';
import { type PickFacts, pickAt, pieceAt, yarnAt } from '../../../../src/core/bench/pickAt.ts';
import { type Progress, progressOf, startOf } from '../../../../src/core/bench/progress.ts';
import type { Block, Plan } from '../../../../src/core/plan/plan.ts';
import { checked, pieceOf, planOf, planWeaving, solid, yarns } from '../../plan/samples.ts';
import { anyPlan } from '../arbitraries.ts';
import { having, logged, takenOut, thrown } from '../logs.ts';
import { anyFreeLog } from './freePlans.ts';

const FREE: Block = { kind: 'free' };
const of = (yarn: string, picks = 1): Happening => ({ kind: 'thrownOf', yarn, picks });
const ended: Happening = { kind: 'freeEnded' };

/** The picks woven so far, as letters. */
function woven({ course, pick }: Progress): string {
  const picks = Array.from({ length: pick }, (_, n) => yarnAt(course, n));
  return picks.map((yarn) => course.plan.yarns[yarn]?.letter).join('');
}

const isOpen = ({ course, pick }: Progress) => freeAtFell(course, pick) !== null;

describe('weaving by eye', () => {
  const plan = planWeaving('AB', [FREE]);

  it('each tap is one pick of its yarn, a turn as many as it says', () => {
    expect(woven(having(plan, of('A'), of('A'), of('B', 3), of('A')))).toBe('AABBBA');
  });

  it('picks taken out go the way they came, also through several taps', () => {
    expect(woven(having(plan, of('A', 4), of('B', 2), takenOut(3)))).toBe('AAA');
    expect(woven(having(plan, of('A', 4), takenOut(9), of('B')))).toBe('B');
  });

  it('a plan says nothing here: picks thrown as planned do not count', () => {
    expect(woven(having(plan, thrown(3), of('A'), thrown(2)))).toBe('A');
  });

  it('a yarn the plan has not got, or no picks of it, change nothing', () => {
    expect(woven(having(plan, of('A'), of('Z'), of('B', 0), of('B', -1), of('B', 0.5)))).toBe('A');
  });

  it('ends when it is told to; then the warp is woven to its end', () => {
    const open = having(plan, of('A', 2));
    expect([isOpen(open), open.course.picks]).toEqual([true, 3]);
    const done = happened(open, ended);
    expect([isOpen(done), done.course.picks, done.pick]).toEqual([false, 2, 2]);
    expect(openDues(open).map((due) => due.id)).toEqual([]);
    expect(openDues(done).map((due) => due.id)).toEqual(['0/cut-off']);
  });

  it('goes on where picks are taken out of it after it was ended', () => {
    const again = having(plan, of('A', 3), ended, takenOut(1));
    expect([isOpen(again), woven(again)]).toEqual([true, 'AA']);
  });

  it('stands between planned blocks: what comes before leads to it, what comes after waits for its end', () => {
    const part = planWeaving('ABC', [solid('A', 4), FREE, solid('C', 2)]);
    const before = having(part, thrown(9));
    expect(woven(before)).toBe('AAAA');
    expect(woven(having(part, of('B'), thrown(2), of('B')))).toBe('AA');
    expect(woven(having(part, thrown(4), of('B', 2), ended, thrown(9)))).toBe('AAAABBCC');
  });

  it('in the next piece begins a record of its own', () => {
    const two = planWeaving('AB', [FREE], [FREE]);
    const now = having(two, of('A', 2), ended, of('B'), of('A'));
    expect(woven(now)).toBe('AABA');
    expect(pieceAt(now.course, now.pick).index).toBe(1);
  });

  it('the next pick is taken for one more of the yarn last thrown, as the pedal throws it', () => {
    const now = having(plan, of('A', 2), of('B'));
    expect(pickAt(now.course, now.pick)).toMatchObject({ yarn: 1, shed: 1, stripe: { done: 1 } });
  });

  it('a length is worked out at the planned beat and marked as estimated', () => {
    const now = having(plan, of('B', 2), { kind: 'woveLengthOf', yarn: 'A', loomLength: 25.4 });
    expect([woven(now), now.placeUnsure]).toEqual([`BB${'A'.repeat(10)}`, true]);
    expect(now.estimated).toEqual([{ from: 2, to: 12 }]);
  });

  it('shed, sides and parked order go on as in planned weaving', () => {
    const now = having(plan, of('A', 2), of('B', 3));
    const next = pickAt(now.course, now.pick);
    expect(next).toMatchObject({ shed: 1, from: 'left', yarn: 1 });
    expect(next?.parked).toMatchObject({
      right: [{ yarn: 0, state: 'resting' }],
      left: [{ yarn: 1, state: 'working' }],
    });
  });

  it('tells for each yarn the side it comes from, the edge end, and when it has lain too long', () => {
    const near = having(plan, of('A', 2), of('B', 3));
    expect(yarnsToThrow(near.course, near.pick)).toMatchObject([
      { from: 'right', entry: 'floated', overPicks: 3, edge: 'not-caught', wasCut: false },
      { from: 'left', entry: 'again' },
    ]);
    // The carry limit is an inch, ten picks.
    const far = having(plan, of('A', 2), of('B', 11));
    expect(yarnsToThrow(far.course, far.pick)[0]).toMatchObject({ entry: 'new', wasCut: true });
  });

  it('a hem beside it is woven in the first yarn, whatever is thrown', () => {
    const hem = { kind: 'hem', washedAllowance: 10 } as const;
    const hemmed = planOf({ yarns: yarns('AB'), pieces: [pieceOf([FREE], { beginning: hem })] });
    expect(woven(having(hemmed, thrown(99), of('B', 2)))).toBe('AAAABB');
  });

  it('the length it is meant to have counts for the piece until it is woven or ended', () => {
    const meant = planWeaving('A', [{ kind: 'free', loomLength: 100 }]);
    const pieceLength = (...log: Happening[]) => having(meant, ...log).course.pieces[0]?.loomLength;
    expect(pieceLength()).toBeCloseTo(100, 9);
    expect(pieceLength(of('A', 10))).toBeCloseTo(100, 9);
    expect(pieceLength(of('A', 50))).toBeCloseTo(51 * 2.54, 9);
    expect(pieceLength(of('A', 10), ended)).toBeCloseTo(25.4, 9);
  });

  it('thousands of taps are folded without laying the course for each', () => {
    const start = startOf(plan);
    let now = start;
    for (let n = 0; n < 5000; n++) {
      now = folded(now, of(n % 3 === 0 ? 'A' : 'B'));
      if (n % 10 === 0) now = folded(now, takenOut(1));
      if (n % 50 === 0) now = folded(now, { kind: 'advanced' });
    }
    expect(now.course).toBe(start.course);
    expect([now.pick, now.gathered?.picks]).toEqual([4500, 4500]);
  });
});

describe('laws of weaving by eye', () => {
  const numRuns = 300;
  const PATIENCE = 300_000;

  it(
    'a log folded at once comes to what it comes to event by event',
    () => {
      fc.assert(
        fc.property(anyFreeLog, ({ plan, log }) => {
          const steps = having(plan, ...log);
          expect(steps.gathered).toBeNull();
          expect(progressOf(plan, logged(log))).toEqual(steps);
        }),
        { numRuns },
      );
    },
    PATIENCE,
  );

  it(
    'a pick never lies beyond a part that is not ended, and what is woven has a yarn',
    () => {
      fc.assert(
        fc.property(anyFreeLog, ({ plan, log }) => {
          const { course, pick } = having(plan, ...log);
          const [first = course.picks] = course.open;
          expect(pick).toBeLessThanOrEqual(first);
          expect(pick).toBeLessThanOrEqual(course.picks);
        }),
        { numRuns },
      );
    },
    PATIENCE,
  );

  it(
    'the record is what was thrown: each tap appends, whatever happened before',
    () => {
      fc.assert(
        fc.property(anyFreeLog, fc.nat(), ({ plan, log }, n) => {
          const before = having(plan, ...log);
          if (!isOpen(before)) return;
          const letter = plan.yarns[n % plan.yarns.length]?.letter ?? '';
          const after = happened(before, of(letter, 2));
          expect(woven(after)).toBe(woven(before) + letter + letter);
          expect(after.pick).toBe(before.pick + 2);
          expect(happened(after, takenOut(2)).pick).toBe(before.pick);
          expect(woven(happened(after, takenOut(2)))).toBe(woven(before));
        }),
        { numRuns },
      );
    },
    PATIENCE,
  );

  it(
    'a yarn does when thrown what was told of it before',
    () => {
      fc.assert(
        fc.property(anyFreeLog, ({ plan, log }) => {
          const now = having(plan, ...log);
          if (!isOpen(now)) return;
          for (const told of yarnsToThrow(now.course, now.pick)) {
            const letter = plan.yarns[told.yarn]?.letter ?? '';
            const { course } = happened(now, of(letter));
            const came = pickAt(course, now.pick);
            expect(came).toMatchObject({ yarn: told.yarn, from: told.from });
            expect(came?.coming === null ? 'again' : came?.coming.entry).toBe(told.entry);
            if (came === null || came.coming === null) continue;
            const { edge, overPicks, overLength } = came.coming;
            expect(told).toMatchObject({ edge, overPicks });
            expect(told.overLength).toBeCloseTo(overLength, 6);
          }
        }),
        { numRuns },
      );
    },
    PATIENCE,
  );

  it(
    'the picks of a plan thrown by eye have the sheds, sides and rests they have as planned',
    () => {
      fc.assert(
        fc.property(anyPlan, (plan) => {
          const plain = withoutExtras(plan);
          const course = layCourse(plain, NO_ADJUSTMENTS);
          const byEye = checked({
            ...plain,
            pieces: plain.pieces.map((it) => ({ ...it, weft: [FREE] })),
          });
          let now = startOf(byEye);
          for (const piece of course.pieces) {
            for (let n = piece.firstPick; n < piece.firstPick + piece.picks; n++) {
              const letter = plain.yarns[yarnAt(course, n)]?.letter ?? '';
              now = folded(now, of(letter));
            }
            now = folded(now, ended);
          }
          for (let n = 0; n < course.picks; n++) {
            const planned = pickAt(course, n);
            const thrownSo = pickAt(now.course, n);
            expect(factsOf(thrownSo)).toEqual(factsOf(planned));
          }
        }),
        { numRuns: 100 },
      );
    },
    PATIENCE,
  );
});

/** What a pick is told to do, lengths to a thousandth of a millimetre. */
function factsOf(facts: PickFacts | null) {
  if (facts === null) return null;
  const { yarn, shed, from, catches } = facts;
  const rounded = <T extends { readonly overLength: number }>(it: T | null) =>
    it && { ...it, overLength: Math.round(it.overLength * 1000) };
  return {
    yarn,
    shed,
    from,
    catches,
    coming: rounded(facts.coming),
    leaving: rounded(facts.leaving),
  };
}

/** The plan with plain edges and without what its blocks say of resting, starting sides and beat. */
function withoutExtras(plan: Plan): Plan {
  const bare = (block: Block): Block => {
    if (block.kind === 'repeat' || block.kind === 'mirror')
      return { ...block, of: block.of.map(bare) };
    const { pickSpacing, resting, starts, ...rest } = block;
    return rest as Block;
  };
  const edge = { kind: 'plain', washedAllowance: 0 } as const;
  return checked({
    ...plan,
    pieces: plan.pieces.map((piece) => ({
      ...piece,
      beginning: edge,
      ending: edge,
      weft: piece.weft.map(bare),
    })),
  });
}
