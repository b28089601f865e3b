import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Adjustments, NO_ADJUSTMENTS } from '../../../src/core/bench/adjustments.ts';
import { type Course, layCourse } from '../../../src/core/bench/course.ts';
import type { ParkedShuttle } from '../../../src/core/bench/parked.ts';
import { type PickFacts, pickAt } from '../../../src/core/bench/pickAt.ts';
import type { Plan } from '../../../src/core/plan/plan.ts';
import { alternation, planWeaving, solid } from '../plan/samples.ts';
import { anyPlan, sidesOf } from './arbitraries.ts';
import { type Found, type Parked, type Woven, weave } from './weaver.ts';

const micrometres = (mm: number) => Math.round(mm * 1000) || 0;

/** What the core says about a pick, in the words of the weaver who threw it by hand. */
function told(course: Course, facts: PickFacts): Woven {
  const letter = (yarn: number) => course.plan.yarns[yarn]?.letter ?? '?';
  const { block, stripe, coming, leaving, parked } = facts;
  const queue = (shuttles: readonly ParkedShuttle[]) =>
    shuttles.map((it) => `${letter(it.yarn)} ${it.state}`);
  return {
    pick: facts.pick,
    piece: facts.piece.index,
    yarn: letter(facts.yarn),
    shed: facts.shed,
    from: facts.from,
    block: { ofPiece: block.block.ofPiece, done: block.done, left: block.left },
    turn: facts.turn,
    stripe: { index: stripe.index, done: stripe.done, picks: stripe.picks },
    coming: coming && {
      ...coming,
      instead: coming.instead === null ? null : letter(coming.instead),
    },
    leaving: leaving && {
      ...leaving,
      nextYarn: leaving.nextYarn === null ? null : letter(leaving.nextYarn),
    },
    catches: facts.catches.map(letter).sort(),
    parked: { left: queue(parked.left), right: queue(parked.right), reach: parked.reach },
    loomLength: facts.loomLength,
  };
}

/** Lengths are sums in two different orders: they agree to a thousandth of a millimetre. */
function rounded(woven: Woven): unknown {
  const over = <T extends { overLength: number }>(it: T | null) =>
    it && { ...it, overLength: micrometres(it.overLength) };
  return {
    ...woven,
    loomLength: micrometres(woven.loomLength),
    coming: over(woven.coming),
    leaving: over(woven.leaving),
  };
}

function jumped(course: Course, pick: number): Woven {
  const facts = pickAt(course, pick);
  if (facts === null) throw new Error(`no pick ${pick}`);
  return told(course, facts);
}

function layOf(plan: Plan): Course {
  return layCourse(plan, NO_ADJUSTMENTS);
}

function parkedIn(plan: Plan): readonly Parked[] {
  const course = layOf(plan);
  return Array.from({ length: course.picks }, (_, n) => jumped(course, n).parked);
}

describe('two and two (common practice, no source)', () => {
  const course = layOf(planWeaving('AB', [alternation('A2 B2', { kind: 'turns', turns: 7 })]));
  const facts = Array.from({ length: 14 }, (_, n) => jumped(course, n));

  it('starts every turn of both colours on the same side and catches the edge end', () => {
    const starts = facts.filter((it) => it.coming !== null);
    expect(starts.map((it) => it.from)).toEqual(Array(7).fill('right'));
    expect(starts.map((it) => it.coming?.edge)).toEqual([
      'none',
      'none',
      ...Array(5).fill('caught'),
    ]);
  });

  it('keeps the shuttle to take nearest the weaver', () => {
    expect(facts.every((it) => it.parked.reach === 0)).toBe(true);
    expect(facts[2]?.parked).toEqual({ left: [], right: ['B working', 'A resting'], reach: 0 });
    expect(facts[3]?.parked).toEqual({ left: ['B working'], right: ['A resting'], reach: 0 });
  });
});

describe('one and one (common practice, no source)', () => {
  const course = layOf(planWeaving('AB', [alternation('A1 B1', { kind: 'turns', turns: 9 })]));
  const facts = Array.from({ length: 9 }, (_, n) => jumped(course, n));

  it('throws right, left, left, right and leaves the edge end uncaught', () => {
    const sides = ['right', 'left', 'left', 'right', 'right', 'left', 'left', 'right', 'right'];
    expect(facts.map((it) => it.from)).toEqual(sides);
    expect(facts.slice(2).map((it) => it.coming?.edge)).toEqual(Array(7).fill('not-caught'));
  });
});

