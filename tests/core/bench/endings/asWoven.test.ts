import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NO_ADJUSTMENTS } from '../../../../src/core/bench/adjustments.ts';
import { type Course, layCourse } from '../../../../src/core/bench/course.ts';
import { asBlocks } from '../../../../src/core/bench/endings/woven/asBlocks.ts';
import { pieceAsWoven } from '../../../../src/core/bench/endings/woven/asWoven.ts';
import { pickAt, yarnAt } from '../../../../src/core/bench/pickAt.ts';
import { layWeft, withLongerLastTurn, withPicks } from '../../../../src/core/plan/blocks.ts';
import { checkPlan } from '../../../../src/core/plan/checkPlan.ts';
import type { Block, Edge, Plan } from '../../../../src/core/plan/plan.ts';
import {
  alternation,
  INCH,
  pieceOf,
  planOf,
  planWeaving,
  solid,
  yarns,
} from '../../plan/samples.ts';
import { anyPlan, happening } from '../arbitraries.ts';
import { having } from '../logs.ts';

const turns = (n: number) => ({ kind: 'turns', turns: n }) as const;

/** What the only laid block of a weft reads as. */
function readBack(block: Block, change = (it: ReturnType<typeof layWeft>[number]) => it) {
  const plan = planWeaving('ABC', [block]);
  return layWeft(plan, 0).flatMap((laid) => asBlocks(change(laid), plan));
}

describe('a laid block in words of the plan', () => {
  it('a solid by length is its picks', () => {
    const block = { ...solid('A', 1), extent: { kind: 'length', loomLength: INCH } } as const;
    expect(readBack(block)).toEqual([solid('A', 10)]);
  });

  it('an alternation by picks is its turns, cycle and path as planned', () => {
    const block = alternation('A1 B2 C3', { kind: 'picks', picks: 11 }, { path: 'there-and-back' });
    const { closes: _, ...planned } = { ...block, extent: turns(6), closes: undefined };
    expect(readBack(block)).toEqual([planned]);
  });

  it('keeps name, spacing, resting and starting sides, but not the closing yarn', () => {
    const said = {
      name: 'Border',
      pickSpacing: 2,
      resting: { A: { mode: 'cut' } },
      starts: { B: 'left' },
    } as const;
    const block = alternation('A2 B2', turns(3), { ...said, closes: 'A' });
    expect(readBack(block)).toEqual([alternation('A2 B2', turns(3), said)]);
  });

  it('cut inside a turn is an alternation and a solid: A2 B4 A2 B4 cut to 11 picks', () => {
    const block = alternation('A2 B4', turns(4));
    expect(readBack(block, (laid) => withPicks(laid, 11))).toEqual([
      alternation('A2 B4', turns(3)),
      solid('B', 3),
    ]);
  });

  it('stretched in its last turn is an alternation and a solid as well', () => {
    const block = alternation('A2 B4', turns(2));
    expect(readBack(block, (laid) => withLongerLastTurn(laid, 3))).toEqual([
      alternation('A2 B4', turns(1)),
      solid('B', 7),
    ]);
  });

  it('without picks is no block', () => {
    expect(readBack(alternation('A2 B4', turns(2)), (laid) => withPicks(laid, 0))).toEqual([]);
  });

  it('mirrored there and back goes round the whole period from its first turn', () => {
    const half = alternation('A1 B2 C3', turns(3), { path: 'there-and-back', opens: 'B' });
    const plan = planWeaving('ABC', [{ kind: 'mirror', centre: 'doubled', of: [half] }]);
    // B C B, and backwards B C B A B C …
    const back = layWeft(plan, 0)[1];
    expect(back === undefined ? [] : asBlocks(back, plan)).toEqual([
      alternation('B2 C3 B2 A1', turns(3)),
    ]);
  });

  it('of a period longer than a cycle may be is said turn by turn', () => {
    const letters = 'ABCDEFGHIJKLMNO';
    const cycle = [...letters].map((letter) => `${letter}1`).join(' ');
    const half = alternation(cycle, turns(30), { path: 'there-and-back' });
    const plan = planWeaving(letters, [{ kind: 'mirror', centre: 'doubled', of: [half] }]);
    const back = layWeft(plan, 0)[1];
    const blocks = back === undefined ? [] : asBlocks(back, plan);
    expect(blocks[0]).toMatchObject({ kind: 'repeat', times: 1 });
    expect(checkPlan({ ...plan, pieces: [pieceOf(blocks)] }).ok).toBe(true);
    expect(yarnsOf(laidAgain({ ...plan, pieces: [pieceOf(blocks)] }), 0)).toBe(
      yarnsOf(laidAgain(plan), 0).slice(30),
    );
  });
});

const laidAgain = (plan: Plan) => layCourse(plan, NO_ADJUSTMENTS);

/** Letter of every pick of a piece. */
function yarnsOf(course: Course, piece: number): string {
  const it = course.pieces[piece];
  if (it === undefined) throw new Error('no such piece');
  return Array.from(
    { length: it.picks },
    (_, k) => course.plan.yarns[yarnAt(course, it.firstPick + k)]?.letter,
  ).join('');
}

