import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NO_ADJUSTMENTS } from '../../../src/core/bench/adjustments.ts';
import { type Course, layCourse } from '../../../src/core/bench/course.ts';
import { pickRows } from '../../../src/core/bench/scene.ts';
import { washedBeat, washedLength, washedSett } from '../../../src/core/measure/clothState.ts';
import { pixelOf } from '../../../src/core/plan/clothPicture.ts';
import {
  endsPerMm,
  fringeOnLoom,
  gapAfter,
  hemOnLoom,
  sharesOf,
} from '../../../src/core/plan/geometry.ts';
import type { Allowances, Edge, Plan } from '../../../src/core/plan/plan.ts';
import {
  type ClothPart,
  type ClothPlan,
  clothPlan,
  endWidth,
  stitchGroups,
  windowCells,
} from '../../../src/core/planner/clothPlan.ts';
import { BARE, type Band } from '../../../src/core/planner/clothRows.ts';
import { anyPlan } from '../bench/arbitraries.ts';
import {
  alternation,
  BASE,
  INCH,
  NO_ALLOWANCES,
  pieceOf,
  planOf,
  solid,
  solidOfLength,
  yarns,
} from '../plan/samples.ts';

const courseOf = (plan: Plan): Course => layCourse(plan, NO_ADJUSTMENTS);
const onLoom = (plan: Plan): ClothPlan => clothPlan(courseOf(plan), { state: 'loom' });
const washed = (plan: Plan): ClothPlan => clothPlan(courseOf(plan), { state: 'washed' });

function partOf(cloth: ClothPlan, i = 0): ClothPart {
  const part = cloth.parts[i];
  if (part === undefined) throw new Error(`got no part ${i}`);
  return part;
}

const lengthOf = ({ from, to }: Band) => to - from;
const bandsOf = (part: ClothPart, kind: Band['kind']) =>
  part.bands.filter((band) => band.kind === kind);
const bodyOf = (part: ClothPart) => lengthOf(bandsOf(part, 'body')[0] ?? fail());
const fail = (): never => {
  throw new Error('got no such band');
};

const losing = (shares: Partial<Record<keyof Allowances, number>>): Allowances => {
  const typed = Object.entries(shares).map(([name, share]) => [
    name,
    { share, from: { kind: 'typed' } },
  ]);
  return { ...NO_ALLOWANCES, ...Object.fromEntries(typed) };
};

describe('the cloth washed', () => {
  it('10 in are what is left of 12½ woven, at 20 % shrinkage (CNC)', () => {
    const plan = planOf({
      allowances: losing({ shrinkLength: 0.2 }),
      pieces: [pieceOf([solid('A', 125)])],
    });
    // A pick is a tenth of an inch.
    expect(bodyOf(partOf(washed(plan))) / INCH).toBeCloseTo(10, 9);
    const wide = planOf({ allowances: losing({ shrinkWidth: 0.2 }) });
    expect(washed(wide).clothWidth).toBeCloseTo(0.8 * onLoom(wide).clothWidth, 9);
  });

  it('14 in less 9 % and then 12 % are 11.21 in (check values, rule)', () => {
    const plan = planOf({
      allowances: losing({ relax: 0.09, shrinkLength: 0.12 }),
      pieces: [pieceOf([solidOfLength('A', 14 * INCH)])],
    });
    expect(bodyOf(partOf(washed(plan))) / INCH).toBeCloseTo(11.21, 2);
  });

  it('has cells as high over as wide as its beat and sett make them', () => {
    const share = fc.double({ min: 0, max: 0.3, noNaN: true });
    const shares = fc.record({
      drawIn: share,
      relax: share,
      shrinkWidth: share,
      shrinkLength: share,
    });
    fc.assert(
      fc.property(shares, (lost) => {
        const plan = planOf({ allowances: losing(lost) });
        const cloth = washed(plan);
        const { at } = partOf(cloth).rows;
        const seen = ((at[1] ?? 0) - (at[0] ?? 0)) / endWidth(cloth);
        const sett = washedSett(endsPerMm(plan.loom), sharesOf(plan));
        const beat = washedBeat(1 / plan.weaving.pickSpacing, sharesOf(plan));
        expect(seen).toBeCloseTo(sett / beat, 9);
      }),
    );
  });

  it('shows a hem turned under and its sheds running on, a fringe as wished', () => {
    const plan = planOf({
      allowances: losing({ shrinkLength: 0.1, twist: 0.12 }),
      pieces: [
        pieceOf([solid('A', 8)], {
          beginning: { kind: 'hem', washedAllowance: 9 * 2.54 },
          ending: { kind: 'hemstitch', fringe: 30, twisted: true },
        }),
      ],
    });
    const part = partOf(washed(plan));
    expect(part.rows.count).toBe(8);
    expect(part.bands.map(({ kind }) => kind)).toEqual(['fold', 'body', 'fringe']);
    expect(part.length).toBeCloseTo(8 * 2.54 * 0.9 + 30, 9);
    expect(bandsOf(part, 'fold')).toMatchObject([{ depth: (9 * 2.54) / 2, from: 0, to: 0 }]);
    // Ten picks of hem were woven first: the piece's ninth pick has the shed of its first.
    expect(part.rows.sheds[0]).toBe(partOf(onLoom(plan)).rows.sheds[10]);
  });
});

