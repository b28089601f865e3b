import { describe, expect, it } from 'vitest';
import { NO_ADJUSTMENTS } from '../../../src/core/bench/adjustments.ts';
import { pickAfterLength } from '../../../src/core/bench/counting.ts';
import { type Course, layCourse } from '../../../src/core/bench/course.ts';
import { duesOf } from '../../../src/core/bench/dues.ts';
import { loomLengthAt, pickAt } from '../../../src/core/bench/pickAt.ts';
import { countsBy, readsSameBothWays, totalOf } from '../../../src/core/measure/runs.ts';
import {
  endsPerMm,
  gapAfter,
  reedWidth,
  stitchTail,
  warpEnds,
  warpRuns,
} from '../../../src/core/plan/geometry.ts';
import type { Block, Letter, Loom, Plan, Stripe } from '../../../src/core/plan/plan.ts';
import { alternation, BASE, INCH, pieceOf, planOf, solidOfLength, yarns } from './samples.ts';

const layOf = (plan: Plan): Course => layCourse(plan, NO_ADJUSTMENTS);

/** A plan of one piece with so many picks to the inch. */
function beaten(picksPerInch: number, weft: readonly Block[]): Plan {
  const weaving = { ...BASE.weaving, pickSpacing: INCH / picksPerInch };
  return planOf({ weaving, pieces: [pieceOf(weft)] });
}

function stripesSeen(course: Course) {
  const { stripes } = course;
  return Array.from({ length: stripes.count }, (_, r) => ({
    of: stripes.yarn[r] ?? -1,
    count: (stripes.firstPick[r + 1] ?? 0) - (stripes.firstPick[r] ?? 0),
  }));
}

/** 2½ in solid, 3 in of two and two that opens and closes on the other colour, 2½ in solid. */
function motif(ground: Letter, other: Letter): readonly Block[] {
  const threeInches = { kind: 'length', loomLength: 3 * INCH } as const;
  const middle = alternation(`${other}2 ${ground}2`, threeInches, { closes: other });
  return [solidOfLength(ground, 2.5 * INCH), middle, solidOfLength(ground, 2.5 * INCH)];
}

function motifs(count: number): readonly Block[] {
  return Array.from({ length: count }, (_, i) =>
    i % 2 === 0 ? motif('A', 'B') : motif('B', 'A'),
  ).flat();
}

describe('two and two (common practice, no source)', () => {
  const closing = { opens: 'A', closes: 'A' } as const;

  it('with seven turns of A and six of B is 26 picks', () => {
    const course = layOf(beaten(10, [alternation('A2 B2', { kind: 'turns', turns: 13 }, closing)]));
    const seen = stripesSeen(course);
    expect(seen.filter((it) => it.of === 0)).toHaveLength(7);
    expect(seen.filter((it) => it.of === 1)).toHaveLength(6);
    expect(course.picks).toBe(26);
  });

  it('over about 3 in with 26 picks is about 8.7 picks to the inch, and back', () => {
    expect(26 / 3).toBeCloseTo(8.7, 1);
    const threeInches = { kind: 'length', loomLength: 3 * INCH } as const;
    expect(layOf(beaten(8.7, [alternation('A2 B2', threeInches, closing)])).picks).toBe(26);
  });
});

describe('a motif (common practice, no source)', () => {
  it('of 2½ in solid, 3 in of two and two and 2½ in solid is 8 in', () => {
    const weft = [
      solidOfLength('A', 2.5 * INCH),
      alternation('B2 A2', { kind: 'length', loomLength: 3 * INCH }),
      solidOfLength('A', 2.5 * INCH),
    ];
    expect(layOf(beaten(8, weft)).pieces[0]?.loomLength).toBeCloseTo(8 * INCH, 9);
  });

  it.each([
    [32, 4, false],
    [40, 5, true],
    [24, 3, true],
    [48, 6, false],
  ])(
    'in two opposite colours taking turns over %d in (%d of them) mirrors: %s',
    (inches, count, mirrors) => {
      const course = layOf(beaten(8.7, motifs(count)));
      const planned = course.blocks.reduce(
        (sum, block) => sum + (block.laid.plannedLength ?? 0),
        0,
      );
      expect(planned).toBeCloseTo(inches * INCH, 6);
      expect(readsSameBothWays(stripesSeen(course))).toBe(mirrors);
    },
  );

  it('that ends at 35 in is followed by one that ends at 43 in', () => {
    const lead = solidOfLength('B', 3 * INCH);
    const eight = [solidOfLength('A', 5 * INCH), solidOfLength('B', 3 * INCH)];
    const course = layOf(beaten(8, [lead, { kind: 'repeat', times: 6, of: eight }]));
    const measured = 35 * 8;
    const next = pickAfterLength(course, measured, 8 * INCH);
    expect(loomLengthAt(course, next)).toBeCloseTo(43 * INCH, 9);
    expect(pickAt(course, measured)?.block.done).toBe(0);
    expect(pickAt(course, next)?.block.done).toBe(0);
  });
});

