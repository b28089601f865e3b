import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Adjustments,
  isAdjusted,
  NO_ADJUSTMENTS,
} from '../../../src/core/bench/adjustments.ts';
import { type Course, layCourse } from '../../../src/core/bench/course.ts';
import { likesOf } from '../../../src/core/bench/likePieces.ts';
import type { Plan, Side } from '../../../src/core/plan/plan.ts';
import { anyPlan } from './arbitraries.ts';

/** Every piece three times over, the copies in between the others. */
const sets = (plan: Plan): Plan => {
  const again = (n: number) => plan.pieces.map((it) => ({ ...it, name: `${it.name} ${n}` }));
  return { ...plan, pieces: [...plan.pieces, ...again(2), ...again(3)] };
};

/** All that the stripes of a piece say, places counted from its own first pick, turn and stripe. */
function stripesOf({ stripes, pieces, blocks }: Course, piece: number) {
  const { firstPick, firstBlock } = pieces[piece] ?? { firstPick: 0, firstBlock: 0 };
  const { firstStripe, stripes: count } = stripes.ofPieces[piece] ?? { firstStripe: 0, stripes: 0 };
  const firstTurn = blocks[firstBlock]?.firstTurn ?? 0;
  const along = (at: number) => (at < 0 ? at : at - firstStripe);
  return Array.from({ length: count }, (_, n) => {
    const r = firstStripe + n;
    return {
      yarn: stripes.yarn[r],
      firstPick: (stripes.firstPick[r] ?? 0) - firstPick,
      firstTurn: (stripes.firstTurn[r] ?? 0) - firstTurn,
      fromSide: stripes.fromSide[r],
      restSide: stripes.restSide[r],
      entry: stripes.entry[r],
      rest: stripes.rest[r],
      catchEvery: stripes.catchEvery[r],
      edge: stripes.edge[r],
      previous: along(stripes.previous[r] ?? 0),
      next: along(stripes.next[r] ?? 0),
    };
  });
}

/** The piece alone on its warp, with what the weaver changed of it. */
function alone(course: Course, piece: number): Course {
  const { plan, adjustments } = course;
  const { firstPick, picks } = course.pieces[piece] ?? { firstPick: 0, picks: 0 };
  const isHere = (pick: number) => pick >= firstPick && pick <= firstPick + picks;
  return layCourse(
    { ...plan, pieces: plan.pieces.slice(piece, piece + 1) },
    {
      ...NO_ADJUSTMENTS,
      shedFlips: adjustments.shedFlips.filter(isHere).map((at) => at - firstPick),
      sides: adjustments.sides
        .filter(({ pick }) => isHere(pick))
        .map((it) => ({ ...it, pick: it.pick - firstPick })),
      blocks: adjustments.blocks
        .filter((it) => it.piece === piece)
        .map((it) => ({ ...it, piece: 0 })),
    },
  );
}

const ascending = (numbers: readonly number[]) => numbers.toSorted((a, b) => a - b);

/** Changes anywhere, on the borders of the pieces too. */
const adjustments = (plan: Plan): fc.Arbitrary<Adjustments> => {
  const { picks, pieces } = layCourse(plan, NO_ADJUSTMENTS);
  const borders = pieces.map(({ firstPick }) => firstPick);
  const pick = fc.oneof(fc.nat(picks), fc.constantFrom(...borders));
  const side = fc.constantFrom<Side>('left', 'right');
  const found = fc.record({ pick, yarn: fc.nat(plan.yarns.length - 1), side });
  return fc.record({
    shedFlips: fc.uniqueArray(pick, { maxLength: 2 }).map(ascending),
    sides: fc
      .array(found, { maxLength: 2 })
      .map((sides) => sides.toSorted((a, b) => a.pick - b.pick)),
    blocks: fc.array(
      fc.record({ piece: fc.nat(pieces.length), block: fc.nat(3), picks: fc.nat(9) }),
      { maxLength: 1 },
    ),
    free: fc.constant([]),
  });
};

const changed = anyPlan.chain((plan) => {
  const set = sets(plan);
  return fc.record({ plan: fc.constant(set), adjustments: adjustments(set) });
});

describe('pieces woven alike', () => {
  it('have the stripes that each has alone on its warp, whatever was changed of them', () => {
    fc.assert(
      fc.property(changed, ({ plan, adjustments }) => {
        const course = layCourse(plan, adjustments);
        for (const piece of plan.pieces.keys()) {
          expect(stripesOf(course, piece)).toEqual(stripesOf(alone(course, piece), 0));
        }
      }),
    );
  });

  it('are taken from one another only where nothing was changed in either', () => {
    fc.assert(
      fc.property(changed, ({ plan, adjustments }) => {
        const course = layCourse(plan, adjustments);
        const likes = likesOf({ ...course, adjustments }, course.pieces);
        const first = course.pieces.slice(0, plan.pieces.length / 3);
        for (const piece of course.pieces) {
          const like = likes[piece.index];
          expect(like?.index ?? -1).toBeLessThan(piece.index);
          if (like !== undefined) expect(isAdjusted(adjustments, piece)).toBe(false);
        }
        const { pieces, plan: laid } = layCourse(plan, NO_ADJUSTMENTS);
        const untouched = likesOf({ ...course, plan: laid, adjustments: NO_ADJUSTMENTS }, pieces);
        // Each copy has one, and only copies.
        expect(untouched.filter((it) => it !== undefined).length).toBeGreaterThanOrEqual(
          2 * first.length,
        );
      }),
    );
  });
});
