import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { asMeasured } from '../../../../src/core/bench/left/spreads.ts';
import { warpLeft } from '../../../../src/core/bench/left/warpLeft.ts';
import type { AllowanceOrigin, Plan } from '../../../../src/core/plan/plan.ts';
import { sheetOf } from '../../../../src/core/planner/sheet.ts';
import { BASE, checked, INCH, pieceOf, planOf, solid } from '../../plan/samples.ts';
import { exampleOf, YARD } from '../../planner/examples.ts';
import { anyPlan } from '../arbitraries.ts';
import { courseOf, tiedOnAsPlanned, warpContext, wovenByHand } from './contexts.ts';

/** 4 pieces of 34 in, take-up 13 in of 136, waste 31 in: 180 in in all (interweave.com). */
const FOUR = exampleOf({
  ends: 100,
  epi: 10,
  lengths: [34, 34, 34, 34],
  shares: { warpTaken: 13 / 136 },
  waste: 31,
});

function leftAt(plan: Plan, pick: number) {
  const course = courseOf(plan);
  return warpLeft(course, pick, warpContext(course, pick));
}

const TOLERANCE = 6;

describe('warp left', () => {
  it('of 180 in for four pieces of 34 in is 136 in at first, 34 in less with each (interweave.com)', () => {
    expect(tiedOnAsPlanned(FOUR).mm / INCH).toBeCloseTo(180, 9);
    for (const piece of [0, 1, 2, 3, 4]) {
      const { left, wanted, spare } = leftAt(FOUR, piece * 340);
      expect(left.mm / INCH).toBeCloseTo(136 - 34 * piece, TOLERANCE);
      expect(wanted.mm / INCH).toBeCloseTo(136 - 34 * piece, TOLERANCE);
      expect(spare.mm / INCH).toBeCloseTo(0, TOLERANCE);
    }
  });

  it('of 95 yd is cloth of 90 yd where take-up is 5.56 % of the cloth (Taylor, p. 245; D3883)', () => {
    const plan = exampleOf({
      ends: 10,
      epi: 10,
      lengths: [80 * 36],
      shares: { warpTaken: 5 / 90 },
    });
    const course = courseOf(plan);
    const tiedOn = { mm: 95 * YARD, sd: 0 };
    const at = (pick: number) => warpLeft(course, pick, warpContext(course, pick, { tiedOn }));
    expect(at(0).left.mm / YARD).toBeCloseTo(90, 9);
    expect(at(45 * 360).left.mm / YARD).toBeCloseTo(45, 9);
    expect(at(0).spare.mm / YARD).toBeCloseTo(10, 9);
  });

  it('counts a gap as passed with the first pick after it, and spares the same before and after', () => {
    const fringe = { kind: 'hemstitch', fringe: 50, twisted: false } as const;
    const stitched = pieceOf([solid('A', 100)], { beginning: fringe, ending: fringe });
    const plan = planOf({ pieces: [stitched, stitched] });
    const [before, after] = [leftAt(plan, 100), leftAt(plan, 101)];
    expect(before.parts.gaps).toBe(0);
    expect(after.parts.gaps).toBe(100);
    expect(before.left.mm - after.left.mm).toBeCloseTo(100 + 2.54, TOLERANCE);
    expect(before.spare.mm).toBeCloseTo(after.spare.mm, TOLERANCE);
    // At the end only the last fringe is still wanted.
    expect(leftAt(plan, 200).wanted.mm).toBeCloseTo(50, TOLERANCE);
  });

  it('out of the waste takes an outer fringe only where the waste does not cover it', () => {
    const ending = { kind: 'hemstitch', fringe: 350, twisted: false } as const;
    const beginning = { kind: 'plain', washedAllowance: 0 } as const;
    const weaving = { ...BASE.weaving, outerFringes: 'from-waste' as const };
    const plan = planOf({ weaving, pieces: [pieceOf([solid('A', 100)], { beginning, ending })] });
    // The plan's back waste of 300 mm grew to 350 for the fringe.
    expect(leftAt(plan, 0).parts.waste).toBe(200 + 350);
    expect(leftAt(plan, 100).wanted.mm).toBe(0);
  });

  it('is never below nought, while what it spares tells how much it is short', () => {
    const course = courseOf(FOUR);
    const tiedOn = { mm: 60 * INCH, sd: 0 };
    const { left, spare, parts } = warpLeft(course, 1000, warpContext(course, 1000, { tiedOn }));
    expect([left.mm, left.low]).toEqual([0, 0]);
    expect(parts.left).toBeLessThan(0);
    expect(spare.mm).toBeLessThan(-36 * INCH);
  });
});

