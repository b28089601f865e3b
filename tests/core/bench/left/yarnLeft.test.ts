import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { YarnContext, YarnWeighing } from '../../../../src/core/bench/left/left.ts';
import { tallyWeft, weftBefore } from '../../../../src/core/bench/left/weftTally.ts';
import { yarnLeft } from '../../../../src/core/bench/left/yarnLeft.ts';
import { progressOf } from '../../../../src/core/bench/progress.ts';
import type { Plan } from '../../../../src/core/plan/plan.ts';
import { sheetOf } from '../../../../src/core/planner/sheet.ts';
import { useOfYarns } from '../../../../src/core/planner/shelfUse.ts';
import { BASE, INCH, pieceOf, planOf, solid, yarns } from '../../plan/samples.ts';
import { exampleOf, stripesOf } from '../../planner/examples.ts';
import { anyPlan } from '../arbitraries.ts';
import { logged, thrown } from '../logs.ts';
import { courseOf, yarnContext } from './contexts.ts';

function leftOf(plan: Plan, pick: number, yarn: number, changes: Partial<YarnContext> = {}) {
  return yarnLeft(tallyWeft(courseOf(plan)), pick, yarn, yarnContext(plan, changes));
}

const withHand = (plan: Plan, ...grams: readonly number[]): Plan => ({
  ...plan,
  yarns: plan.yarns.map((yarn, i) => {
    const onHand = grams[i];
    return onHand === undefined ? yarn : { ...yarn, onHand };
  }),
});

const weighing = (yarn: number, pick: number, net: number, wound = true): YarnWeighing => ({
  yarn,
  pick,
  net,
  wound,
});

/** A yarn of 1 g a metre and 1000 mm between the selvedges: grams are picks, and a tail is 0.1 g. */
const METRE_A_GRAM = { system: 'tex', number: 1000, plies: 1 } as const;
const wide = (...wefts: readonly number[]): Plan =>
  planOf({
    loom: {
      ...BASE.loom,
      dents: { count: 100, per: '10cm' },
      weavingWidth: 1000,
      frontTieOn: 0,
      backWaste: 0,
    },
    yarns: yarns('AB').map((yarn) => ({ ...yarn, count: METRE_A_GRAM })),
    warp: { ...BASE.warp, order: stripesOf('A1000') },
    weaving: { ...BASE.weaving, pickSpacing: 1 },
    pieces: wefts.map((picks) => pieceOf([solid('B', picks), solid('A', 2)])),
  });

describe('yarn left', () => {
  it('of a 500 g cone is 285.1 g less once 22 in at 24 epi are wound 4 yd long at 3360 yd/lb (measuredthreads.com)', () => {
    const plan = exampleOf({
      ends: 528,
      epi: 24,
      lengths: [10],
      warp: { system: 'ydPerLb', number: 3360, plies: 1 },
    });
    const tiedOn = { mm: 4 * 36 * INCH, sd: 0 };
    const { left, used } = leftOf(withHand(plan, 500), 0, 0, { tiedOn });
    expect(used.warp.grams).toBeCloseTo(285.1, 1);
    expect(left?.grams.grams).toBeCloseTo(500 - 285.1, 1);
  });

  it('of 1500 yd of weft is 277.8 yd less two tails once 100 in are woven of 1222.2 (comfortclothweaving.com)', () => {
    const yard = 36 * INCH;
    const plan = exampleOf({
      ends: 400,
      epi: 20,
      ppi: 20,
      lengths: [100],
      shares: { weftExtra: 0.1 },
      weft: { system: 'ydPerLb', number: 1500, plies: 1 },
    });
    const { left } = leftOf(withHand(plan, 0, 453.59237), 2000, 1);
    expect(((left?.length.mm ?? 0) + 200) / yard).toBeCloseTo(277.8, 1);
  });

  // Ten picks of B, two of A; then twenty of B and two of A.
  it.each([
    ['at first', 0, 100, [10.2, 10.2, 30.4]],
    ['after the first pick and its tail', 1, 98.9, [9.1, 9.1, 29.3]],
    ['in the middle of its block', 5, 94.9, [5.1, 5.1, 25.3]],
    ['when it is cut, in a block of another', 10, 89.8, [0, 0, 20.2]],
    ['in the next piece', 13, 88.7, [19.1, 19.1, 19.1]],
    ['at the end', 34, 69.6, [0, 0, 0]],
  ] as const)(
    '%s is what hands would count, and so is what is wanted',
    (_fact, pick, left, wanted) => {
      const told = leftOf(withHand(wide(10, 20), 5000, 100), pick, 1);
      expect(told.left?.grams.grams).toBeCloseTo(left, 9);
      expect(told.left?.length.mm).toBeCloseTo(1000 * left, 6);
      expect(told.used.weft.grams).toBeCloseTo(100 - left, 9);
      const { block, piece, warp } = told.wanted;
      for (const [i, span] of [block, piece, warp].entries()) {
        expect(span.grams.grams).toBeCloseTo(wanted[i] ?? Number.NaN, 9);
        expect(span.length.mm).toBeCloseTo(1000 * (wanted[i] ?? Number.NaN), 6);
      }
      expect(told.spare?.grams).toBeCloseTo(69.6, 9);
      expect(told.perPick.grams).toBeCloseTo(1, 9);
    },
  );

  it('is unknown while nobody said or weighed it, and lasts where nothing is wanted of it', () => {
    const unknown = leftOf(wide(10), 0, 1);
    expect([unknown.left, unknown.spare, unknown.reach]).toEqual([null, null, null]);
    expect(unknown.wanted.warp.grams.grams).toBeCloseTo(10.2, 9);
    expect(leftOf(wide(10), 12, 1).reach).toEqual({ kind: 'yes' });
    expect(
      leftOf(wide(10), 5, 1, { weighings: [weighing(1, 0, 40)] }).left?.grams.grams,
    ).toBeCloseTo(40 - 5.1, 9);
  });

  it('is never below nought; what it spares tells how much is short', () => {
    const told = leftOf(withHand(wide(100), 5000, 40), 80, 1);
    expect(told.left?.grams).toMatchObject({ grams: 0, low: 0 });
    expect(told.spare?.grams).toBeCloseTo(40 - 100.2, 9);
  });
});

