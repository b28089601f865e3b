import { unit } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { G_PER_OUNCE, G_PER_POUND } from '../../../src/core/measure/mass.ts';
import { crimpOf, dimensionalChange, takeUpOf } from '../../../src/core/measure/takeUp.ts';
import type { Plan, Stripe } from '../../../src/core/plan/plan.ts';
import { type PlanSheet, sheetOf, type YarnSheet } from '../../../src/core/planner/sheet.ts';
import {
  BASE,
  checked,
  INCH,
  pieceOf,
  planOf,
  solid,
  solidOfLength,
  yarns,
} from '../plan/samples.ts';
import { cotton, exampleOf, stripesOf, warpedWith, YARD } from './examples.ts';

const YARDS_PER_HANK = 840;

function yarnOf(sheet: PlanSheet, yarn: number): YarnSheet {
  const it = sheet.yarns[yarn];
  if (it === undefined) throw new Error(`no yarn ${yarn}`);
  return it;
}

function firstPiece(sheet: PlanSheet) {
  const [piece] = sheet.pieces;
  if (piece === undefined) throw new Error('no piece');
  return piece;
}

describe('a plan made from a published example', () => {
  it('of 10 yd × 45 in at 10 × 10 has 450 ends, 4500 yd and 3600 picks, 4500 yd (WHW)', () => {
    const plan = exampleOf({ ends: 450, epi: 10, ppi: 10, lengths: [360] });
    const sheet = sheetOf(plan);
    expect(sheet.warp.ends).toBe(450);
    expect(sheet.widths.reed).toBeCloseTo(45 * INCH, 9);
    expect(sheet.warpLength.wound).toBeCloseTo(10 * YARD, 9);
    expect(yarnOf(sheet, 0).warp.length / YARD).toBeCloseTo(4500, 9);
    expect(yarnOf(sheet, 1).weft.picks).toBe(3600);
    expect(yarnOf(sheet, 1).weft.thrown / YARD).toBeCloseTo(4500, 9);
  });

  it('of 38 in in a 60 reed, warp 38 yd of 30s: 2280 ends, 103 1/7 hanks, 3 lb 7 oz (BRO pp. 93–94)', () => {
    const plan = exampleOf({ ends: 2280, epi: 60, lengths: [38 * 36], warp: cotton(30) });
    const sheet = sheetOf(plan);
    const { warp } = yarnOf(sheet, 0);
    expect(sheet.widths.reed).toBeCloseTo(38 * INCH, 9);
    expect(warp.length / YARD / YARDS_PER_HANK).toBeCloseTo(103 + 1 / 7, 9);
    expect(Math.abs(warp.grams / G_PER_OUNCE - 55)).toBeLessThanOrEqual(0.2);
  });

  it('of weft 37½ in, 64 picks/in, 36 yd of 36s: 2 lb 13¾ oz (BRO p. 94)', () => {
    const lengths = [36 * 36];
    const plan = exampleOf({ ends: 2250, epi: 60, ppi: 64, lengths, weft: cotton(36) });
    const { weft } = yarnOf(sheetOf(plan), 1);
    expect(weft.picks).toBe(82_944);
    const ounces = unit((weft.thrown / 1000) * (weft.grams / weft.length) * 1000, 'g').toNumber(
      'oz',
    );
    expect(Math.abs(ounces - 45.75)).toBeLessThanOrEqual(0.1);
    // The two tails to tuck in are the only thing the book leaves out.
    expect(weft.length - weft.thrown).toBeCloseTo(200, 9);
  });

  it('of 2260 ends × 38 yd of 30s: 3.407 lb (BRO p. 96)', () => {
    const plan = exampleOf({ ends: 2260, epi: 60, lengths: [38 * 36], warp: cotton(30) });
    const { warp } = yarnOf(sheetOf(plan), 0);
    expect(Math.abs(warp.grams / G_PER_POUND - 3.407)).toBeLessThanOrEqual(0.001);
  });

  it('of 95 yd of warp for 90 yd of cloth: 5.56 % of cloth, 5.26 % of yarn (TAY p. 245, D3883)', () => {
    const shares = { warpTaken: 5 / 90 };
    const plan = exampleOf({ ends: 100, epi: 20, lengths: [90 * 36], shares });
    const sheet = sheetOf(plan);
    const { warpTaken, loomLength } = firstPiece(sheet);
    expect(sheet.warpLength.woven / YARD).toBeCloseTo(95, 9);
    expect(100 * crimpOf(warpTaken, loomLength)).toBeCloseTo(5.56, 2);
    expect(100 * takeUpOf(warpTaken, loomLength)).toBeCloseTo(5.26, 2);
  });

  it('of 84 yd at 60 picks/in × 34 in: 204 hanks of weft (TAY p. 436)', () => {
    const plan = exampleOf({ ends: 34 * 20, epi: 20, ppi: 60, lengths: [84 * 36] });
    const { weft } = yarnOf(sheetOf(plan), 1);
    expect(weft.thrown / YARD / YARDS_PER_HANK).toBeCloseTo(204, 9);
  });

  it('of 22 in at 24 epi, 4 yd of 3360 yd/lb: 528 ends, 2112 yd, 0.6286 lb = 285.1 g (MEA)', () => {
    const warp = { system: 'ydPerLb', number: 3360, plies: 1 } as const;
    const plan = exampleOf({ ends: 528, epi: 24, lengths: [113], waste: 31, warp });
    const sheet = sheetOf(plan);
    const need = yarnOf(sheet, 0).warp;
    expect(sheet.widths.reed).toBeCloseTo(22 * INCH, 9);
    expect(need.length / YARD).toBeCloseTo(2112, 9);
    expect(Math.abs(unit(need.grams, 'g').toNumber('lb') - 0.6286)).toBeLessThanOrEqual(1e-3);
    expect(Math.abs(need.grams - 285.1)).toBeLessThanOrEqual(0.05);
  });

  it('of 4 pieces of 34 in, take-up 13 in, waste 31 in: 180 in (IWL)', () => {
    const shares = { warpTaken: 13 / 136 };
    const plan = exampleOf({ ends: 100, epi: 20, lengths: [34, 34, 34, 34], waste: 31, shares });
    const { exact, wound } = sheetOf(plan).warpLength;
    expect(exact / INCH).toBeCloseTo(180, 9);
    expect(wound / INCH).toBeCloseTo(180, 9);
  });

  it('of weft (20 in + 10 %) × 20 ppi × 100 in: 1222.2 yd (CMF)', () => {
    const shares = { weftExtra: 0.1 };
    const plan = exampleOf({ ends: 400, epi: 20, ppi: 20, lengths: [100], shares });
    const { weft } = yarnOf(sheetOf(plan), 1);
    expect(Math.abs(weft.thrown / YARD - 1222.2)).toBeLessThanOrEqual(0.05);
  });

  it.each([
    [12.5, 10],
    [12, 9.6],
  ])('woven %d in long comes to %d in when a fifth is lost (CNC)', (loom, washed) => {
    const shares = { shrinkLength: 0.2 };
    const plan = exampleOf({ ends: 10, epi: 10, ppi: 40, lengths: [loom], shares });
    expect(firstPiece(sheetOf(plan)).washedLength / INCH).toBeCloseTo(washed, 9);
  });

  it('that loses 9 %, then 12 % comes from 14 in to 11.21 in (rule)', () => {
    const shares = { relax: 0.09, shrinkLength: 0.12 };
    const plan = exampleOf({ ends: 10, epi: 10, ppi: 10, lengths: [14], shares });
    expect(firstPiece(sheetOf(plan)).washedLength / INCH).toBeCloseTo(11.21, 2);
  });

  it('of 27 in that wash to 25.5 in changes by −5.56 % (I5077)', () => {
    const shares = { shrinkLength: 1.5 / 27 };
    const plan = exampleOf({ ends: 10, epi: 10, ppi: 10, lengths: [27], shares });
    const { offLength, washedLength } = firstPiece(sheetOf(plan));
    expect(washedLength / INCH).toBeCloseTo(25.5, 9);
    expect(dimensionalChange(offLength, washedLength)).toBeCloseTo(-5.56, 2);
  });

  it.each([
    [20, 18, 30, 22, 0.072, 0.06],
    [24, 30, 36, 20, 0.1, 0.05],
    [10, 10, 3, 8, 0, 0],
  ])(
    'weighs (epi(1+c₁)/Ne₁ + ppi(1+c₂)/Ne₂) × 23.25 g/m²: %d × %d of %ds and %ds (rule)',
    (epi, ppi, warpNe, weftNe, warpTaken, weftExtra) => {
      const plan = exampleOf({
        ends: 10 * epi,
        epi,
        ppi,
        lengths: [40],
        warp: cotton(warpNe),
        weft: cotton(weftNe),
        shares: { warpTaken, weftExtra },
      });
      const per = (epi * (1 + warpTaken)) / warpNe + (ppi * (1 + weftExtra)) / weftNe;
      expect(sheetOf(plan).cloth.gramsPerSquareMetre / per).toBeCloseTo(23.25, 3);
    },
  );

  it('and washed to ¾ of its area, weighs 4/3 as much per square metre (rule)', () => {
    const example = { ends: 200, epi: 20, ppi: 20, lengths: [40] };
    const loom = sheetOf(exampleOf(example)).cloth;
    const washed = sheetOf(exampleOf({ ...example, shares: { shrinkWidth: 0.25 } })).cloth;
    expect(washed.grams).toBeCloseTo(loom.grams, 9);
    expect(washed.gramsPerSquareMetre / loom.gramsPerSquareMetre).toBeCloseTo(4 / 3, 9);
  });
});