describe('the interval of the warp left', () => {
  const spread = (from: AllowanceOrigin, tiedOn = asMeasured(180 * INCH)) => {
    const warpTaken = { share: 13 / 136, from };
    const plan = checked({ ...FOUR, allowances: { ...FOUR.allowances, warpTaken } });
    const course = courseOf(plan);
    return warpLeft(course, 0, warpContext(course, 0, { tiedOn })).left.sd;
  };

  it.each<[string, AllowanceOrigin, number]>([
    ['practice: 7 to 12 % is nine in ten', { kind: 'practice' }, 0.015],
    ['a figure of a source', { kind: 'source', name: 'a handbook' }, 0.015],
    ['a figure of the weaver', { kind: 'typed' }, 0.01],
    ['washed pieces, by their own spread', { kind: 'washed', pieces: 6, spread: 0.004 }, 0.004],
    ['washed pieces all alike', { kind: 'washed', pieces: 2, spread: 0 }, 0.0025],
  ])('goes by %s', (_fact, from, share) => {
    // 149 in of warp: its cloth by the slope of 1/(1 + t), and 28 mm of knots and shed beside 7 of tape.
    const taken = 1 + 13 / 136;
    const cloth = (149 * INCH * share) / taken ** 2;
    const tied = Math.hypot(20, 20, 5, 0.18 * INCH) / taken;
    expect(spread(from)).toBeCloseTo(Math.hypot(cloth, tied), 9);
  });

  it('is nine in ten: 1.645 standard deviations to either side', () => {
    const { left } = leftAt(FOUR, 0);
    expect(left.high - left.mm).toBeCloseTo(1.6449 * left.sd, 2);
    expect(left.mm - left.low).toBeCloseTo(left.high - left.mm, 9);
  });

  it('takes in how well the woven length and the beat ahead are known', () => {
    const course = courseOf(FOUR);
    const woven = wovenByHand(course, 510).map((mm) => ({ mm, low: mm, high: mm, sd: 6 }));
    const exact = warpLeft(course, 510, warpContext(course, 510));
    const loose = warpLeft(course, 510, warpContext(course, 510, { woven }));
    expect(loose.left.sd ** 2 - exact.left.sd ** 2).toBeCloseTo(4 * 36, 6);
    const ahead = (mm: number) => 0.03 * mm;
    const drifting = warpLeft(course, 510, warpContext(course, 510, { ahead }));
    expect(drifting.left.sd).toBe(exact.left.sd);
    const toCome = 85 * INCH;
    expect(drifting.wanted.sd).toBeCloseTo(0.03 * toCome, 6);
    expect(drifting.spare.sd ** 2 - exact.spare.sd ** 2).toBeCloseTo((0.03 * toCome) ** 2, 3);
  });
});