describe('whether a yarn lasts', () => {
  it('is told with the pick it fails at, and the picks until then', () => {
    // 40.05 g: the tail and 39 picks of B, and no 40th.
    const told = leftOf(withHand(wide(100), 5000, 40.05), 10, 1);
    expect(told.reach).toMatchObject({ kind: 'no', likely: 39 });
    if (told.reach === null || told.reach.kind === 'yes') throw new Error('wanted a warning');
    expect(told.reach.earliest).toBeLessThan(39);
    expect(told.reach.picks).toBe(told.reach.earliest - 10);
    expect(leftOf(withHand(wide(100), 5000, 101), 10, 1).reach?.kind).toBe('maybe');
    expect(leftOf(withHand(wide(100), 5000, 130), 10, 1).reach?.kind).toBe('yes');
  });

  it('is sooner known the more often it is weighed', () => {
    // 5 % short of 400 picks: unknown by the plan alone, certain with two weighings.
    const plan = withHand(wide(400), 5000, 400);
    const weighings = [weighing(1, 0, 395), weighing(1, 200, 195 - 10.1)];
    expect(leftOf(plan, 200, 1).reach?.kind).toBe('maybe');
    expect(leftOf(plan, 200, 1, { weighings }).reach?.kind).toBe('no');
  });
});

