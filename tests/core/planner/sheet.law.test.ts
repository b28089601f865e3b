import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NO_ADJUSTMENTS } from '../../../src/core/bench/adjustments.ts';
import { layCourse } from '../../../src/core/bench/course.ts';
import { TUCKED_TAIL, type WeftUse } from '../../../src/core/bench/left/weftTally.ts';
import { pickAt } from '../../../src/core/bench/pickAt.ts';
import type { Piece, Plan } from '../../../src/core/plan/plan.ts';
import { type PlanSheet, sheetOf } from '../../../src/core/planner/sheet.ts';
import { anyPlan } from '../bench/arbitraries.ts';
import { blocksByHand, picksByHand } from '../bench/layByHand.ts';
import { checked } from '../plan/samples.ts';
import { anyOrder } from './orders.ts';

const PARTS = ['picks', 'thrown', 'carried', 'tails', 'stitching', 'length', 'grams'] as const;

/** Plans of several pieces over a warp of stripes, fringes from their own warp or from the waste. */
const planned: fc.Arbitrary<Plan> = fc
  .record({
    plan: anyPlan,
    order: anyOrder(['A', 'B']),
    outerFringes: fc.constantFrom('own-warp' as const, 'from-waste' as const),
    cuttingAllowance: fc.constantFrom(0, 15),
    weftExtra: fc.constantFrom(0, 0.07),
    warpTaken: fc.constantFrom(0, 0.1),
    floats: fc.boolean(),
  })
  .map(({ plan, order, outerFringes, cuttingAllowance, weftExtra, warpTaken, floats }) => {
    const typed = (share: number) => ({ share, from: { kind: 'typed' as const } });
    const floating = floats ? { floatingSelvedges: { yarn: 'B' } } : {};
    return checked({
      ...plan,
      loom: { ...plan.loom, weavingWidth: 100_000 },
      warp: { ...plan.warp, order, ...floating },
      weaving: { ...plan.weaving, outerFringes, cuttingAllowance },
      allowances: {
        ...plan.allowances,
        weftExtra: typed(weftExtra),
        warpTaken: typed(warpTaken),
      },
    });
  });

const sumOf = (numbers: readonly number[]) => numbers.reduce((sum, n) => sum + n, 0);

function alone(plan: Plan, piece: Piece): PlanSheet {
  return sheetOf({ ...plan, pieces: [piece] });
}

describe('for any plan', () => {
  it('the weft a yarn gives is the sum of what it gives to each piece woven by itself', () => {
    fc.assert(
      fc.property(planned, (plan) => {
        const { yarns } = sheetOf(plan);
        const singles = plan.pieces.map((piece) => alone(plan, piece));
        for (const { yarn, weft } of yarns) {
          for (const part of PARTS) {
            const sum = sumOf(singles.map((it) => it.yarns[yarn]?.weft[part] ?? 0));
            expect(weft[part]).toBeCloseTo(sum, 6);
          }
        }
      }),
      { numRuns: 60 },
    );
  });

  it('the warp is the sum of its pieces, each by itself, and the waste only once', () => {
    fc.assert(
      fc.property(planned, (plan) => {
        const { warpLength: whole, pieces } = sheetOf(plan);
        const singles = plan.pieces.map((piece) => alone(plan, piece).warpLength);
        expect(whole.woven).toBeCloseTo(sumOf(singles.map((it) => it.woven)), 6);
        expect(whole.gaps).toBeCloseTo(sumOf(pieces.map((it) => it.gapAfter)), 6);
        expect([whole.front, whole.firstFringe]).toEqual([
          singles[0]?.front,
          singles[0]?.firstFringe,
        ]);
        expect([whole.back, whole.lastFringe]).toEqual([
          singles.at(-1)?.back,
          singles.at(-1)?.lastFringe,
        ]);
        const { front, woven, gaps, firstFringe, lastFringe, back, exact, wound } = whole;
        expect(front + woven + gaps + firstFringe + lastFringe + back).toBeCloseTo(exact, 6);
        const step = plan.units === 'inch' ? 228.6 : 100;
        expect(wound).toBeGreaterThanOrEqual(exact - 1e-6);
        expect(wound - exact).toBeLessThan(step);
        expect(Math.abs(wound / step - Math.round(wound / step))).toBeLessThan(1e-9);
      }),
      { numRuns: 60 },
    );
  });

  it('ends of the yarns sum to the ends, picks of the yarns to the picks', () => {
    fc.assert(
      fc.property(planned, (plan) => {
        const sheet = sheetOf(plan);
        const { ends, endsOfYarn, runs, floatingEnds } = sheet.warp;
        expect(sumOf(endsOfYarn)).toBe(ends);
        expect(sumOf(runs.map((run) => run.count))).toBe(ends);
        expect(sumOf(sheet.yarns.map((it) => it.warp.ends))).toBe(ends + floatingEnds);
        for (const piece of sheet.pieces) {
          expect(sumOf(piece.weft.map((use) => use.picks))).toBe(piece.picks);
        }
      }),
    );
  });

  it('the weft of a piece is what walking it pick by pick comes to', () => {
    fc.assert(
      fc.property(planned, (plan) => {
        const sheet = sheetOf(plan);
        for (const piece of sheet.pieces) {
          const walked = walkedWeft(plan, piece.piece, sheet.widths.reed);
          for (const [yarn, use] of piece.weft.entries()) {
            for (const part of ['picks', 'thrown', 'carried', 'tails', 'stitching'] as const) {
              expect(use[part]).toBeCloseTo(walked[yarn]?.[part] ?? 0, 6);
            }
          }
        }
      }),
      { numRuns: 60 },
    );
  });

  it('a piece reads the same from both ends when its picks do, hems left out', () => {
    fc.assert(
      fc.property(planned, (plan) => {
        for (const { piece, mirrored } of sheetOf(plan).pieces) {
          const woven = blocksByHand(plan, piece).filter((block) => block.plan !== null);
          const picks = picksByHand(woven).map((pick) => pick.yarn);
          expect(mirrored).toBe(picks.join('') === picks.toReversed().join(''));
        }
      }),
      { numRuns: 200 },
    );
  });

  it('inches and centimetres give the same sheet, but for the step the warp is rounded to', () => {
    fc.assert(
      fc.property(planned, (plan) => {
        const { count, made } = plan.loom.dents;
        const per10cm = (dents: number) => (dents * 100) / 25.4;
        const dents = {
          count: per10cm(count),
          per: '10cm',
          ...(made === undefined ? {} : { made: per10cm(made) }),
        };
        const metric = checked({ ...plan, units: 'metric', loom: { ...plan.loom, dents } });
        const [inch, cm] = [{ ...plan, units: 'inch' as const }, metric].map(figures);
        expect(Object.keys(inch ?? {}).length).toBeGreaterThan(50);
        expect(inch).toEqual(cm);
      }),
      { numRuns: 60 },
    );
  });

  it('a square metre weighs what warp and weft in it weigh, however it is cut into pieces', () => {
    fc.assert(
      fc.property(planned, (plan) => {
        const { cloth, pieces, widths } = sheetOf(plan);
        const washed = pieces.map((it) => it.washedLength * widths.washed);
        const grams = pieces.map((it, i) => (it.gramsPerSquareMetre * (washed[i] ?? 0)) / 1e6);
        expect(cloth.area).toBeCloseTo(sumOf(washed), 3);
        expect(cloth.grams).toBeCloseTo(sumOf(grams), 6);
        expect((cloth.gramsPerSquareMetre * cloth.area) / 1e6).toBeCloseTo(cloth.grams, 6);
      }),
      { numRuns: 60 },
    );
  });
});