describe('whether the warp lasts', () => {
  const course = courseOf(FOUR);
  const reach = (pick: number, inches: number) =>
    warpLeft(course, pick, warpContext(course, pick, { tiedOn: { mm: inches * INCH, sd: 0 } }))
      .reach;

  it('is certain with much to spare and certain not with much too little', () => {
    expect(reach(0, 200)).toEqual({ kind: 'yes' });
    expect(reach(0, 180)).toMatchObject({ kind: 'maybe', likely: null });
    expect(reach(0, 179)).toMatchObject({ kind: 'maybe', likely: 1350 });
    expect(reach(0, 160).kind).toBe('no');
  });

  it('is told with the pick it fails at, and the picks until then', () => {
    // 160 in less 31 of waste are 129 of warp, 117.74 in of cloth: 1177 picks and no 1178th.
    expect(reach(0, 160)).toMatchObject({ likely: 1177 });
    expect(reach(500, 160)).toMatchObject({ likely: 1177 });
    const early = reach(500, 160);
    if (early.kind === 'yes') throw new Error('wanted a warning');
    expect(early.earliest).toBeLessThan(1177);
    expect(early.picks).toBe(early.earliest - 500);
  });

  it('is no question once all is woven', () => {
    expect(reach(1360, 150)).toEqual({ kind: 'yes' });
  });

  it('leaves room for the fringe of the piece it fails in', () => {
    const fringe = { kind: 'hemstitch', fringe: 100, twisted: false } as const;
    const beginning = { kind: 'plain', washedAllowance: 0 } as const;
    const plan = planOf({ pieces: [pieceOf([solid('A', 200)], { beginning, ending: fringe })] });
    const narrow = courseOf(plan);
    // 500 mm of waste, 100 of fringe, and cloth for 50 picks of 2.54 mm.
    const tiedOn = { mm: 500 + 100 + 50 * 2.54, sd: 0 };
    const { reach: told } = warpLeft(narrow, 0, warpContext(narrow, 0, { tiedOn }));
    expect(told).toMatchObject({ kind: 'no', likely: 50 });
  });
});

/** Plans whose warp takes up, with gaps and fringes that are their own or the waste's. */
const anyWarp = fc
  .record({
    plan: anyPlan,
    outerFringes: fc.constantFrom('own-warp' as const, 'from-waste' as const),
    cuttingAllowance: fc.constantFrom(0, 15),
    warpTaken: fc.constantFrom(0, 0.05, 0.1),
    share: fc.double({ min: 0, max: 1, noNaN: true }),
  })
  .map(({ plan, outerFringes, cuttingAllowance, warpTaken, share }) => ({
    plan: checked({
      ...plan,
      weaving: { ...plan.weaving, outerFringes, cuttingAllowance },
      allowances: {
        ...plan.allowances,
        warpTaken: { share: warpTaken, from: { kind: 'practice' } },
      },
    }),
    share,
  }));

describe('the pick a warp fails at', () => {
  /** A drifting beat: its length ahead grows less certain faster than it grows. */
  const drifting = (mm: number) => Math.hypot(0.02 * mm, 0.0006 * mm ** 1.5);

  it('is never told too late, and hardly too early, though the beat is asked only here and there', () => {
    fc.assert(
      fc.property(fc.integer({ min: 150, max: 185 }), fc.nat(1300), (inches, pick) => {
        const course = courseOf(FOUR);
        let asked = 0;
        const tiedOn = { mm: inches * INCH, sd: 0 };
        const ahead = (mm: number) => {
          asked++;
          return drifting(mm);
        };
        const { reach } = warpLeft(course, pick, warpContext(course, pick, { tiedOn, ahead }));
        expect(asked).toBeLessThanOrEqual(9);
        const exact = earliestByHand(pick, tiedOn.mm);
        if (reach.kind === 'yes') expect(exact).toBeNull();
        else {
          expect(reach.earliest).toBeLessThanOrEqual(exact ?? Number.NaN);
          expect((exact ?? Number.NaN) - reach.earliest).toBeLessThanOrEqual(4);
        }
      }),
    );
  });

  /** The bad end of the interval at every pick of FOUR, ten to the inch, without gaps or fringes. */
  function earliestByHand(pick: number, tiedOn: number): number | null {
    const taken = 1 + 13 / 136;
    const weavable = (tiedOn - 31 * INCH) / taken;
    for (let n = pick; n < 1360; n++) {
      const ahead = (n + 1 - pick) * 2.54;
      const sd = Math.hypot((weavable * 0.01) / taken, Math.hypot(20, 20) / taken, drifting(ahead));
      if (weavable - pick * 2.54 - ahead - 1.6448536 * sd < 0) return n;
    }
    return null;
  }
});