describe('a reed or heddle of a plan', () => {
  const withDents = (dents: Plan['loom']['dents'], endsPerDent = 1) =>
    planOf({ loom: { ...BASE.loom, dents, endsPerDent } });

  it.each([
    [30, 7.62],
    [40, 10.16],
    [50, 12.7],
  ])('of %d dents per 10 cm has %d ends per inch (rule)', (count, epi) => {
    expect(sheetOf(withDents({ count, per: '10cm' })).setts.reed * INCH).toBeCloseTo(epi, 9);
  });

  it.each([
    [2, 60],
    [3, 90],
  ])('of number 60 (Stockport, per 2 in) with %d ends a dent has %d epi (TAY p. 243)', (n, epi) => {
    expect(sheetOf(withDents({ count: 30, per: 'inch' }, n)).setts.reed * INCH).toBeCloseTo(epi, 9);
  });

  it('sold as 12.5 and made as 12.7 counts as made', () => {
    const made = withDents({ count: 12.5, per: 'inch', made: 12.7 });
    expect(sheetOf(made).setts.reed * INCH).toBeCloseTo(12.7, 9);
  });
});

describe('a warp order', () => {
  const times = (n: number, of: readonly Stripe[]): Stripe => ({ kind: 'repeat', times: n, of });
  // P pink, K black, W white; BRO, Checks.
  const check = stripesOf('P20 K2 W6 K2 W6 K6 W6 K2 W6 K2');
  const lined = stripesOf('W12 R2 W12 B2');
  const twoStripes: Stripe = {
    kind: 'alternation',
    cycle: [
      { yarn: 'A', ends: 10 },
      { yarn: 'B', ends: 10 },
    ],
    turns: 41,
  };

  it.each([
    ['of pink, black and white once (BRO, Checks)', 'PKW', check, [20, 14, 24]],
    [
      'of the same over 2280 ends (rule)',
      'PKW',
      [times(39, check), ...stripesOf('P18')],
      [798, 546, 936],
    ],
    [
      'of the same over 500 ends (rule)',
      'PKW',
      [times(8, check), ...check.slice(0, 5)],
      [180, 116, 204],
    ],
    [
      'of 12 white, 2 red, 12 white, 2 blue over 440 (BRO order, rule)',
      'WRB',
      [times(15, lined), ...stripesOf('W12 R2 W6')],
      [378, 32, 30],
    ],
    ['of 10 A, 10 B over 410 (rule)', 'AB', [twoStripes], [210, 200]],
  ])('%s', (_, letters, order, expected) => {
    const { warp } = sheetOf(warpedWith(letters, order));
    expect(warp.endsOfYarn).toEqual(expected);
    expect(warp.ends).toBe(expected.reduce((sum, n) => sum + n, 0));
  });
});

