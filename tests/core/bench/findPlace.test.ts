import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  findPlaces,
  pickOfPiece,
  picksAtFell,
  type SeenAtFell,
} from '../../../src/core/bench/findPlace.ts';
import { pickAt } from '../../../src/core/bench/pickAt.ts';
import type { Progress } from '../../../src/core/bench/progress.ts';
import type { Side } from '../../../src/core/plan/plan.ts';
import { alternation, planWeaving, solid } from '../plan/samples.ts';
import { anyPlan, happening } from './arbitraries.ts';
import { having, thrown } from './logs.ts';

const MOST = 10_000;
const TWO_AND_TWO = planWeaving('AB', [
  solid('A', 8),
  alternation('B2 A2', { kind: 'turns', turns: 5 }),
  solid('A', 8),
]);

/** What truly lies at the fell when `pick` picks are woven: the last thrown, its count, its shuttle. */
function truthAt({ course }: Progress, pick: number): SeenAtFell {
  const last = pickAt(course, pick - 1);
  const next = pickAt(course, pick);
  if (last === null) throw new Error('nothing woven');
  const goesOn = next !== null && next.piece.index === last.piece.index;
  const side: Side = last.from === 'left' ? 'right' : 'left';
  return {
    yarn: last.yarn,
    picks: last.stripe.done + 1,
    nextShed: goesOn ? next.shed : 1 - last.shed,
    side:
      goesOn && next.stripe.index === last.stripe.index ? next.from : (last.leaving?.side ?? side),
  };
}

describe('find my place', () => {
  const { course } = having(TWO_AND_TWO);

  it('knows two picks of B by their shed and side alone only up to the turn', () => {
    const seen = { yarn: 1, picks: 2, nextShed: 0, side: 'right' } as const;
    expect(findPlaces(course, 10, seen, 5).map((it) => it.pick)).toEqual([10, 14, 18]);
  });

  it('offers the nearest first, those that agree before those that do not', () => {
    const seen = { yarn: 1, picks: 1, nextShed: 1, side: 'right' } as const;
    const places = findPlaces(course, 18, seen, 5);
    expect(places.map((it) => it.pick)).toEqual([17, 13, 9]);
    expect(places[0]).toEqual({ pick: 17, shedAgrees: true, sideAgrees: false });
  });

  it('offers what agrees with the shed before what lies nearer', () => {
    const seen = { yarn: 1, picks: null, nextShed: 0, side: null };
    const places = findPlaces(course, 17, seen, 9);
    expect(places.map((it) => it.pick)).toEqual([18, 14, 10, 17, 13, 9]);
  });

  it('without a count offers the nearest picks of that colour', () => {
    const seen = { yarn: 0, picks: null, nextShed: null, side: null };
    expect(findPlaces(course, 5, seen, 3).map((it) => it.pick)).toEqual([5, 4, 6]);
  });

  it('offers nothing that is not in the cloth', () => {
    const seen = { yarn: 1, nextShed: null, side: null };
    expect(findPlaces(course, 5, { ...seen, picks: 3 }, 5)).toEqual([]);
    expect(findPlaces(course, 5, { ...seen, picks: 0 }, 5)).toEqual([]);
    expect(findPlaces(course, 5, { ...seen, yarn: 7, picks: 1 }, 5)).toEqual([]);
  });

  it('told the truth names the true place first, wherever that is', () => {
    const logs = anyPlan.chain((plan) =>
      fc.tuple(fc.constant(plan), fc.array(happening(plan), { maxLength: 10 })),
    );
    fc.assert(
      fc.property(logs, fc.nat(), ([plan, happenings], seed) => {
        const progress = having(plan, ...happenings);
        fc.pre(progress.course.picks > 0);
        // Where the weaver is, the next shed may just have been turned round.
        const here = seed % 2 === 0 && progress.pick > 0;
        const pick = here ? progress.pick : 1 + (seed % progress.course.picks);
        const [first] = findPlaces(progress.course, pick, truthAt(progress, pick), 1);
        expect(first).toEqual({ pick, shedAgrees: true, sideAgrees: true });
      }),
    );
  });

  it('has the true place among its proposals from anywhere in the piece', () => {
    fc.assert(
      fc.property(anyPlan, fc.nat(), fc.nat(), (plan, seed, elsewhere) => {
        const progress = having(plan);
        const pick = 1 + (seed % progress.course.picks);
        const piece = pickAt(progress.course, pick - 1)?.piece;
        const near = (piece?.firstPick ?? 0) + (elsewhere % ((piece?.picks ?? 0) + 1));
        const places = findPlaces(progress.course, near, truthAt(progress, pick), MOST);
        expect(
          places.filter((it) => it.shedAgrees && it.sideAgrees).map((it) => it.pick),
        ).toContain(pick);
      }),
    );
  });
});

describe('the fell', () => {
  it('shows the yarn last thrown and how many picks of it', () => {
    const { course } = having(TWO_AND_TWO, thrown(3));
    expect(picksAtFell(course, 3)).toEqual({ yarn: 0, picks: 3 });
    expect(picksAtFell(course, 9)).toEqual({ yarn: 1, picks: 1 });
    expect(picksAtFell(course, 0)).toBeNull();
  });
});

describe('a pick by its number in the piece', () => {
  const one = planWeaving('AB', [solid('A', 8), solid('B', 4)]);
  const two = having({
    ...one,
    pieces: one.pieces.flatMap((it) => [it, { ...it, name: 'Second' }]),
  }).course;

  it.each([
    [0, 1, 0],
    [0, 12, 11],
    [1, 1, 12],
    // The loom card says that B begins with pick 9 of each piece.
    [1, 9, 20],
  ])('piece %d, pick %d is pick %d of the warp', (piece, nth, pick) => {
    expect(pickOfPiece(two, piece, nth)).toMatchObject({ pick, yarn: nth >= 9 ? 1 : 0 });
  });

  it.each([
    [0, 0],
    [0, 13],
    [2, 1],
    [0, 1.5],
    [0, Number.NaN],
  ])('piece %d has no pick %d', (piece, nth) => {
    expect(pickOfPiece(two, piece, nth)).toBeNull();
  });
});