type Walked = Record<'picks' | 'thrown' | 'carried' | 'tails' | 'stitching', number>;

/** The same sums from what the bench says at every single pick. */
function walkedWeft(plan: Plan, index: number, reed: number): readonly Walked[] {
  const course = layCourse(plan, NO_ADJUSTMENTS);
  const piece = course.pieces[index];
  const none = { picks: 0, thrown: 0, carried: 0, tails: 0, stitching: 0 };
  const walked = plan.yarns.map((): Walked => ({ ...none }));
  const first = piece?.firstPick ?? 0;
  const last = first + (piece?.picks ?? 0) - 1;
  const it = plan.pieces[index];
  for (let n = first; n <= last; n++) {
    const facts = pickAt(course, n);
    const of = walked[facts?.yarn ?? -1];
    if (facts === null || of === undefined) throw new Error(`no pick ${n}`);
    of.picks += 1;
    of.thrown += reed * (1 + plan.allowances.weftExtra.share);
    const starts = facts.coming?.entry === 'new';
    const rest = facts.leaving?.rest;
    if (rest === 'float' || rest === 'catch') of.carried += facts.leaving?.overLength ?? 0;
    const stops = rest === 'cut' || rest === 'ends';
    const stitched = [
      n === first && it?.beginning.kind === 'hemstitch',
      n === last && it?.ending.kind === 'hemstitch',
    ].filter(Boolean).length;
    of.stitching += stitched * plan.weaving.tailWidths * reed;
    of.tails += (Number(starts) + Number(stops) - stitched) * TUCKED_TAIL;
  }
  return walked;
}

/** Every number of a sheet by its path, to six digits, without those that follow the rounding. */
function figures(plan: Plan): Readonly<Record<string, string>> {
  const sheet = sheetOf(plan);
  const yarns = sheet.yarns.map(({ weft }): { weft: WeftUse } => ({ weft }));
  const { wound: _rounded, ...warpLength } = sheet.warpLength;
  const found: Record<string, string> = {};
  const visit = (value: unknown, path: string): void => {
    if (typeof value === 'object' && value !== null) {
      for (const [key, it] of Object.entries(value)) visit(it, `${path}.${key}`);
      return;
    }
    // A nought of either sign and a nearly nought are one.
    const number = typeof value === 'number' ? value + 0 : null;
    found[path] = number === null ? String(value) : (Math.round(number * 1e6) / 1e6 + 0).toString();
  };
  const { further: _counted, ...rest } = sheet;
  visit({ ...rest, yarns, warpLength }, '');
  return found;
}