function asWoven(course: Course): Plan {
  return { ...course.plan, pieces: course.pieces.map((it) => pieceAsWoven(course, it.index)) };
}

describe('a piece as woven', () => {
  const motif = [solid('A', 4), solid('B', 4)];
  const repeat = { kind: 'repeat', times: 4, name: 'Motif', of: motif } as const;

  it('times round that came out alike stay a repeat with its name, the one cut short stands alone', () => {
    const plan = planWeaving('AB', [repeat]);
    const { course } = having(plan, { kind: 'blockSet', piece: 0, block: 4, picks: 3 });
    expect(pieceAsWoven(course, 0).weft).toEqual([
      { ...repeat, times: 2 },
      { ...repeat, times: 1, of: [solid('A', 3), solid('B', 4)] },
      { ...repeat, times: 1 },
    ]);
  });

  it('keeps a hem as it is when it is woven as its edge says', () => {
    const hem: Edge = { kind: 'hem', washedAllowance: INCH, yarn: 'B' };
    const plan = planOf({
      yarns: yarns('AB'),
      pieces: [pieceOf([solid('A', 4)], { beginning: hem, ending: hem })],
    });
    expect(pieceAsWoven(laidAgain(plan), 0)).toEqual(plan.pieces[0]);
  });

  it('a hem of another number of picks changes its allowance, an odd pick goes to the weft', () => {
    const hem: Edge = { kind: 'hem', washedAllowance: INCH };
    const plan = planOf({
      yarns: yarns('AB'),
      pieces: [pieceOf([solid('A', 4)], { beginning: hem, ending: hem })],
    });
    const { course } = having(
      plan,
      { kind: 'blockSet', piece: 0, block: 0, picks: 13 },
      { kind: 'blockSet', piece: 0, block: 2, picks: 8 },
    );
    const piece = pieceAsWoven(course, 0);
    expect(piece.weft).toEqual([solid('A', 1), solid('A', 4)]);
    expect(piece.beginning).toMatchObject({ kind: 'hem' });
    expect(piece.beginning).toHaveProperty('washedAllowance', expect.closeTo(1.2 * INCH, 9));
    expect(piece.ending).toHaveProperty('washedAllowance', expect.closeTo(0.8 * INCH, 9));
  });

  it('names the yarn of a hem whose neighbour was cut away', () => {
    const hem: Edge = { kind: 'hem', washedAllowance: INCH };
    const plan = planOf({
      yarns: yarns('AB'),
      pieces: [pieceOf([solid('A', 4), solid('B', 4)], { beginning: hem })],
    });
    const { course } = having(plan, { kind: 'blockSet', piece: 0, block: 1, picks: 0 });
    expect(pieceAsWoven(course, 0)).toMatchObject({
      beginning: { ...hem, yarn: 'A' },
      weft: [solid('B', 4)],
    });
  });

  it('of more blocks than a list may have is grouped and still a plan', () => {
    const stripes = Array.from({ length: 150 }, (_, n) => [
      solid('A', n + 1),
      solid('B', 1),
    ]).flat();
    const of = (from: number) =>
      ({ kind: 'repeat', times: 1, of: stripes.slice(from, from + 150) }) as const;
    const plan = planWeaving('AB', [of(0), of(150)]);
    const piece = pieceAsWoven(laidAgain(plan), 0);
    expect(piece.weft).toHaveLength(2);
    expect(checkPlan({ ...plan, pieces: [piece] }).ok).toBe(true);
    expect(yarnsOf(laidAgain({ ...plan, pieces: [piece] }), 0)).toBe(yarnsOf(laidAgain(plan), 0));
  });

  it('law: laid again it has the same yarn at every pick, whatever was changed on the way', () => {
    fc.assert(
      fc.property(
        anyPlan.chain((plan) => fc.tuple(fc.constant(plan), fc.array(happening(plan)))),
        ([plan, happenings]) => {
          const { course } = having(plan, ...happenings);
          fc.pre(course.pieces.every((it) => hasWeft(course, it.index)));
          const again = asWoven(course);
          expect(checkPlan(again)).toMatchObject({ ok: true });
          const next = laidAgain(again);
          for (const { index } of course.pieces)
            expect(yarnsOf(next, index)).toBe(yarnsOf(course, index));
        },
      ),
      { numRuns: 200 },
    );
  });

  it('law: sides, sheds and what the shuttles do stay too, as long as no hem is odd', () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        const course = laidAgain(plan);
        const next = laidAgain(asWoven(course));
        for (let n = 0; n < course.picks; n++) {
          const [was, is] = [pickAt(course, n), pickAt(next, n)];
          expect({ from: is?.from, shed: is?.shed, coming: is?.coming?.entry }).toEqual({
            from: was?.from,
            shed: was?.shed,
            coming: was?.coming?.entry,
          });
        }
      }),
    );
  });
});

function hasWeft(course: Course, piece: number): boolean {
  return course.blocks.some((it) => it.piece === piece && it.laid.block !== null && it.picks > 0);
}
