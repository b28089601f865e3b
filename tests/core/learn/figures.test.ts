import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NO_ADJUSTMENTS } from '../../../src/core/bench/adjustments.ts';
import { layCourse } from '../../../src/core/bench/course.ts';
import type { Happening } from '../../../src/core/bench/events.ts';
import type { Figure, FigureName } from '../../../src/core/learn/figure.ts';
import { figuresOf } from '../../../src/core/learn/figures.ts';
import { readingsOf } from '../../../src/core/learn/readings.ts';
import { readErrorOf } from '../../../src/core/learn/sizes.ts';
import { dimensionalChange, takeUpFromCrimp } from '../../../src/core/measure/takeUp.ts';
import type { Plan } from '../../../src/core/plan/plan.ts';
import { logged } from '../bench/logs.ts';
import { checked, INCH, pieceOf, planOf, solid, yarns } from '../plan/samples.ts';
import { cotton, exampleOf, sharesFrom, YARD } from '../planner/examples.ts';

let readings = 0;
const read = (
  state: 'loom' | 'off' | 'washed',
  what: Omit<Extract<Happening, { kind: 'clothRead' }>, 'kind' | 'reading' | 'piece' | 'state'>,
  piece = 0,
): Happening => ({ kind: 'clothRead', reading: `r${readings++}`, piece, state, ...what });

const ravelled = (straightened: number, inCloth: number): Happening => ({
  kind: 'endRavelled',
  reading: `r${readings++}`,
  piece: 0,
  straightened,
  inCloth,
});

/** 250 ends of a 12½ dent heddle: 20 in in the reed. */
const PLAN = planOf({
  warp: { order: [{ kind: 'solid', yarn: 'A', ends: 250 }], firstEnd: 'slot', viewpoint: 'front' },
  pieces: [pieceOf([solid('A', 300)])],
});

function figures(plan: Plan, happenings: readonly Happening[]) {
  const course = layCourse(plan, NO_ADJUSTMENTS);
  const log = logged(happenings);
  return figuresOf({
    course,
    picks: course.picks,
    readings: readingsOf(log, plan.pieces.length),
    loomLengths: [],
  });
}

function figure(plan: Plan, name: FigureName, ...happenings: readonly Happening[]): Figure {
  const it = figures(plan, happenings).pieces[0]?.figures[name];
  if (it === undefined) throw new Error(`got no ${name}`);
  return it;
}

const shareOf = (it: Figure) => (it.kind === 'read' ? it.share : Number.NaN);

