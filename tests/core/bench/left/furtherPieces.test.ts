import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { furtherPieces } from '../../../../src/core/bench/left/furtherPieces.ts';
import { warpLeft } from '../../../../src/core/bench/left/warpLeft.ts';
import { tallyWeft } from '../../../../src/core/bench/left/weftTally.ts';
import { yarnLeft } from '../../../../src/core/bench/left/yarnLeft.ts';
import type { Plan } from '../../../../src/core/plan/plan.ts';
import { sheetOf } from '../../../../src/core/planner/sheet.ts';
import { pieceOf, planOf, solid } from '../../plan/samples.ts';
import { anyPlan } from '../arbitraries.ts';
import { courseOf, warpContext, yarnContext } from './contexts.ts';

function furtherOf(plan: Plan, pick: number, like: number, tiedOn: number) {
  const course = courseOf(plan);
  const tied = { tiedOn: { mm: tiedOn, sd: 0 } };
  const context = { ...warpContext(course, pick, tied), ...yarnContext(plan, tied) };
  return furtherPieces(tallyWeft(course), pick, like, context);
}

const withHand = (plan: Plan, ...grams: readonly (number | null)[]): Plan => ({
  ...plan,
  yarns: plan.yarns.map((yarn, i) => {
    const onHand = grams[i] ?? null;
    return onHand === null ? yarn : { ...yarn, onHand };
  }),
});

const FRINGE = { kind: 'hemstitch', fringe: 50, twisted: false } as const;
/** A piece of 254 mm between fringes of 50: with its gap of 100 it asks for 354 mm of warp. */
const PIECE = pieceOf([solid('A', 50), solid('B', 50)], { beginning: FRINGE, ending: FRINGE });
const ONE = planOf({ pieces: [PIECE] });
/** Its own warp: waste of 500 mm, two fringes and the cloth. */
const TIED_ON = 500 + 100 + 254;

describe('further pieces', () => {
  it.each([
    ['none on the warp as it is', 0, 0],
    ['none with less than a piece and its gap', 353, 0],
    ['one with just that', 354, 1],
    ['two with twice that', 708, 2],
  ])('by the warp: %s', (_fact, more, wanted) => {
    const told = furtherOf(withHand(ONE, 5000, 5000), 0, 0, TIED_ON + more);
    expect(told).toMatchObject({ more: wanted, limitedBy: { kind: 'warp' }, unweighed: [] });
    expect(told.sure).toBeLessThanOrEqual(wanted);
  });

  it('by the yarn that runs out first', () => {
    const need = sheetOf(ONE).pieces[0]?.weft[1]?.grams ?? Number.NaN;
    const told = furtherOf(withHand(ONE, 5000, 3.5 * need), 0, 0, 20_000);
    expect(told).toMatchObject({ more: 2, limitedBy: { kind: 'yarn', yarn: 1 } });
  });

  it('by the warp alone where a yarn is not weighed, which is said', () => {
    const told = furtherOf(withHand(ONE, 5000, null), 0, 0, TIED_ON + 1000);
    expect(told).toMatchObject({ more: 2, limitedBy: { kind: 'warp' }, unweighed: [1] });
  });

  it('are none where the plan itself is short', () => {
    expect(furtherOf(withHand(ONE, 5000, 0.001), 0, 0, 20_000)).toMatchObject({
      more: 0,
      sure: 0,
      limitedBy: { kind: 'yarn', yarn: 1 },
    });
  });

  it('are as many at the end of the warp as at its beginning', () => {
    const plan = withHand(ONE, 5000, 5000);
    const [first, last] = [0, 100].map((pick) => furtherOf(plan, pick, 0, TIED_ON + 3000));
    expect(last?.more).toBe(first?.more);
    expect(last?.more).toBe(8);
  });
});

describe('for any plan', () => {
  it('so many more woven after the last are spared, and one more is not', () => {
    let told = 0;
    fc.assert(
      fc.property(
        anyPlan,
        fc.nat(2),
        fc.integer({ min: 0, max: 1500 }),
        fc.double({ min: 0.9, max: 6, noNaN: true }),
        (any, nth, extra, part) => {
          const needs = sheetOf(any);
          const tiedOn = needs.warpLength.exact + extra;
          const sheet = needs.yarns.map((it) => it.warp.ends);
          const plan = withHand(
            any,
            ...needs.yarns.map((it, i) => {
              const warp = ((sheet[i] ?? 0) * tiedOn * it.warp.grams) / (it.warp.length || 1);
              return warp + part * it.weft.grams + 1e-4;
            }),
          );
          const like = nth % plan.pieces.length;
          const { more, sure, limitedBy } = furtherOf(plan, 0, like, tiedOn);
          expect(sure).toBeLessThanOrEqual(more);
          if (more > 40) return;
          const enough = (k: number) => shortBy(withMore(plan, like, k), tiedOn);
          if (more > 0) {
            told++;
            expect(enough(more)).toEqual([]);
          }
          const short = enough(more + 1);
          expect(short).toContain(limitedBy.kind === 'warp' ? 'warp' : limitedBy.yarn);
        },
      ),
      { numRuns: 150 },
    );
    expect(told).toBeGreaterThan(20);
  });
});

function withMore(plan: Plan, like: number, more: number): Plan {
  const same = plan.pieces[like];
  if (same === undefined) throw new Error('no such piece');
  return { ...plan, pieces: [...plan.pieces, ...Array.from({ length: more }, () => same)] };
}

/** What a plan is short of, pieces laid out one after the other. */
function shortBy(plan: Plan, tiedOn: number): readonly (number | 'warp')[] {
  const course = courseOf(plan);
  const tied = { tiedOn: { mm: tiedOn, sd: 0 } };
  const { spare } = warpLeft(course, 0, warpContext(course, 0, tied));
  const tally = tallyWeft(course);
  const yarns = [...plan.yarns.keys()].filter(
    (yarn) => (yarnLeft(tally, 0, yarn, yarnContext(plan, tied)).spare?.grams ?? 0) < -1e-9,
  );
  return [...(spare.mm < -1e-6 ? (['warp'] as const) : []), ...yarns];
}
