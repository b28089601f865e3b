import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BobbinChange } from '../../../../src/core/bench/left/left.ts';
import { tallyWeft } from '../../../../src/core/bench/left/weftTally.ts';
import { windFor } from '../../../../src/core/bench/left/windFor.ts';
import { sheetOf } from '../../../../src/core/planner/sheet.ts';
import { alternation, INCH, planWeaving, solid } from '../../plan/samples.ts';
import { anyPlan } from '../arbitraries.ts';
import { courseOf, yarnContext } from './contexts.ts';

/** A pick lies over 4 dents of 1/12.5 in. */
const PICK = (4 * INCH) / 12.5;

/** 200 A, twenty turns of 2 B and 2 A, 100 A; then 60 B and 40 A. */
const PLAN = planWeaving(
  'ABC',
  [solid('A', 200), alternation('B2 A2', { kind: 'turns', turns: 20 }), solid('A', 100)],
  [solid('B', 60), solid('A', 40)],
);
const TALLY = tallyWeft(courseOf(PLAN));
const wind = (
  pick: number,
  yarn: number,
  span: 'block' | 'piece',
  bobbins: readonly BobbinChange[] = [],
) => windFor(TALLY, pick, yarn, span, yarnContext(PLAN, { bobbins }));

describe('what to wind', () => {
  it('is for the next block that takes the yarn, from the pick it begins with on', () => {
    // A starts with a tail and is carried on into the alternation.
    expect(wind(0, 0, 'block')).toMatchObject({ of: 0, from: 0, to: 200, bobbins: null });
    expect(wind(0, 0, 'block')?.length.mm).toBeCloseTo(100 + 200 * PICK, 6);
    // 20 picks of A in the alternation, carried ten times over two picks of 2.54 mm.
    expect(wind(1, 0, 'block')).toMatchObject({ of: 1, from: 200, to: 240 });
    expect(wind(1, 0, 'block')?.length.mm).toBeCloseTo(20 * PICK + 10 * 5.08, 6);
    // B begins and ends there: two tails, and nine floats.
    expect(wind(0, 1, 'block')).toMatchObject({ of: 1 });
    expect(wind(0, 1, 'block')?.length.mm).toBeCloseTo(200 + 20 * PICK + 9 * 5.08, 6);
    expect(wind(201, 1, 'block')).toMatchObject({ of: 3, from: 340, to: 400 });
  });

  it('for a piece is all it takes of the yarn, which is what the planner says', () => {
    const sheet = sheetOf(PLAN);
    for (const [piece, firstPick] of [0, 340].entries()) {
      for (const yarn of [0, 1]) {
        const told = wind(firstPick, yarn, 'piece');
        expect(told?.of).toBe(piece);
        expect(told?.length.mm).toBeCloseTo(sheet.pieces[piece]?.weft[yarn]?.length ?? 0, 6);
        expect(told?.grams.grams).toBeCloseTo(sheet.pieces[piece]?.weft[yarn]?.grams ?? 0, 9);
        expect(told?.length.high).toBeGreaterThan(told?.length.mm ?? 0);
      }
    }
  });

  it('is nothing where no later block or piece takes the yarn', () => {
    expect(wind(0, 2, 'piece')).toBeNull();
    expect(wind(341, 1, 'block')).toBeNull();
    expect(wind(341, 0, 'piece')).toBeNull();
  });

  it('goes by what weighings have taught', () => {
    const weighings = [
      { yarn: 0, pick: 0, net: 100, wound: true },
      { yarn: 0, pick: 100, net: 100 - (1.05 * (100 + 100 * PICK) * 295.27) / 1e6, wound: true },
    ];
    const told = windFor(TALLY, 100, 0, 'block', yarnContext(PLAN, { weighings }));
    const planned = wind(100, 0, 'block')?.length.mm ?? Number.NaN;
    expect(told?.length.mm).toBeGreaterThan(planned);
    expect(told?.length.mm).toBeLessThan(1.05 * planned);
  });
});

describe('a bobbin', () => {
  const changes = (...picks: readonly number[]) => picks.map((pick) => ({ yarn: 0, pick }));

  it.each<[string, readonly number[], number, number]>([
    ['one change: from the start to it', [60], 100 + 60 * PICK, 72],
    ['two: from change to change', [60, 110], 50 * PICK, 50],
    ['more: the middle one', [60, 110, 150, 199], 49 * PICK, 49],
    ['an even number: between the middle ones', [20, 60, 110], 45 * PICK, 45],
  ])('holds what was woven with it. %s', (_fact, picks, holds, lasts) => {
    const bobbins = wind(0, 0, 'block', changes(...picks))?.bobbins;
    expect(bobbins?.holds).toBeCloseTo(holds, 6);
    expect(bobbins?.picks).toBe(lasts);
    expect(bobbins?.count).toBe(Math.ceil((100 + 200 * PICK) / holds));
  });

  it('of another yarn teaches nothing', () => {
    expect(wind(0, 1, 'block', changes(60, 110))?.bobbins).toBeNull();
  });

  it('that holds just what the block takes is enough', () => {
    expect(wind(0, 0, 'block', changes(200))?.bobbins).toMatchObject({ picks: 212, count: 1 });
    expect(wind(0, 0, 'block', changes(199))?.bobbins?.count).toBe(2);
  });
});

describe('for any plan', () => {
  it('what is wound for each piece is what the planner says of it', () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        const tally = tallyWeft(courseOf(plan));
        const sheet = sheetOf(plan);
        for (const piece of tally.course.pieces) {
          for (const yarn of plan.yarns.keys()) {
            const length = sheet.pieces[piece.index]?.weft[yarn]?.length ?? 0;
            const told = windFor(tally, piece.firstPick, yarn, 'piece', yarnContext(plan));
            if (length === 0) expect(told?.of).not.toBe(piece.index);
            else
              expect([told?.of, told?.length.mm.toFixed(6)]).toEqual([
                piece.index,
                length.toFixed(6),
              ]);
          }
        }
      }),
      { numRuns: 60 },
    );
  });
});