describe('a weighing', () => {
  const plan = withHand(wide(400), 5000, 500);

  it('of exactly what was reckoned changes nothing but the interval', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 400 }), fc.nat(400), (at, pick) => {
        const reckoned = leftOf(plan, at, 1).left?.grams.grams ?? Number.NaN;
        const weighings = [weighing(1, at, reckoned)];
        const [before, after] = [leftOf(plan, pick, 1), leftOf(plan, pick, 1, { weighings })];
        expect(after.left?.grams.grams).toBeCloseTo(before.left?.grams.grams ?? Number.NaN, 6);
        expect(after.perPick.grams).toBeCloseTo(before.perPick.grams, 9);
        expect(after.spare?.grams).toBeCloseTo(before.spare?.grams ?? Number.NaN, 6);
        expect(after.misfit).toBeNull();
        // Back from the weighing, where picks were taken out again, use may have drifted as it may ahead.
        if (pick < at) return;
        expect(after.left?.grams.sd).toBeLessThan(before.left?.grams.sd ?? 0);
        expect(after.use.sd).toBeLessThanOrEqual(before.use.sd + 1e-9);
      }),
    );
  });

  it('of one yarn says nothing of another', () => {
    const weighings = [weighing(0, 100, 2345)];
    expect(leftOf(plan, 200, 1, { weighings })).toEqual(leftOf(plan, 200, 1));
  });

  it('where the plan said nothing of an amount is where the account begins', () => {
    const told = leftOf(wide(400), 100, 1, { weighings: [weighing(1, 50, 300)] });
    expect(told.left?.grams.grams).toBeCloseTo(300 - 50, 9);
    expect(told.use.factor).toBe(1);
  });

  it('and another teach what a pick really takes', () => {
    // 200 picks by plan took 220 g: 10 % more than planned.
    const weighings = [weighing(1, 1, 495), weighing(1, 201, 275)];
    const told = leftOf(plan, 201, 1, { weighings });
    expect(told.use.factor).toBeGreaterThan(1.09);
    expect(told.use.factor).toBeLessThan(1.1);
    expect(told.perPick.grams).toBeCloseTo(told.use.factor, 9);
    expect(told.use.sd).toBeLessThan(0.02);
    // What is still wanted goes by it: 199 picks and a tail.
    expect(told.wanted.warp.grams.grams).toBeCloseTo(199.1 * told.use.factor, 6);
  });

  it('after winding that finds less than reckoned tells of a heavier yarn, and so of the weft too', () => {
    const cone = withHand(wide(10), 900, 100);
    const { mm } = yarnContext(cone).tiedOn;
    const reckoned = leftOf(cone, 0, 0).left?.grams.grams ?? Number.NaN;
    expect(reckoned).toBeCloseTo(900 - mm, 6);
    const told = leftOf(cone, 0, 0, { weighings: [weighing(0, 0, reckoned - 3)] });
    expect(told.use.factor).toBeGreaterThan(1.001);
    const more = leftOf(cone, 0, 0, { weighings: [weighing(0, 0, reckoned + 3)] });
    expect(more.use.factor).toBeLessThan(0.999);
  });

  it('before the warp is wound is of all there was, warp included', () => {
    const cone = withHand(wide(10), 900, 100);
    const ends = 1000 * (leftTiedOn(cone) / 1000);
    const told = leftOf(cone, 0, 0, { weighings: [weighing(0, 0, 950, false)] });
    const said = leftOf(cone, 0, 0);
    expect(said.left?.grams.grams).toBeCloseTo(900 - ends, 6);
    // The scale is trusted more than what was said, but what was said still counts.
    expect(told.left?.grams.grams).toBeGreaterThan(940 - ends);
    expect(told.left?.grams.grams).toBeLessThan(950 - ends);
  });

  it('far beyond what any use explains means that yarn came or went, and teaches no use', () => {
    const weighings = [weighing(1, 1, 495), weighing(1, 100, 396), weighing(1, 101, 600)];
    const told = leftOf(plan, 101, 1, { weighings });
    expect(told.misfit).toBeCloseTo(600 - 395, 0);
    expect(told.left?.grams.grams).toBeCloseTo(600, 6);
    expect(told.use.factor).toBeCloseTo(
      leftOf(plan, 101, 1, { weighings: weighings.slice(0, 2) }).use.factor,
      9,
    );
  });

  it('holds for the pick it was taken at, also when picks are taken out again', () => {
    const weighings = [weighing(1, 1, 495), weighing(1, 201, 295)];
    const told = leftOf(plan, 101, 1, { weighings });
    expect(told.left?.grams.grams).toBeCloseTo(395, 0);
  });
});

const grams = fc.integer({ min: 20, max: 900 });

it('what weighings at the loom taught is what the shelf reckons with', () => {
  const plan = withHand(wide(400), 5000, 500);
  const shelved = { ...plan, yarns: plan.yarns.map((yarn) => ({ ...yarn, shelf: yarn.letter })) };
  const weighed = (net: number) =>
    ({ kind: 'weighed', yarn: 'B', grams: net + 40, tare: 40 }) as const;
  const log = logged([thrown(1), weighed(495), thrown(200), weighed(275)]);
  const [, b] = shelved.yarns;
  if (b === undefined) throw new Error('wanted two yarns');
  const cone = { id: 'B', name: 'B', colour: b.colour, count: b.count, weighed: [] };
  const account = useOfYarns([cone], [{ id: 'w', name: 'Towels', plan: shelved, log }]).get('B');
  const progress = progressOf(shelved, log);
  const told = yarnLeft(tallyWeft(progress.course), progress.pick, 1, progress);
  expect(told.use.factor).toBeGreaterThan(1.09);
  expect(account?.toCome).toBeCloseTo(told.wanted.warp.grams.grams, 9);
  expect(account?.uses[0]?.since).toBeCloseTo(told.used.weft.grams, 9);
});

