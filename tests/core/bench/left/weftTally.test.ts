import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NO_ADJUSTMENTS } from '../../../../src/core/bench/adjustments.ts';
import { layCourse } from '../../../../src/core/bench/course.ts';
import {
  TUCKED_TAIL,
  tallyWeft,
  type WeftTally,
  weftBefore,
  weftBetween,
  weftOfPiece,
} from '../../../../src/core/bench/left/weftTally.ts';
import type { Plan } from '../../../../src/core/plan/plan.ts';
import { alternation, INCH, pieceOf, planOf, solid } from '../../plan/samples.ts';
import { cotton, exampleOf, YARD } from '../../planner/examples.ts';
import { anyPlan } from '../arbitraries.ts';
import { weave } from '../weaver.ts';

const tallyOf = (plan: Plan): WeftTally => tallyWeft(layCourse(plan, NO_ADJUSTMENTS));

/** 4 ends of a 12½ dent heddle: a pick lies 8.128 mm wide; every pick is 2.54 mm long. */
const PICK = (4 * INCH) / 12.5;

describe('the weft of a yarn up to a pick', () => {
  const plan = planOf({
    pieces: [
      pieceOf([solid('A', 4), alternation('B2 A2', { kind: 'turns', turns: 3 }), solid('A', 2)]),
    ],
  });
  // AAAA BB AA BB AA: A floats over two picks of B twice, B over two of A once.
  it.each([
    ['nothing is woven', 0, 0, 0],
    ['the first pick of A, with the tail to begin with', 1, 100 + PICK, 0],
    ['the last of the solid; A is carried and not cut', 4, 100 + 4 * PICK, 0],
    ['one of B', 5, 100 + 4 * PICK, 100 + PICK],
    ['A again, carried up past two picks of B', 7, 100 + 5 * PICK + 5.08, 100 + 2 * PICK],
    ['all of B, its end tucked in', 10, 100 + 6 * PICK + 5.08, 100 + 4 * PICK + 5.08 + 100],
    ['all', 12, 100 + 8 * PICK + 2 * 5.08 + 100, 100 + 4 * PICK + 5.08 + 100],
  ])('when %s', (_fact, pick, a, b) => {
    const tally = tallyOf(plan);
    expect(weftBefore(tally, 0, pick)).toBeCloseTo(a, 9);
    expect(weftBefore(tally, 1, pick)).toBeCloseTo(b, 9);
  });

  it('is 1222.2 yd for 100 in by 20 picks/in across 20 in and 10 % (comfortclothweaving.com), tails apart', () => {
    const towel = exampleOf({
      ends: 400,
      epi: 20,
      ppi: 20,
      lengths: [100],
      shares: { weftExtra: 0.1 },
    });
    const use = weftBetween(tallyOf(towel), 1, 0, 2000);
    expect(use.thrown / YARD).toBeCloseTo(1222.2, 1);
    expect(use).toMatchObject({ picks: 2000, carried: 0, tails: 200, stitching: 0 });
  });

  it('is 204 hanks of 840 yd for 84 yd of 60 picks/in across 34 in (Taylor, p. 436), tails apart', () => {
    const cloth = exampleOf({
      ends: 340,
      epi: 10,
      ppi: 60,
      lengths: [84 * 36],
      weft: cotton(20),
    });
    const { thrown, length, grams } = weftBetween(tallyOf(cloth), 1, 0, 84 * 36 * 60);
    expect(thrown / YARD / 840).toBeCloseTo(204, 9);
    // A hank of cotton count 1 is a pound by definition: 20s go 20 hanks to the pound.
    expect(grams / 453.59237).toBeCloseTo(length / YARD / 840 / 20, 9);
  });
});

describe('for any plan', () => {
  it('it is the sum of what a weaver takes by hand, pick by pick, from any pick to any other', () => {
    fc.assert(
      fc.property(anyPlan, fc.nat(400), fc.nat(400), (plan, one, other) => {
        const woven = walked(plan);
        const tally = tallyOf(plan);
        const [from, to] = [Math.min(one, other), Math.max(one, other)].map((n) =>
          Math.min(n, woven.length),
        ) as [number, number];
        for (const [yarn, { letter }] of plan.yarns.entries()) {
          const by = woven.slice(from, to).filter((it) => it.yarn === letter);
          const sum = (part: keyof Taken) => by.reduce((total, it) => total + it[part], 0);
          const use = weftBetween(tally, yarn, from, to);
          expect(use.picks).toBe(by.length);
          expect(use.carried).toBeCloseTo(sum('carried'), 6);
          expect(use.tails).toBeCloseTo(sum('tails'), 6);
          expect(use.stitching).toBeCloseTo(sum('stitching'), 6);
          expect(use.length).toBeCloseTo(
            sum('thrown') + sum('carried') + sum('tails') + sum('stitching'),
            6,
          );
          expect(weftBefore(tally, yarn, to) - weftBefore(tally, yarn, from)).toBeCloseTo(
            use.length,
            6,
          );
        }
      }),
      { numRuns: 60 },
    );
  });

  it('the pieces of a warp share out all of it', () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        const tally = tallyOf(plan);
        const pieces = tally.course.pieces.map((piece) => weftOfPiece(tally, piece));
        for (const yarn of plan.yarns.keys()) {
          const sum = pieces.reduce((total, uses) => total + (uses[yarn]?.length ?? 0), 0);
          expect(weftBefore(tally, yarn, tally.course.picks)).toBeCloseTo(sum, 6);
        }
      }),
    );
  });
});

interface Taken {
  readonly thrown: number;
  readonly carried: number;
  readonly tails: number;
  readonly stitching: number;
}

/** What every pick takes, thrown by the weaver who shares no code with the core. */
function walked(plan: Plan): readonly (Taken & { readonly yarn: string })[] {
  const ends = plan.warp.order.reduce((sum, it) => sum + (it.kind === 'solid' ? it.ends : 0), 0);
  const reed = (ends * INCH) / 12.5;
  const woven = weave(plan);
  return woven.map((pick, n) => {
    const edges = plan.pieces[pick.piece];
    const first = woven[n - 1]?.piece !== pick.piece && edges?.beginning.kind === 'hemstitch';
    const last = woven[n + 1]?.piece !== pick.piece && edges?.ending.kind === 'hemstitch';
    const starts = pick.coming?.entry === 'new' ? 1 : 0;
    const stops = pick.leaving?.rest === 'cut' || pick.leaving?.rest === 'ends' ? 1 : 0;
    const stitched = Number(first) + Number(last);
    return {
      yarn: pick.yarn,
      thrown: reed * (1 + plan.allowances.weftExtra.share),
      carried: pick.coming?.overLength ?? 0,
      tails: (starts + stops - stitched) * TUCKED_TAIL,
      stitching: stitched * plan.weaving.tailWidths * reed,
    };
  });
}