// Check values, "Colour and weave": plain, warp AABB, weft AABB, through a plan.
describe('colour and weave in a plan', () => {
  const plan = planOf({
    loom: { ...BASE.loom, kind: 'shaft' },
    warp: {
      order: [
        {
          kind: 'alternation',
          cycle: [
            { yarn: 'A', ends: 2 },
            { yarn: 'B', ends: 2 },
          ],
          turns: 4,
        },
      ],
      viewpoint: 'front',
    },
    pieces: [pieceOf([alternation('A2 B2', { kind: 'turns', turns: 4 })], { startShed: 'odd' })],
  });
  const [a] = yarns('AB').map(({ colour }) => pixelOf(colour));
  it.each([
    [0, 0, 'AABA/AAAB/ABBB/BABB'],
    [2, 2, 'BBAB/BBBA/BAAA/ABAA'],
  ])('phase (%i, %i) is %s', (p, e, cloth) => {
    const cloths = onLoom(plan);
    const cells = windowCells(cloths, partOf(cloths), { ends: [e, e + 4], rows: [p, p + 4] });
    const letters = Array.from(cells, (cell) => (cell === a ? 'A' : 'B')).join('');
    expect(letters.match(/..../g)?.join('/')).toBe(cloth);
  });
});

describe('hemstitched groups', () => {
  it('393 ends in sixes are 65 groups, three of them of seven (practice)', () => {
    const groups = stitchGroups(393, 6);
    expect(groups).toHaveLength(65);
    expect(groups.filter((ends) => ends === 7)).toHaveLength(3);
  });

  it('take every end once, and no group has two more than another', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 3000 }), fc.integer({ min: 1, max: 20 }), (n, size) => {
        const groups = stitchGroups(n, size);
        expect(groups.reduce((sum, ends) => sum + ends, 0)).toBe(n);
        expect(Math.max(...groups) - Math.min(...groups)).toBeLessThanOrEqual(1);
      }),
    );
  });
});

