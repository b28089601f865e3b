import { describe, expect, it } from 'vitest';
import { UNITS } from '../../../src/core/measure/length.ts';
import { checkPlan } from '../../../src/core/plan/checkPlan.ts';
import { ALLOWANCE_NAMES, LOOM_KINDS } from '../../../src/core/plan/plan.ts';
import { copyOfPiece, newPlan } from '../../../src/core/planner/newPlan.ts';
import { sheetOf } from '../../../src/core/planner/sheet.ts';
import { BASE, checked, demo, INCH, pieceOf, planOf, solid } from '../plan/samples.ts';

const KINDS = UNITS.flatMap((units) => LOOM_KINDS.map((loom) => [units, loom] as const));

describe('a new plan', () => {
  it.each(KINDS)('in %s for a %s loom can be woven as it is', (units, loom) => {
    const plan = newPlan(units, loom);
    expect(checkPlan(plan)).toMatchObject({ ok: true });
    const sheet = sheetOf(plan);
    expect(sheet.dents.fits).toBe(true);
    expect(sheet.warnings).toEqual([]);
    expect(sheet.advice.verdict).toBe('within');
    expect(sheet.pieces[0]?.mirrored).toBe(true);
    expect(Math.abs(sheet.pieces[0]?.wish?.miss ?? 99)).toBeLessThan(5);
  });

  it.each(KINDS)('in %s for a %s loom has shares within the ranges of practice', (units, loom) => {
    const { allowances, weaving } = newPlan(units, loom);
    const within = (share: number, from: number, to: number) => {
      expect(share).toBeGreaterThanOrEqual(from);
      expect(share).toBeLessThanOrEqual(to);
    };
    within(allowances.drawIn.share, 0.03, 0.07);
    within(allowances.shrinkWidth.share, 0.06, 0.11);
    within(allowances.shrinkLength.share, 0.06, 0.11);
    within(allowances.warpTaken.share, 0.07, 0.12);
    within(allowances.weftExtra.share, 0.05, 0.1);
    within(allowances.twist.share, 0.1, 0.15);
    within(weaving.tailWidths, 3, 4);
    within(weaving.picksBeforeStitching, 3, 5);
    within(weaving.carryLimit, 20, INCH);
    for (const name of ALLOWANCE_NAMES) expect(allowances[name].from.kind).toBe('practice');
  });

  it.each([
    ['rigid-heddle', 18, 24],
    ['shaft', 27, 36],
  ] as const)('for a %s loom has %d to %d in of waste (practice)', (kind, from, to) => {
    for (const units of UNITS) {
      const { loom } = newPlan(units, kind);
      const inches = (loom.frontTieOn + loom.backWaste) / INCH;
      expect(inches).toBeGreaterThanOrEqual(from);
      expect(inches).toBeLessThanOrEqual(to);
    }
  });

  it.each(UNITS)('has round figures in %s', (units) => {
    for (const kind of LOOM_KINDS) {
      const { loom, pieces, weaving } = newPlan(units, kind);
      const sizes = [loom.weavingWidth, loom.frontTieOn, loom.backWaste, pieces[0]?.wish?.length];
      for (const mm of [...sizes, weaving.carryLimit]) {
        const steps = (mm ?? Number.NaN) / (units === 'inch' ? INCH : 5);
        expect(Math.abs(steps - Math.round(steps))).toBeLessThan(1e-9);
      }
    }
  });

  it('has an even number of ends, for direct warping lays them by twos', () => {
    for (const [units, loom] of KINDS) expect(sheetOf(newPlan(units, loom)).warp.ends % 2).toBe(0);
  });
});

describe('a copy of a piece', () => {
  const named = (...names: string[]) =>
    planOf({ pieces: names.map((name) => ({ ...pieceOf([solid('A', 4)]), name })) });
  const names = (plan: typeof BASE) => plan.pieces.map((piece) => piece.name);

  it.each([
    [['Towel 1'], 0, ['Towel 1', 'Towel 2']],
    [['Towel'], 0, ['Towel', 'Towel 2']],
    [['Towel 1', 'Towel 2', 'Runner'], 0, ['Towel 1', 'Towel 3', 'Towel 2', 'Runner']],
    [['Towel 1', 'Runner'], 1, ['Towel 1', 'Runner', 'Runner 2']],
    [['7'], 0, ['7', '7 2']],
  ])('of %j, number %d, makes %j', (before, piece, after) => {
    expect(names(copyOfPiece(named(...before), piece))).toEqual(after);
  });

  it('is the same but for its name, and the plan passes its check with the longest of names', () => {
    const long = named('x'.repeat(120));
    expect(checked(copyOfPiece(long, 0)).pieces).toHaveLength(2);
    const plan = checked(demo('moss-and-chalk'));
    const copied = copyOfPiece(plan, 1);
    expect(copied.pieces[2]).toEqual({ ...plan.pieces[1], name: copied.pieces[2]?.name });
    expect(copied.pieces.slice(0, 2)).toEqual(plan.pieces);
  });

  it('of a piece that is not there is our own fault', () => {
    expect(() => copyOfPiece(BASE, 3)).toThrow(/got 3/);
  });
});