describe('edges (common practice, no source)', () => {
  const fringe = { kind: 'hemstitch', fringe: 2 * INCH, twisted: false } as const;
  const stitched = pieceOf([solidOfLength('A', 8 * INCH)], { beginning: fringe, ending: fringe });

  it('of two neighbours with 2 in fringe each want 4 in between them', () => {
    expect(gapAfter(planOf({ pieces: [stitched, stitched] }), 0)).toBeCloseTo(4 * INCH, 9);
  });

  it('ask for more warp than the fringe: what washing and twisting take is added back', () => {
    const share = (it: number) => ({ share: it, from: { kind: 'typed' as const } });
    const allowances = {
      ...BASE.allowances,
      twist: share(0.2),
      shrinkLength: share(0.1),
      relax: share(0.5),
    };
    const twisted = pieceOf(stitched.weft, {
      beginning: fringe,
      ending: { ...fringe, twisted: true },
    });
    const plan = planOf({ allowances, pieces: [twisted, twisted] });
    // 2 in plain / 0.9 / 0.5, and 2 in twisted / 0.8 / 0.9 / 0.5, by hand.
    expect(gapAfter(plan, 0)).toBeCloseTo((4.4444 + 5.5556) * INCH, 1);
    expect(gapAfter(plan, 1)).toBe(0);
  });

  it('a hemstitch tail of three times the width is enough', () => {
    const plan = planOf({ pieces: [stitched] });
    expect(stitchTail(plan)).toBeCloseTo(3 * reedWidth(plan), 9);
    expect(duesOf(layOf(plan)).find((due) => due.kind === 'tail')).toMatchObject({
      length: stitchTail(plan),
    });
  });

  it.each([1, 2, 3, 7])('of %d pieces leave one gap fewer than pieces', (count) => {
    const course = layOf(planOf({ pieces: Array.from({ length: count }, () => stitched) }));
    const dues = duesOf(course);
    expect(dues.filter((due) => due.kind === 'gap')).toHaveLength(count - 1);
    expect(dues.filter((due) => due.kind === 'cutOff')).toHaveLength(1);
    expect(course.pieces.filter((piece) => piece.gapAfter > 0)).toHaveLength(count - 1);
  });

  it('hemstitched in sixes over 393 ends make 65 groups, three of them of seven', () => {
    const warp = { ...BASE.warp, order: [{ kind: 'solid' as const, yarn: 'A', ends: 393 }] };
    const plan = planOf({ warp, weaving: { ...BASE.weaving, stitchGroup: 6 }, pieces: [stitched] });
    const groups = duesOf(layOf(plan)).flatMap((due) =>
      due.kind === 'hemstitch' ? [due.groups] : [],
    );
    expect(groups).toEqual(Array(2).fill({ groups: 65, larger: 3, size: 6 }));
  });
});