describe('the whole cloth', () => {
  it('has the yarn and the shed of every pick of the course, on the loom', () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        const course = courseOf(plan);
        const { colours, sheds } = partOf(onLoom(plan)).rows;
        const picks = course.pieces.flatMap((piece) =>
          pickRows(course, piece, piece.firstPick, piece.firstPick + piece.picks),
        );
        const woven = [...sheds.keys()].filter((row) => sheds[row] !== BARE);
        expect(woven.map((row) => sheds[row])).toEqual(picks.map(({ shed }) => shed));
        const colourOf = (yarn: number) => pixelOf(plan.yarns[yarn]?.colour ?? '');
        expect(woven.map((row) => colours[row])).toEqual(
          picks.map(({ yarn }) => colourOf(yarn ?? -1)),
        );
      }),
    );
  });

  it('is on the loom as long as its pieces, their gaps and the outer fringes', () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        const part = partOf(onLoom(plan));
        const pieces = courseOf(plan).pieces;
        const outer = [plan.pieces[0]?.beginning, plan.pieces.at(-1)?.ending];
        const wanted =
          pieces.reduce((sum, { loomLength, gapAfter: gap }) => sum + loomLength + gap, 0) +
          outer.reduce((sum, edge) => sum + fringeOnLoom(plan, edge ?? fail()), 0);
        expect(part.length).toBeCloseTo(wanted, 6);
        expect(part.rows.at[part.rows.count]).toBeCloseTo(wanted, 6);
      }),
    );
  });

  it('leaves between two pieces the gap that the warp is measured with', () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        const { bands } = partOf(onLoom(plan));
        for (const [i, band] of bands.entries()) {
          if (band.kind !== 'cut') continue;
          const around = [bands[i - 1], band, bands[i + 1]].filter(
            (it) => it?.kind === 'fringe' || it?.kind === 'cut',
          );
          const gap = around.reduce((sum, it) => sum + lengthOf(it ?? fail()), 0);
          expect(gap).toBeCloseTo(gapAfter(plan, band.piece), 9);
        }
        expect(bandsOf(partOf(onLoom(plan)), 'cut')).toHaveLength(plan.pieces.length - 1);
      }),
    );
  });

  it('has hems, fringes and bodies of the lengths of the plan, in both states', () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        const loom = partOf(onLoom(plan)).bands;
        for (const [i, part] of washed(plan).parts.entries()) {
          const piece = plan.pieces[i] ?? fail();
          const here = loom.filter((band) => band.piece === i);
          const body = here.find(({ kind }) => kind === 'body') ?? fail();
          expect(bodyOf(part)).toBeCloseTo(washedLength(lengthOf(body), sharesOf(plan)), 9);
          expectEdge(plan, piece.beginning, 'beginning', here, part.bands);
          expectEdge(plan, piece.ending, 'ending', here, part.bands);
        }
      }),
    );
  });

  it('is one stretch after another: every band begins where the one before it ended', () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        for (const part of [...onLoom(plan).parts, ...washed(plan).parts]) {
          let at = 0;
          for (const band of part.bands) {
            expect(band.from).toBeCloseTo(at, 9);
            at = band.to;
          }
          expect(at).toBeCloseTo(part.length, 9);
        }
      }),
    );
  });

  it('of one piece is that piece alone', () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        plan.pieces.forEach((_, piece) => {
          const alone = partOf(clothPlan(courseOf(plan), { state: 'washed', piece }));
          expect(alone.rows).toEqual(partOf(washed(plan), piece).rows);
        });
      }),
    );
    expect(() => clothPlan(courseOf(BASE), { state: 'loom', piece: 1 })).toThrow('got piece 1');
  });

  it('seen from the back of the loom is its mirror image', () => {
    const order = [
      { kind: 'solid', yarn: 'A', ends: 3 },
      { kind: 'solid', yarn: 'B', ends: 1 },
    ] as const;
    const front = onLoom(planOf({ warp: { order, firstEnd: 'slot', viewpoint: 'front' } }));
    const back = onLoom(planOf({ warp: { order, firstEnd: 'slot', viewpoint: 'back' } }));
    expect(back.ends).toEqual(front.ends.toReversed());
    // Of an even number of ends the last one is up where the first is not.
    expect(back.lifts).toEqual(front.lifts.map((lift) => lift.toReversed()));
    expect(back.lifts).not.toEqual(front.lifts);
  });
});