describe('for any plan', () => {
  it('wasted, woven, left between pieces and left over are the warp tied on', () => {
    fc.assert(
      fc.property(anyWarp, ({ plan, share }) => {
        const course = courseOf(plan);
        const pick = Math.round(share * course.picks);
        const { parts, left } = warpLeft(course, pick, warpContext(course, pick));
        expect(parts.waste + parts.woven + parts.gaps + parts.left).toBeCloseTo(parts.tiedOn, 6);
        expect(left.mm * (1 + plan.allowances.warpTaken.share)).toBeCloseTo(parts.left, 6);
      }),
    );
  });

  it('what the planner rounds up is what the warp spares, at every pick', () => {
    fc.assert(
      fc.property(anyWarp, ({ plan, share }) => {
        const course = courseOf(plan);
        const pick = Math.round(share * course.picks);
        const { exact, wound } = sheetOf(plan).warpLength;
        const { spare, left, wanted } = warpLeft(course, pick, warpContext(course, pick));
        const over = (wound - exact) / (1 + plan.allowances.warpTaken.share);
        expect(spare.mm).toBeCloseTo(over, 6);
        expect(left.mm - wanted.mm).toBeCloseTo(spare.mm, 6);
      }),
    );
  });

  it('the pick it fails at is the first that a warp taken up pick by pick is too short for', () => {
    let failed = 0;
    fc.assert(
      fc.property(
        anyWarp,
        fc.double({ min: 0.3, max: 1, noNaN: true }),
        ({ plan, share }, tied) => {
          const course = courseOf(plan);
          const pick = Math.round(share * course.picks);
          const tiedOn = { mm: tied * sheetOf(plan).warpLength.exact, sd: 0 };
          const context = warpContext(course, pick, { tiedOn });
          const { reach } = warpLeft(course, pick, context);
          const byHand = failsByHand(plan, tiedOn.mm, pick);
          const likely = reach.kind === 'yes' ? null : reach.likely;
          expect(likely).toBe(byHand);
          if (byHand !== null) failed++;
          if (reach.kind === 'yes' || reach.likely === null) return;
          expect(reach.earliest).toBeLessThanOrEqual(reach.likely);
        },
      ),
      { numRuns: 200 },
    );
    expect(failed).toBeGreaterThan(50);
  });
});

/** Walks on from a pick with what is left of the warp; the first pick it cannot throw, else null. */
function failsByHand(plan: Plan, tiedOn: number, pick: number): number | null {
  const course = courseOf(plan);
  const shares = plan.allowances;
  const ofEdge = (edge: Plan['pieces'][number]['ending']) =>
    edge.kind === 'hemstitch'
      ? edge.fringe /
        (edge.twisted ? 1 - shares.twist.share : 1) /
        (1 - shares.relax.share) /
        (1 - shares.shrinkLength.share)
      : 0;
  const own = plan.weaving.outerFringes === 'own-warp';
  const [first, last] = [plan.pieces[0], plan.pieces.at(-1)];
  if (first === undefined || last === undefined) return null;
  const front = own
    ? plan.loom.frontTieOn + ofEdge(first.beginning)
    : Math.max(plan.loom.frontTieOn, ofEdge(first.beginning));
  const back = own ? plan.loom.backWaste : Math.max(plan.loom.backWaste, ofEdge(last.ending));
  let left = tiedOn - front - back;
  let piece = 0;
  for (let n = 0; n < course.picks; n++) {
    const at = course.pieces.findIndex((it) => n >= it.firstPick && n < it.firstPick + it.picks);
    for (; piece < at; piece++) {
      const [here, next] = [plan.pieces[piece], plan.pieces[piece + 1]];
      if (here === undefined || next === undefined) return null;
      left -= ofEdge(here.ending) + ofEdge(next.beginning) + plan.weaving.cuttingAllowance;
    }
    left -= (spacingAt(course, n) ?? 0) * (1 + shares.warpTaken.share);
    const ending = ofEdge(plan.pieces[piece]?.ending ?? last.ending);
    const fringe = own ? ending : Math.max(0, ending - back);
    if (left - fringe < -1e-6 && n >= pick) return n;
  }
  return null;
}

function spacingAt(course: ReturnType<typeof courseOf>, pick: number): number | undefined {
  const { turns } = course;
  for (let turn = 0; turn < turns.count; turn++) {
    if (pick < (turns.firstPick[turn + 1] ?? 0)) return turns.spacing[turn];
  }
  return undefined;
}