describe('a resting yarn', () => {
  it.each([
    ['floats where the float is within the carry limit', 10, 'float', 'floated'],
    ['is cut where it would be longer', 12, 'cut', 'new'],
  ] as const)('%s', (_, picks, rest, entry) => {
    const course = layOf(planWeaving('AB', [solid('A', 2), solid('B', picks), solid('A', 2)]));
    expect(jumped(course, 1).leaving).toMatchObject({ rest, overPicks: picks });
    expect(jumped(course, 2 + picks).coming?.entry).toBe(entry);
  });

  it('is caught at its own side once every four picks', () => {
    const caught = {
      ...alternation('A2 B14', { kind: 'turns', turns: 3 }),
      resting: { A: { mode: 'catch', every: 4 } as const },
    };
    const course = layOf(planWeaving('AB', [caught]));
    const at = Array.from({ length: course.picks }, (_, n) => n).filter((n) =>
      jumped(course, n).catches.includes('A'),
    );
    expect(at).toEqual([6, 10, 14]);
  });

  it('is never carried over a gap', () => {
    const course = layOf(planWeaving('AB', [solid('A', 2)], [solid('A', 2)]));
    expect(jumped(course, 1).leaving).toMatchObject({ rest: 'ends', nextYarn: null });
    expect(jumped(course, 2).coming).toMatchObject({ entry: 'new', instead: null });
  });
});

describe('the queue', () => {
  it('of three colours in turn always offers the right shuttle', () => {
    const plan = planWeaving('ABC', [alternation('A2 B2 C2', { kind: 'turns', turns: 9 })]);
    expect(parkedIn(plan).map((it) => it.reach)).toEqual(Array(18).fill(0));
  });

  it('is broken by a colour that comes back before its turn', () => {
    const weft = 'ABCBA'.split('').map((yarn) => solid(yarn, 2));
    const starts = parkedIn(planWeaving('ABC', weft)).filter((_, n) => n % 2 === 0);
    expect(starts.map((it) => it.reach)).toEqual([0, 0, 0, 1, 0]);
  });
});

describe('pick n', () => {
  it('is nothing before the first and after the last', () => {
    const course = layOf(planWeaving('AB', [solid('A', 3)]));
    expect([pickAt(course, -1), pickAt(course, 3)]).toEqual([null, null]);
    expect(pickAt(course, 2)?.ofPiece).toBe(2);
  });

  it('has the same facts whether jumped to or woven up to', () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        const course = layOf(plan);
        const woven = weave(plan);
        expect(course.picks).toBe(woven.length);
        const all = woven.map((it) => rounded(jumped(course, it.pick)));
        expect(all).toEqual(woven.map(rounded));
      }),
      { numRuns: 250 },
    );
  });

  it('has the facts of a weaver who was told another shed and other sides on the way', () => {
    fc.assert(
      fc.property(planFoundOtherwise, ({ plan, found }) => {
        const course = layCourse(plan, adjustmentsOf(plan, found));
        const last = Math.max(-1, ...found.sides.map((it) => it.pick));
        for (const it of weave(plan, found)) {
          const facts = jumped(course, it.pick);
          expect([facts.yarn, facts.shed, facts.from]).toEqual([it.yarn, it.shed, it.from]);
          // What was found later is told of a resting shuttle as if it had always lain there.
          if (it.pick >= last)
            expect(rounded(facts)).toEqual({ ...(rounded(it) as object), catches: facts.catches });
        }
      }),
      { numRuns: 150 },
    );
  });
});

const planFoundOtherwise = anyPlan.chain((plan) => {
  const { picks } = layOf(plan);
  const pick = fc.nat(picks - 1);
  const looks = fc
    .uniqueArray(pick, { maxLength: 3 })
    .chain((picksFound) =>
      fc.tuple(
        ...picksFound
          .sort((a, b) => a - b)
          .map((at) => sidesOf(plan).map((sides) => ({ at, sides }))),
      ),
    );
  const shedFlips = fc
    .uniqueArray(pick, { maxLength: 3 })
    .map((list) => list.sort((a, b) => a - b));
  return fc.record({ looks, shedFlips }).map(({ looks: told, shedFlips: flips }) => {
    const sides = told.flatMap(({ at, sides: seen }) =>
      Object.entries(seen).map(([yarn, side]) => ({ pick: at, yarn, side })),
    );
    return { plan, found: { shedFlips: flips, sides } satisfies Found };
  });
});

function adjustmentsOf(plan: Plan, found: Found): Adjustments {
  const index = (letter: string) => plan.yarns.findIndex((yarn) => yarn.letter === letter);
  const sides = found.sides.map(({ pick, yarn, side }) => ({ pick, yarn: index(yarn), side }));
  return { shedFlips: found.shedFlips, sides, blocks: [], free: [] };
}