describe('the length of a warp', () => {
  const fringe = { kind: 'hemstitch', fringe: 2 * INCH, twisted: false } as const;
  const piece = pieceOf([solid('A', 100)], { beginning: fringe, ending: fringe });
  const pieces = (n: number) => Array.from({ length: n }, () => piece);
  const weaving = { ...BASE.weaving, cuttingAllowance: 10 };

  it.each([1, 2, 3, 7])('of %d pieces has one gap fewer and the waste once (practice)', (n) => {
    const { warpLength, pieces: sheets } = sheetOf(planOf({ weaving, pieces: pieces(n) }));
    expect(warpLength.gaps).toBeCloseTo((n - 1) * (4 * INCH + 10), 9);
    expect(warpLength.front).toBe(BASE.loom.frontTieOn);
    expect(warpLength.back).toBe(BASE.loom.backWaste);
    expect(warpLength.firstFringe + warpLength.lastFringe).toBeCloseTo(4 * INCH, 9);
    expect(sheets.map((it) => it.gapAfter > 0)).toEqual([...Array(n - 1).fill(true), false]);
  });

  it.each([
    ['shorter than the waste cost nothing', 200, 300, 200, 300],
    ['longer than the waste lengthen it to their own length', 30, 40, 2 * INCH, 2 * INCH],
  ])('outer fringes from the waste that are %s', (_, frontTieOn, backWaste, front, back) => {
    const plan = planOf({
      loom: { ...BASE.loom, frontTieOn, backWaste },
      weaving: { ...weaving, outerFringes: 'from-waste' },
      pieces: pieces(2),
    });
    expect(sheetOf(plan).warpLength).toMatchObject({ front, back, firstFringe: 0, lastFringe: 0 });
  });

  it.each([
    ['inch', 2000, 2057.4],
    ['inch', 2057.4, 2057.4],
    ['inch', 2057.5, 2286],
    ['metric', 2000, 2000],
    ['metric', 2000.1, 2100],
  ] as const)(
    'in %s units of %d mm is wound as %d mm, never less (practice)',
    (units, mm, wound) => {
      const plan = exampleOf({ ends: 10, epi: 10, ppi: 10, lengths: [10] });
      const loom = { ...plan.loom, frontTieOn: 0, backWaste: mm - 10 * INCH };
      const { warpLength } = sheetOf({ ...plan, units, loom });
      expect(warpLength.exact).toBeCloseTo(mm, 9);
      expect(warpLength.wound).toBeCloseTo(wound, 9);
    },
  );

  it('a finished fringe of 88 mm, twisted (12 %) and washed (3 %, 8 %), hangs 112 mm long on the loom', () => {
    const twisted = { ...fringe, fringe: 88, twisted: true } as const;
    const { allowances } = exampleOf({
      ends: 10,
      epi: 10,
      lengths: [10],
      shares: { twist: 0.12, relax: 0.03, shrinkLength: 0.08 },
    });
    const plan = planOf({ allowances, pieces: [{ ...piece, beginning: twisted }] });
    const { fringes } = firstPiece(sheetOf(plan));
    expect(fringes.beginning.loom).toBeCloseTo(100 / 0.97 / 0.92, 9);
    expect(fringes.beginning.finished).toBe(88);
  });
});