describe('for any plan', () => {
  it('left and used are what was on hand, and left less wanted is the sheet’s own sum', () => {
    fc.assert(
      fc.property(
        anyPlan,
        grams,
        fc.double({ min: 0, max: 1, noNaN: true }),
        (any, hand, share) => {
          const plan = withHand(any, ...any.yarns.map(() => hand));
          const tally = tallyWeft(courseOf(plan));
          const pick = Math.round(share * tally.course.picks);
          for (const need of sheetOf(plan).yarns) {
            const told = yarnLeft(tally, pick, need.yarn, yarnContext(plan));
            const { warp, weft } = told.used;
            expect((told.left?.grams.grams ?? 0) + warp.grams + weft.grams).toBeCloseTo(hand, 6);
            expect(told.spare?.grams).toBeCloseTo(need.left?.grams ?? Number.NaN, 6);
            const { warp: toEnd } = told.wanted;
            expect(toEnd.grams.grams + warp.grams + weft.grams).toBeCloseTo(need.total.grams, 6);
          }
        },
      ),
    );
  });

  it('block lies within piece and piece within warp, and nothing is wanted at the end', () => {
    fc.assert(
      fc.property(anyPlan, fc.double({ min: 0, max: 1, noNaN: true }), (plan, share) => {
        const tally = tallyWeft(courseOf(plan));
        const { picks } = tally.course;
        for (const yarn of plan.yarns.keys()) {
          const { wanted } = yarnLeft(tally, Math.round(share * picks), yarn, yarnContext(plan));
          expect(wanted.block.length.mm).toBeLessThanOrEqual(wanted.piece.length.mm + 1e-9);
          expect(wanted.piece.length.mm).toBeLessThanOrEqual(wanted.warp.length.mm + 1e-9);
          const end = yarnLeft(tally, picks, yarn, yarnContext(plan));
          expect(end.wanted.warp.length.mm).toBe(0);
          expect(end.reach).toEqual({ kind: 'yes' });
        }
      }),
    );
  });

  it('the pick a yarn fails at is the first whose weft, summed up, is more than there was', () => {
    let failed = 0;
    fc.assert(
      fc.property(anyPlan, fc.double({ min: 0.1, max: 1.2, noNaN: true }), (any, part) => {
        const needs = sheetOf(any).yarns;
        const plan = withHand(any, ...needs.map((it) => it.warp.grams + part * it.weft.grams));
        const tally = tallyWeft(courseOf(plan));
        const { picks } = tally.course;
        for (const { yarn, weft } of needs) {
          const { reach } = yarnLeft(tally, 0, yarn, yarnContext(plan));
          const first = Array.from({ length: picks }, (_, n) => n).find(
            (n) => weftBefore(tally, yarn, n + 1) > part * weft.length + 1e-3,
          );
          if (first !== undefined) failed++;
          const likely = reach === null || reach.kind === 'yes' ? null : reach.likely;
          expect(likely).toBe(first ?? null);
        }
      }),
    );
    expect(failed).toBeGreaterThan(50);
  });

  it('every weighing more makes what is left better known, there and at the end', () => {
    const picks = fc.uniqueArray(fc.integer({ min: 0, max: 400 }), { minLength: 2, maxLength: 6 });
    fc.assert(
      fc.property(
        picks,
        fc.array(fc.integer({ min: -9, max: 9 }), { minLength: 6, maxLength: 6 }),
        (at, off) => {
          const plan = withHand(wide(400), 5000, 500);
          const weighings = [...at]
            .sort((a, b) => a - b)
            .map((pick, i) => weighing(1, pick, 500 - pick * 1.02 + (off[i] ?? 0) / 10));
          const all = leftOf(plan, 400, 1, { weighings });
          const fewer = leftOf(plan, 400, 1, { weighings: weighings.slice(0, -1) });
          expect(all.misfit).toBeNull();
          expect(all.left?.grams.sd).toBeLessThan(fewer.left?.grams.sd ?? 0);
          expect(all.use.sd).toBeLessThan(fewer.use.sd + 1e-9);
        },
      ),
    );
  });

  it('the shelf has the same left and the same to come', () => {
    fc.assert(
      fc.property(anyPlan, fc.nat(200), (any, picks) => {
        const shelf = any.yarns.map(({ letter, name, colour, count }) => ({
          id: letter,
          name,
          colour,
          count,
          weighed: [{ at: '2024-01-01T00:00:00Z', grams: 5000 }],
        }));
        const plan = {
          ...withHand(any, ...any.yarns.map(() => 5000)),
          yarns: any.yarns.map((yarn) => ({ ...yarn, onHand: 5000, shelf: yarn.letter })),
        };
        const log = logged([{ kind: 'warped', steps: 1 }, thrown(picks)]);
        const accounts = useOfYarns(shelf, [{ id: 'w', name: 'Towels', plan, log }]);
        const tally = tallyWeft(courseOf(plan));
        const pick = Math.min(picks, tally.course.picks);
        for (const [yarn, { letter }] of plan.yarns.entries()) {
          const told = yarnLeft(tally, pick, yarn, yarnContext(plan));
          expect(accounts.get(letter)?.left).toBeCloseTo(told.left?.grams.grams ?? Number.NaN, 6);
          expect(accounts.get(letter)?.toCome).toBeCloseTo(told.wanted.warp.grams.grams, 6);
        }
      }),
      { numRuns: 40 },
    );
  });
});

/** Length of the warp of a plan as wound, mm. */
function leftTiedOn(plan: Plan): number {
  return yarnContext(plan).tiedOn.mm;
}