function expectEdge(
  plan: Plan,
  edge: Edge,
  end: 'beginning' | 'ending',
  loom: readonly Band[],
  bands: readonly Band[],
): void {
  const at = (list: readonly Band[]) => list.find((band) => 'end' in band && band.end === end);
  const [woven, done] = [at(loom), at(bands)];
  if (edge.kind === 'hemstitch') {
    expect(lengthOf(woven ?? fail())).toBeCloseTo(fringeOnLoom(plan, edge), 9);
    expect(lengthOf(done ?? fail())).toBeCloseTo(edge.fringe, 9);
    return;
  }
  if (hemOnLoom(plan, edge) === 0) {
    expect([woven, done]).toEqual([undefined, undefined]);
    return;
  }
  // Whole picks, and an even number of them: off by one pick of the coarsest yarn at most.
  const off = Math.abs(lengthOf(woven ?? fail()) - hemOnLoom(plan, edge));
  expect(off).toBeLessThanOrEqual(2 * 3 + 1e-9);
  if (edge.kind === 'hem') expect(done).toMatchObject({ depth: edge.washedAllowance / 2 });
  else
    expect(lengthOf(done ?? fail())).toBeCloseTo(
      washedLength(lengthOf(woven ?? fail()), sharesOf(plan)),
      9,
    );
}

describe('a window of the cloth', () => {
  it('has the cells the whole cloth has there', () => {
    fc.assert(
      fc.property(anyPlan, fc.array(fc.nat(), { minLength: 4, maxLength: 4 }), (plan, some) => {
        const cloth = onLoom(plan);
        const part = partOf(cloth);
        const [ends, rows] = [cloth.ends.length, part.rows.count];
        const whole = windowCells(cloth, part, { ends: [0, ends], rows: [0, rows] });
        const [a = 0, b = 0, c = 0, d = 0] = some;
        const across = [a % (ends + 1), b % (ends + 1)].sort((x, y) => x - y);
        const along = [c % (rows + 1), d % (rows + 1)].sort((x, y) => x - y);
        const [e0 = 0, e1 = 0, r0 = 0, r1 = 0] = [...across, ...along];
        const cells = windowCells(cloth, part, { ends: [e0, e1], rows: [r0, r1] });
        const wanted = Array.from({ length: r1 - r0 }, (_, row) => [
          ...whole.subarray((r0 + row) * ends + e0, (r0 + row) * ends + e1),
        ]);
        expect([...cells]).toEqual(wanted.flat());
      }),
    );
  });
});

describe('a page of washed pieces', () => {
  it('holds them all, apart from each other', () => {
    fc.assert(
      fc.property(anyPlan, fc.constantFrom(0.3, 1, 3), (plan, aspect) => {
        const cloth = clothPlan(courseOf(plan), { state: 'washed', aspect });
        const boxes = cloth.parts.map(({ left, top, length }) => ({
          left,
          top,
          right: left + cloth.clothWidth,
          bottom: top + length,
        }));
        for (const [i, box] of boxes.entries()) {
          expect(Math.min(box.left, box.top)).toBeGreaterThanOrEqual(-1e-9);
          expect(box.right).toBeLessThanOrEqual(cloth.width + 1e-9);
          expect(box.bottom).toBeLessThanOrEqual(cloth.height + 1e-9);
          for (const other of boxes.slice(0, i)) {
            const beside = box.left > other.right || other.left > box.right;
            expect(beside || box.top > other.bottom || other.top > box.bottom).toBe(true);
          }
        }
      }),
    );
  });

  it('lies side by side where there is width, and one below the other where there is not', () => {
    const pieces = [pieceOf([solid('A', 10)]), pieceOf([solid('A', 10)])];
    const course = courseOf(planOf({ pieces }));
    const placed = (aspect: number) =>
      clothPlan(course, { state: 'washed', aspect }).parts.map(({ left, top }) => [
        left > 0,
        top > 0,
      ]);
    expect(placed(4)).toEqual([
      [false, false],
      [true, false],
    ]);
    expect(placed(0.2)).toEqual([
      [false, false],
      [false, true],
    ]);
  });
});