describe('a piece', () => {
  const hem = { kind: 'hem', washedAllowance: 30 } as const;
  const allowances = exampleOf({
    ends: 10,
    epi: 10,
    lengths: [10],
    shares: { relax: 0.04, shrinkLength: 0.1, drawIn: 0.05, shrinkWidth: 0.06 },
  }).allowances;

  it('is finished when washed and both hems are turned; its wish is told in its own state', () => {
    const wish = { state: 'finished', length: 500 } as const;
    const plan = planOf({
      allowances,
      pieces: [pieceOf([solid('A', 200)], { beginning: hem, ending: hem, wish })],
    });
    const it = firstPiece(sheetOf(plan));
    expect(it.loomLength).toBeCloseTo(it.picks * 2.54, 9);
    expect(it.picks).toBe(200 + it.hemPicks.beginning + it.hemPicks.ending);
    expect(it.offLength).toBeCloseTo(it.loomLength * 0.96, 9);
    expect(it.washedLength).toBeCloseTo(it.loomLength * 0.96 * 0.9, 9);
    expect(it.finishedLength).toBeCloseTo(it.washedLength - 60, 9);
    expect(it.wish).toEqual({
      wish,
      reached: it.finishedLength,
      miss: it.finishedLength - 500,
      range: null,
    });
    expect(it.picksWashed).toBeCloseTo(1 / 2.54 / 0.96 / 0.9, 9);
  });

  it.each([
    ['loom', 'loomLength'],
    ['off', 'offLength'],
    ['washed', 'washedLength'],
    ['finished', 'finishedLength'],
  ] as const)('wished %s is held against that length', (state, field) => {
    const wish = { state, length: 100 } as const;
    const pieces = [pieceOf([solid('A', 50)], { ending: hem, wish })];
    const it = firstPiece(sheetOf(planOf({ allowances, pieces })));
    expect(it.wish?.reached).toBe(it[field]);
  });

  it('reads the same from both ends whatever its hems are', () => {
    const weft = [solid('A', 4), solid('B', 2), solid('A', 4)];
    const other = { kind: 'hem', washedAllowance: 10, yarn: 'B' } as const;
    const read = (pieces: Plan['pieces']) =>
      sheetOf(planOf({ allowances, pieces })).pieces.map((it) => it.mirrored);
    const odd = [...weft, solid('B', 2)];
    expect(
      read([
        pieceOf(weft, { ending: other }),
        pieceOf(odd),
        pieceOf([solid('A', 2), solid('A', 2), solid('B', 2), solid('A', 4)]),
      ]),
    ).toEqual([true, false, true]);
  });

  it('has its width in every state', () => {
    const warp = { ...BASE.warp, order: stripesOf('A250') };
    const { widths, setts } = sheetOf(planOf({ allowances, warp }));
    expect(widths.reed).toBeCloseTo(20 * INCH, 9);
    expect(widths.loom).toBeCloseTo(20 * INCH * 0.95, 9);
    expect(widths.off).toBe(widths.loom);
    expect(widths.washed).toBeCloseTo(20 * INCH * 0.95 * 0.94, 9);
    expect(setts.washed * widths.washed).toBeCloseTo(250, 9);
    expect(setts.loom * widths.loom).toBeCloseTo(250, 9);
  });

  it('passes on where every allowance comes from', () => {
    const plan = planOf({ allowances });
    expect(sheetOf(plan).allowances).toEqual(plan.allowances);
  });
});

describe('a plan wider than its loom', () => {
  it('is computed all the same, and told by how much', () => {
    const loom = { ...BASE.loom, weavingWidth: 10 * INCH };
    const plan = checked({
      ...BASE,
      yarns: yarns('A'),
      pieces: [pieceOf([solidOfLength('A', 50)])],
    });
    const { dents } = sheetOf({ ...plan, loom, warp: { ...plan.warp, order: stripesOf('A150') } });
    expect(dents).toMatchObject({ fits: false, onLoom: 125, used: 150 });
    expect(dents.room).toBeCloseTo(-2 * INCH, 9);
  });
});