describe('shares of one piece', () => {
  it('27 in that wash to 25½ shrink by 5.56 %, a dimensional change of −5.56 (I5077)', () => {
    const it = figure(
      PLAN,
      'shrinkLength',
      read('off', { lengths: [27 * INCH] }),
      read('washed', { lengths: [25.5 * INCH] }),
    );
    expect(100 * shareOf(it)).toBeCloseTo(5.5556, 4);
    expect(dimensionalChange(27 * INCH, 25.5 * INCH)).toBeCloseTo(-5.5556, 4);
  });

  it('14 in that lose 9 and then 12 % (11.21 in) are lost in one by 19.92 % (rule)', () => {
    const happenings = [
      read('loom', { lengths: [14 * INCH] }),
      read('off', { lengths: [14 * INCH * 0.91] }),
      read('washed', { lengths: [14 * INCH * 0.91 * 0.88] }),
    ];
    expect(shareOf(figure(PLAN, 'relax', ...happenings))).toBeCloseTo(0.09, 9);
    expect(shareOf(figure(PLAN, 'shrinkLength', ...happenings))).toBeCloseTo(0.12, 9);
    expect(14 * (1 - shareOf(figure(PLAN, 'lengthLoss', ...happenings)))).toBeCloseTo(11.21, 2);
  });

  it('draw-in is of the width in the reed, which is counted: 19 in of 20 are 5 %', () => {
    const happenings = [
      read('loom', { widths: [19 * INCH] }),
      read('washed', { widths: [18 * INCH] }),
    ];
    expect(shareOf(figure(PLAN, 'drawIn', ...happenings))).toBeCloseTo(0.05, 9);
    expect(shareOf(figure(PLAN, 'widthLoss', ...happenings))).toBeCloseTo(0.1, 9);
    // No width off the loom: what washing alone did is not learnt.
    expect(figure(PLAN, 'shrinkWidth', ...happenings)).toEqual({
      kind: 'not-read',
      wants: ['off-width'],
    });
  });

  it('an end of 95 drawn out of 90 is a crimp of 5.556 % and a take-up of 5.263 % (D3883)', () => {
    const it = figure(PLAN, 'crimp', ravelled(95, 90));
    expect(100 * shareOf(it)).toBeCloseTo(5.556, 3);
    expect(100 * takeUpFromCrimp(shareOf(it))).toBeCloseTo(5.263, 3);
  });

  it('several ends are averaged (D3883): 95 and 99 of 90 are 7.78 %', () => {
    const it = figure(PLAN, 'crimp', ravelled(95, 90), ravelled(99, 90));
    expect(100 * shareOf(it)).toBeCloseTo((5.5556 + 10) / 2, 3);
  });

  it('several readings of a size are averaged', () => {
    const it = figure(
      PLAN,
      'shrinkLength',
      read('off', { lengths: [598, 602] }),
      read('off', { lengths: [600] }),
      read('washed', { lengths: [540] }),
    );
    expect(shareOf(it)).toBeCloseTo(0.1, 9);
  });

  it('what was not read is not learnt, and says what it wants', () => {
    const wants = Object.entries(figures(PLAN, []).pieces[0]?.figures ?? {}).map(([name, it]) => [
      name,
      it.kind === 'not-read' ? it.wants.join() : it.kind,
    ]);
    expect(Object.fromEntries(wants)).toEqual({
      drawIn: 'fell-width',
      relax: 'loom-length,off-length',
      shrinkLength: 'off-length,washed-length',
      lengthLoss: 'loom-length,washed-length',
      shrinkWidth: 'off-width,washed-width',
      widthLoss: 'washed-width',
      crimp: 'ravelled-end',
      weftExtra: 'mass,loom-length',
      twist: '',
    });
  });

  it('a share no cloth has is not believed', () => {
    const it = figure(
      PLAN,
      'shrinkLength',
      read('off', { lengths: [600] }),
      read('washed', { lengths: [60] }),
    );
    expect(it.kind).toBe('implausible');
  });

  it('an estimate of the loom length holds where nobody read it, if it is sure enough', () => {
    const course = layCourse(PLAN, NO_ADJUSTMENTS);
    const log = logged([read('off', { lengths: [700] })]);
    const relax = (sd: number) =>
      figuresOf({
        course,
        picks: 300,
        readings: readingsOf(log, 1),
        loomLengths: [{ mm: 720, sd }],
      }).pieces[0]?.figures.relax;
    expect(relax(5)).toMatchObject({ kind: 'read', share: 20 / 720 });
    expect(relax(60)).toEqual({ kind: 'not-read', wants: ['loom-length'] });
  });
});

describe('the error of a reading', () => {
  it('is 2 mm while little was read twice, then what the weaver’s own readings show', () => {
    const errorOf = (happenings: readonly Happening[]) =>
      readErrorOf(readingsOf(logged(happenings), 1));
    expect(errorOf([])).toBe(2);
    // Four of 2 mm beside one of its own: 600 and 610 are 50 mm² on one degree of freedom.
    expect(errorOf([read('off', { lengths: [600, 610] })])).toBeCloseTo(
      Math.sqrt((16 + 50) / 5),
      9,
    );
  });

  it('of a share falls with the number of readings', () => {
    const errorWith = (n: number) => {
      const it = figure(
        PLAN,
        'shrinkLength',
        read('off', { lengths: Array.from({ length: n }, () => 600) }),
        read('washed', { lengths: Array.from({ length: n }, () => 550) }),
      );
      return it.kind === 'read' ? it.error : Number.NaN;
    };
    expect(errorWith(1)).toBeCloseTo((550 / 600) * Math.hypot(2 / 600, 2 / 550), 9);
    expect(errorWith(4)).toBeLessThan(errorWith(1) / 1.9);
  });
});

describe('warp taken', () => {
  const plan = planOf({ pieces: [pieceOf([solid('A', 10)]), pieceOf([solid('A', 10)])] });
  const looms = [
    read('loom', { lengths: [40 * YARD] }, 0),
    read('loom', { lengths: [50 * YARD] }, 1),
  ];
  const whole: Happening = {
    kind: 'warpRead',
    reading: 'w',
    tiedOn: 95 * YARD + 200 + 300 + 150,
    frontWaste: 200,
    backWaste: 300,
    gaps: [150],
  };

  it('of 95 yd of warp for 90 yd of cloth is 5.56 % of the cloth (TAY p. 245)', () => {
    expect(100 * shareOf(figures(plan, [...looms, whole]).warpTaken)).toBeCloseTo(5.5556, 4);
  });

  it('is not learnt without the gaps, a waste or a loom length', () => {
    const { gaps: _, ...noGaps } = whole;
    const wants = (happenings: readonly Happening[]) => {
      const { warpTaken } = figures(plan, happenings);
      return warpTaken.kind === 'not-read' ? warpTaken.wants : [];
    };
    expect(wants([...looms, noGaps])).toEqual(['gaps']);
    expect(wants([...looms.slice(1), whole])).toEqual(['loom-length']);
    expect(wants([])).toEqual(['loom-length', 'tied-on', 'front-waste', 'back-waste', 'gaps']);
  });

  it('a warp of one piece has no gaps to be asked for', () => {
    const { gaps: _, ...noGaps } = whole;
    const one = planOf({ pieces: [pieceOf([solid('A', 10)])] });
    const { warpTaken } = figures(one, [read('loom', { lengths: [90 * YARD] }), noGaps]);
    expect(warpTaken.kind).toBe('read');
  });
});