describe('ends to the inch', () => {
  const loom = (count: number, per: Loom['dents']['per'], endsPerDent = 1): Loom => ({
    ...BASE.loom,
    dents: { count, per },
    endsPerDent,
  });

  it.each([
    [
      'a heddle of 12.5 dents per inch (slots and holes both count; common practice)',
      loom(12.5, 'inch'),
      12.5,
    ],
    ['a heddle of 30 dents per 10 cm (rule)', loom(30, '10cm'), 7.62],
    ['a heddle of 40 dents per 10 cm (rule)', loom(40, '10cm'), 10.16],
    ['a heddle of 50 dents per 10 cm (rule)', loom(50, '10cm'), 12.7],
    ['a reed of 30 dents per inch, 2 ends a dent (a 60 reed; TAY p. 243)', loom(30, 'inch', 2), 60],
    ['a reed of 30 dents per inch, 3 ends a dent (TAY p. 243)', loom(30, 'inch', 3), 90],
    [
      'a heddle sold as 12.5 and counted as 12',
      { ...loom(12.5, 'inch'), dents: { count: 12.5, per: 'inch', made: 12 } } as Loom,
      12,
    ],
  ])('%s', (_, it, epi) => {
    expect(endsPerMm(it) * INCH).toBeCloseTo(epi, 9);
  });

  it.each([
    [2280, 60, 38, 'BRO pp. 93–94'],
    [450, 10, 45, 'WHW'],
    [528, 24, 22, 'MEA'],
  ])('%d ends at %d to the inch are %d in in the reed (%s)', (ends, epi, inches) => {
    const order: Stripe[] = [{ kind: 'solid', yarn: 'A', ends }];
    const plan = planOf({
      loom: { ...BASE.loom, dents: { count: epi, per: 'inch' }, weavingWidth: 60 * INCH },
      warp: { ...BASE.warp, order },
    });
    expect(reedWidth(plan)).toBeCloseTo(inches * INCH, 9);
  });
});

describe('a warp order', () => {
  const solid = (yarn: Letter, ends: number): Stripe => ({ kind: 'solid', yarn, ends });
  // P pink, K black, W white; BRO, Checks.
  const check = 'P20 K2 W6 K2 W6 K6 W6 K2 W6 K2'
    .split(' ')
    .map((it) => solid(it.slice(0, 1), Number(it.slice(1))));
  const counted = (order: readonly Stripe[]) => {
    const counts = countsBy(warpRuns(order));
    return { total: totalOf(warpRuns(order)), ...Object.fromEntries(counts) };
  };
  const times = (n: number, of: readonly Stripe[]): Stripe => ({ kind: 'repeat', times: n, of });
  const twoStripes: Stripe = {
    kind: 'alternation',
    cycle: [
      { yarn: 'A', ends: 10 },
      { yarn: 'B', ends: 10 },
    ],
    turns: 41,
  };
  const lined = [solid('W', 12), solid('R', 2), solid('W', 12), solid('B', 2)];

  it.each([
    ['pink, black and white once (BRO, Checks)', check, { total: 58, P: 20, K: 14, W: 24 }],
    [
      'the same over 2280 ends (rule)',
      [times(39, check), solid('P', 18)],
      { total: 2280, P: 798, K: 546, W: 936 },
    ],
    [
      'the same over 500 ends (rule)',
      [times(8, check), ...check.slice(0, 5)],
      { total: 500, P: 180, K: 116, W: 204 },
    ],
    [
      '12 white, 2 red, 12 white, 2 blue over 440 (BRO, rule)',
      [times(15, lined), ...lined.slice(0, 2), solid('W', 6)],
      { total: 440, W: 378, R: 32, B: 30 },
    ],
    ['10 A, 10 B over 410 (rule)', [twoStripes], { total: 410, A: 210, B: 200 }],
  ])('%s', (_, order, expected) => {
    expect(counted(order)).toEqual(expected);
  });

  it('is counted the same in a checked plan, floating selvedges apart', () => {
    const warp = { ...BASE.warp, order: [times(8, check)], floatingSelvedges: { yarn: 'P' } };
    const loom = { ...BASE.loom, weavingWidth: 100 * INCH };
    expect(warpEnds(planOf({ yarns: yarns('APKW'), warp, loom }))).toBe(8 * 58);
  });

  it.each([
    ['shares its centre', 'shared', 2 * 58 - 2],
    ['or weaves it twice', 'doubled', 2 * 58],
  ] as const)('that is mirrored %s', (_, centre, ends) => {
    const runs = warpRuns([{ kind: 'mirror', centre, of: check }]);
    expect(totalOf(runs)).toBe(ends);
    expect(readsSameBothWays(runs)).toBe(true);
  });
});