describe('weft extra from the weight of a piece', () => {
  // 36 in at 24 epi and 20 ppi on 20 in: 480 ends of 8/2, 720 picks of 8/2, warp taken 10 %.
  const plan = exampleOf({
    ends: 480,
    epi: 24,
    ppi: 20,
    lengths: [36],
    warp: cotton(8, 2),
    weft: cotton(8, 2),
    shares: { warpTaken: 0.1 },
  });
  const yardsPerGram = 3360 / 453.59237;
  const warpYards = 480 * 1.1;
  const weftYards = (720 * 20) / 36;

  it('is what the picks weigh beyond straight lines across the reed', () => {
    const mass = (warpYards + weftYards * 1.08) / yardsPerGram;
    const it = figure(
      plan,
      'weftExtra',
      read('loom', { lengths: [36 * INCH] }),
      read('washed', { mass }),
    );
    expect(shareOf(it)).toBeCloseTo(0.08, 6);
  });

  it('is not believed where the label or the scale must be wrong', () => {
    const mass = (warpYards + weftYards * 1.6) / yardsPerGram;
    const it = figure(
      plan,
      'weftExtra',
      read('loom', { lengths: [36 * INCH] }),
      read('washed', { mass }),
    );
    expect(it.kind).toBe('implausible');
  });

  it('wants the fringe of a fringed piece, and counts it as warp', () => {
    const stitched = { kind: 'hemstitch', fringe: 100, twisted: false } as const;
    const [piece] = plan.pieces;
    if (piece === undefined) throw new Error('got no piece');
    const fringed = checked({
      ...plan,
      pieces: [{ ...piece, beginning: stitched, ending: stitched }],
    });
    const loom = read('loom', { lengths: [36 * INCH] });
    const mass = (warpYards + weftYards * 1.08 + (480 * 2 * 100) / 914.4) / yardsPerGram;
    expect(figure(fringed, 'weftExtra', loom, read('off', { mass }))).toEqual({
      kind: 'not-read',
      wants: ['fringe'],
    });
    const it = figure(fringed, 'weftExtra', loom, read('off', { mass, fringe: 100 }));
    expect(shareOf(it)).toBeCloseTo(0.08, 6);
  });
});

describe('twist', () => {
  const edge = (twisted: boolean) => ({ kind: 'hemstitch', fringe: 100, twisted }) as const;
  const plan = (twisted: boolean) =>
    planOf({
      yarns: yarns('A'),
      allowances: sharesFrom({}),
      pieces: [pieceOf([solid('A', 300)], { beginning: edge(twisted), ending: edge(twisted) })],
    });
  const sizes = [read('off', { lengths: [600] }), read('washed', { lengths: [540] })];

  it('is what a fringe lost beyond what its cloth lost: 100 → 90 by washing, 90 → 79.2 by 12 %', () => {
    const it = figure(
      plan(true),
      'twist',
      ...sizes,
      read('off', { fringe: 100 }),
      read('washed', { fringe: 79.2 }),
    );
    expect(shareOf(it)).toBeCloseTo(0.12, 9);
  });

  it('is not wanted where no fringe is twisted', () => {
    expect(figure(plan(false), 'twist', ...sizes)).toEqual({ kind: 'not-read', wants: [] });
    expect(figure(plan(true), 'twist')).toEqual({
      kind: 'not-read',
      wants: ['off-fringe', 'washed-fringe', 'off-length', 'washed-length'],
    });
  });
});

describe('laws', () => {
  it('relax and shrinkage come to the length loss, whatever was read', () => {
    const size = fc.double({ min: 300, max: 310, noNaN: true });
    fc.assert(
      fc.property(size, size, size, (loom, off, washed) => {
        const all = [
          read('loom', { lengths: [loom] }),
          read('off', { lengths: [off] }),
          read('washed', { lengths: [washed] }),
        ];
        const [relax, shrink, loss] = (['relax', 'shrinkLength', 'lengthLoss'] as const).map(
          (name) => shareOf(figure(PLAN, name, ...all)),
        );
        expect((1 - (relax ?? 0)) * (1 - (shrink ?? 0))).toBeCloseTo(1 - (loss ?? 0), 9);
      }),
      { numRuns: 50 },
    );
  });
});
