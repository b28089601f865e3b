import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NO_ADJUSTMENTS } from '../../../../src/core/bench/adjustments.ts';
import { type Course, layCourse } from '../../../../src/core/bench/course.ts';
import type { EndingContext } from '../../../../src/core/bench/endings/context.ts';
import type { Stop } from '../../../../src/core/bench/endings/ending.ts';
import { endingsOf } from '../../../../src/core/bench/endings/endings.ts';
import { planWith } from '../../../../src/core/bench/endings/revision.ts';
import { checkPlan } from '../../../../src/core/plan/checkPlan.ts';
import type { Block, Edge, Piece, Plan } from '../../../../src/core/plan/plan.ts';
import {
  alternation,
  INCH,
  NO_ALLOWANCES,
  pieceOf,
  planOf,
  planWeaving,
  solid,
  yarns,
} from '../../plan/samples.ts';
import { anyPlan, happening } from '../arbitraries.ts';
import { having } from '../logs.ts';
import { lengthByHand, picksOfPiece, sameByHand } from './byHand.ts';
import { contextAt, exactly, hemPicksOf } from './contexts.ts';

const laid = (plan: Plan) => layCourse(plan, NO_ADJUSTMENTS);
const turns = (n: number) => ({ kind: 'turns', turns: n }) as const;

function stopsOf(plan: Plan, pick: number, changes: Parameters<typeof contextAt>[2] = {}) {
  const course = laid(plan);
  return endingsOf(course, pick, contextAt(course, pick, changes)).stops;
}

/** Room for so many millimetres more than the piece is planned to need. */
const roomFor = (plan: Plan, pick: number, more: number): Partial<EndingContext> => {
  const course = laid(plan);
  const piece = course.pieces[0];
  const end = (piece?.firstPick ?? 0) + (piece?.picks ?? 0);
  return { warpLeft: exactly(lengthByHand(course, 0, pick, end) + more) };
};

const places = (stops: readonly Stop[]) =>
  stops.map(({ place, weftEnd }) => {
    switch (place.kind) {
      case 'turn':
        return `${weftEnd} turn ${place.turn} of ${place.of} in ${place.block}`;
      case 'beyond':
        return `${weftEnd} beyond ${place.motifs}+${place.turns}`;
      default:
        return `${weftEnd} ${place.kind} ${place.block}`;
    }
  });

describe('places to stop', () => {
  const plan = planWeaving('AB', [solid('A', 6), alternation('B2 A2', turns(3)), solid('A', 6)]);

  it('are the end of every turn and block to come', () => {
    expect(places(stopsOf(plan, 2, roomFor(plan, 2, 0)))).toEqual([
      '6 block 0',
      '8 turn 1 of 3 in 1',
      '10 turn 2 of 3 in 1',
      '12 block 1',
      '18 planned 2',
    ]);
  });

  it('include the fell itself where a turn ends there', () => {
    expect(places(stopsOf(plan, 8, roomFor(plan, 8, 0)))[0]).toBe('8 here 1');
    expect(places(stopsOf(plan, 9, roomFor(plan, 9, 0)))[0]).toBe('10 turn 2 of 3 in 1');
  });

  it('go on beyond the plan with what the weft would repeat, as far as the warp goes', () => {
    const beyond = (weft: readonly Block[], more: number) => {
      const it = planWeaving('ABC', weft);
      const pick = laid(it).picks;
      return places(stopsOf(it, pick, roomFor(it, pick, more * (INCH / 10)))).slice(1);
    };
    // One period more of a last alternation: 4 picks, turn by turn.
    expect(beyond([alternation('A1 B3', turns(3))], 7)).toEqual([
      '8 beyond 0+1',
      '9 beyond 1+0',
      '12 beyond 1+1',
    ]);
    // One time round more of a last repeat.
    expect(beyond([{ kind: 'repeat', times: 2, of: [solid('A', 2), solid('B', 3)] }], 6)).toEqual([
      '12 beyond 0+1',
      '15 beyond 1+0',
    ]);
    // The smallest tail that stands there twice: B4 C2, not the whole.
    expect(
      beyond([solid('A', 9), ...[1, 2].flatMap(() => [solid('B', 4), solid('C', 2)])], 6),
    ).toEqual(['25 beyond 0+1', '27 beyond 1+0']);
    // It ends as it began: A B C B A goes on B C B A.
    expect(
      beyond(
        ['A', 'B', 'C', 'B', 'A'].map((letter) => solid(letter, 2)),
        4,
      ),
    ).toEqual(['12 beyond 0+1', '14 beyond 0+2']);
    // Nothing repeats.
    expect(beyond([solid('A', 4), solid('B', 8)], 100)).toEqual([]);
  });

  it('a time round cut short by hand is no motif: beyond it the whole one follows', () => {
    const of = [solid('A', 4), solid('B', 3)];
    const repeated = planWeaving('AB', [{ kind: 'repeat', times: 3, of }]);
    const { course } = having(repeated, { kind: 'blockSet', piece: 0, block: 5, picks: 1 });
    const context = contextAt(course, 19, { warpLeft: exactly(7 * (INCH / 10)) });
    expect(places(endingsOf(course, 19, context).stops)).toEqual([
      '19 here 5',
      '23 beyond 0+1',
      '26 beyond 1+0',
    ]);
  });

  it('once the ending hem is begun there is no more than its end', () => {
    const hem: Edge = { kind: 'hem', washedAllowance: INCH, yarn: 'B' };
    const hemmed = planOf({
      yarns: yarns('AB'),
      pieces: [pieceOf([solid('A', 4), solid('A', 4)], { ending: hem })],
    });
    const [stop, ...others] = stopsOf(hemmed, 11);
    expect(others).toEqual([]);
    expect(stop).toMatchObject({ place: { kind: 'planned', block: 1 }, picks: 7, hemPicks: 10 });
    expect(stopsOf(hemmed, 18)).toMatchObject([{ place: { kind: 'here' }, picks: 0 }]);
  });
});

/*
 * Common practice, no source: motifs of 8 in in two opposite colours taking turns, A B A B woven,
 * 35 in wished.
 */
describe('motifs of 8 in taking turns, A B A B woven, 35 in wished and measured', () => {
  const motif = (yarn: string) => solid(yarn, 80);
  const plan = planOf({
    yarns: yarns('AB'),
    pieces: [
      pieceOf(['A', 'B', 'A', 'B'].map(motif), {
        wish: { state: 'loom', length: 35 * INCH },
      }),
    ],
  });
  const woven = 4 * 80;
  // Woven 32 in by the plan's beat, measured 35: the readings went through the course's gauge.
  const course = layCourse(plan, NO_ADJUSTMENTS, {
    yarns: [],
    pieces: new Map([[0, { reckoned: [0, 32 * INCH], loom: [0, 35 * INCH], slope: 1 }]]),
    slope: 1,
  });
  const stopsAt = (beat: NonNullable<Parameters<typeof contextAt>[2]>['beat']) =>
    endingsOf(course, woven, contextAt(course, woven, { beat: { fell: 35 * INCH, ...beat } }))
      .stops;
  const [here, oneMore] = stopsAt({});

  it('stopping there has the length, ends in B and does not read the same from both ends', () => {
    expect(here).toMatchObject({
      place: { kind: 'here' },
      picks: 0,
      reads: { same: 'no', begins: 0, ends: 1 },
    });
    expect(here?.fromWish?.mm).toBeCloseTo(0, 6);
  });

  it('one more motif makes 43 in and reads the same', () => {
    expect(oneMore).toMatchObject({
      place: { kind: 'beyond', motifs: 0, turns: 1 },
      picks: 80,
      reads: { same: 'exact', begins: 0, ends: 0 },
    });
    expect((oneMore?.lengths.loom.mm ?? 0) / INCH).toBeCloseTo(43, 6);
    expect((oneMore?.fromWish?.mm ?? 0) / INCH).toBeCloseTo(8, 6);
  });

  it('44 in measured then is within what the beat explains: 35/32 of its plan, give or take 3 %', () => {
    const [, drifted] = stopsAt({ fellDoubt: 3, factor: 35 / 32, factorDoubt: 0.03 });
    const { low, high } = drifted?.lengths.loom ?? { low: 0, high: 0 };
    expect(low).toBeLessThan(44 * INCH);
    expect(high).toBeGreaterThan(44 * INCH);
    // And 45 in would not be.
    expect(high).toBeLessThan(45 * INCH);
  });
});

describe('what a stop tells', () => {
  const hem: Edge = { kind: 'hem', washedAllowance: INCH };
  const share = (it: number) => ({ share: it, from: { kind: 'typed' as const } });
  const plan = planOf({
    yarns: yarns('AB'),
    allowances: {
      ...NO_ALLOWANCES,
      relax: share(0.04),
      shrinkLength: share(0.1),
      warpTaken: share(0.1),
    },
    pieces: [
      pieceOf([solid('A', 20), solid('B', 20), solid('A', 20)], {
        beginning: hem,
        ending: hem,
        wish: { state: 'washed', length: 100 },
      }),
    ],
  });
  const hemPicks = 12;
  const pick = hemPicks + 30;
  const stop = (changes: Parameters<typeof contextAt>[2]) =>
    stopsOf(plan, pick, changes).find((it) => it.place.kind === 'planned');

  it('lengths in every state, hems off the finished one, each with its interval', () => {
    const it = stop({ beat: { fellDoubt: 2, factor: 1.1, factorDoubt: 0.1 } });
    const ahead = (10 + 20 + hemPicks) * 2.54;
    const loom = (hemPicks + 30) * 2.54 + 1.1 * ahead;
    const half = Math.hypot(2, 0.1 * ahead);
    expect(it?.lengths.loom.mm).toBeCloseTo(loom, 9);
    expect(it?.lengths.loom.low).toBeCloseTo(loom - half, 9);
    expect(it?.lengths.off.high).toBeCloseTo((loom + half) * 0.96, 9);
    expect(it?.lengths.washed.mm).toBeCloseTo(loom * 0.96 * 0.9, 9);
    expect(it?.lengths.finished.low).toBeCloseTo((loom - half) * 0.96 * 0.9 - 2 * INCH, 9);
    expect(it?.fromWish?.mm).toBeCloseTo(loom * 0.96 * 0.9 - 100, 9);
  });

  it('picks to weave and their time, hem included', () => {
    expect(stop({ picksPerMinute: 6 })).toMatchObject({
      picks: 42,
      hemPicks,
      allPicks: 84,
      minutes: 7,
    });
    expect(stop({})?.minutes).toBeNull();
    expect(stop({ picksPerMinute: 0 })?.minutes).toBeNull();
  });

  it('whether the yarn lasts: 10 picks of B at 0.1 g, 32 of A', () => {
    const lasting = (grams: number, doubt: number) =>
      stop({
        yarnLeft: (yarn) =>
          yarn === 1 ? { grams, low: grams - doubt, high: grams + doubt } : null,
      })?.yarns;
    expect(lasting(1.1, 0.1)).toMatchObject([
      { yarn: 0, picks: 32, lasts: 'unknown', left: null },
      { yarn: 1, picks: 10, lasts: 'yes' },
    ]);
    expect(lasting(1, 0.1)?.[1]?.lasts).toBe('maybe');
    expect(lasting(0.8, 0.1)?.[1]?.lasts).toBe('no');
  });

  it('what it leaves of the warp: less the cloth to come and the fringe', () => {
    const ahead = 42 * 2.54;
    const warp = (mm: number, doubt: number) =>
      stop({
        warpLeft: { mm, low: mm - doubt, high: mm + doubt },
        beat: { fellDoubt: 3, factorDoubt: 4 / ahead },
        fringeAfter: () => 55,
      })?.warp;
    const need = ahead + 55 / 1.1;
    // The doubt about the fell is none about what is still to be woven: 12 and 4 make √160.
    expect(warp(need + 20, 12)?.leaves.mm).toBeCloseTo(20, 6);
    expect(warp(need + 20, 12)?.leaves.low).toBeCloseTo(20 - Math.sqrt(160), 6);
    expect(warp(need + 20, 12)?.verdict).toBe('fits');
    expect(warp(need + 10, 12)?.verdict).toBe('maybe');
    expect(warp(need - 12, 12)?.verdict).toBe('maybe');
    expect(warp(need - 13, 12)?.verdict).toBe('tooLong');
  });

  it('with later pieces, also what those leave, gaps between them off', () => {
    const edge: Edge = { kind: 'hemstitch', fringe: 33, twisted: false };
    const towel = pieceOf([solid('A', 20)], { beginning: edge, ending: edge });
    const two = planOf({
      pieces: [towel, towel],
      allowances: { ...NO_ALLOWANCES, warpTaken: share(0.1) },
    });
    const [first] = stopsOf(two, 10, { warpLeft: exactly(300), fringeAfter: () => 11 });
    expect(first?.warp.leaves.mm).toBeCloseTo(300 - 10 * 2.54 - 60, 6);
    expect(first?.warpAfterAll.leaves.mm).toBeCloseTo(300 - 30 * 2.54 - 60 - 10, 6);
  });
});

/** Every stop inside the plan, found by looking at every pick. */
function stopsByHand(course: Course, piece: number, pick: number) {
  const { plan } = course;
  const all = picksOfPiece(course, piece);
  const first = course.pieces[piece]?.firstPick ?? 0;
  const ending = plan.pieces[piece]?.ending;
  const weftEnd = all.findLastIndex((it) => !it.isHem) + 1;
  const isBegun = all.length > weftEnd && first + weftEnd < pick;
  const { firstBlock = 0, blocks = 0 } = course.pieces[piece] ?? {};
  const last = course.blocks[firstBlock + blocks - 1];
  const isHemSet =
    last?.laid.block === null &&
    last.laid.source.endsWith('ending') &&
    course.adjustments.blocks.some((it) => it.piece === piece && it.block === last.ofPiece);
  if (isBegun) return [{ weftEnd: first + weftEnd, hemPicks: all.length - weftEnd, pieces: all }];
  return all.flatMap((it, i) => {
    if (it.isHem || !it.endsTurn || first + i + 1 < pick) return [];
    const asked = ending === undefined ? 0 : hemPicksOf(plan)(ending, it.yarn);
    const hemPicks = isHemSet ? all.length - weftEnd : asked;
    const named = ending?.kind === 'hemstitch' ? undefined : ending?.yarn;
    const yarn = named === undefined ? it.yarn : plan.yarns.findIndex((y) => y.letter === named);
    const spacing = plan.yarns[yarn]?.pickSpacing ?? plan.weaving.pickSpacing;
    const hem = Array.from({ length: hemPicks }, () => ({ ...it, yarn, spacing, isHem: true }));
    return [{ weftEnd: first + i + 1, hemPicks, pieces: [...all.slice(0, i + 1), ...hem] }];
  });
}

const someCourse = anyPlan.chain((plan) =>
  fc
    .tuple(fc.array(happening(plan), { maxLength: 6 }), fc.nat(), fc.constantFrom(0.9, 1, 1.2))
    .map(([happenings, n, factor]) => {
      const { course } = having(plan, ...happenings);
      const pieces = course.pieces.filter((it) =>
        picksOfPiece(course, it.index).some((p) => !p.isHem),
      );
      const piece = pieces[n % Math.max(1, pieces.length)];
      const pick = piece === undefined ? 0 : piece.firstPick + (n % (piece.picks + 1));
      return { course, piece: piece?.index ?? -1, pick, factor };
    }),
);

describe('stops against every pick looked at', () => {
  it('law: none is missed and none invented within the plan', () => {
    fc.assert(
      fc.property(someCourse, ({ course, piece, pick, factor }) => {
        fc.pre(piece >= 0);
        const context = contextAt(course, pick, {
          piece,
          beat: { factor },
          warpLeft: exactly(200),
        });
        const { stops } = endingsOf(course, pick, context);
        const byHand = stopsByHand(course, piece, pick);
        const within = stops.filter((it) => it.place.kind !== 'beyond');
        expect(within.map((it) => it.weftEnd)).toEqual(byHand.map((it) => it.weftEnd));
        const first = course.pieces[piece]?.firstPick ?? 0;
        for (const [i, stop] of within.entries()) {
          const hand = byHand[i];
          if (hand === undefined) continue;
          const mmOf = (at: number, spacing: number) =>
            first + at < pick ? spacing : spacing * factor;
          const seen = hand.pieces.map((it, at) => ({ yarn: it.yarn, mm: mmOf(at, it.spacing) }));
          expect(stop.allPicks).toBe(hand.pieces.length);
          expect(stop.hemPicks).toBe(hand.hemPicks);
          expect(stop.picks).toBe(Math.max(0, first + hand.pieces.length - pick));
          expect(stop.lengths.loom.mm).toBeCloseTo(
            seen.reduce((sum, it) => sum + it.mm, 0),
            6,
          );
          expect(stop.reads).toEqual({
            same: sameByHand(course.plan, seen),
            begins: seen[0]?.yarn,
            ends: seen.at(-1)?.yarn,
          });
          expect(stop.yarns.map((it) => [it.yarn, it.picks])).toEqual(
            course.plan.yarns.flatMap((_, yarn) => {
              const toWeave = hand.pieces.slice(Math.max(0, pick - first));
              const picks = toWeave.filter((it) => it.yarn === yarn).length;
              return picks === 0 ? [] : [[yarn, picks]];
            }),
          );
        }
      }),
    );
  });

  it('law: beyond the plan they are those of a plan that has more of its motif', () => {
    const letters = ['A', 'B', 'C'];
    const someSolid = fc.record({
      yarn: fc.constantFrom(...letters),
      picks: fc.integer({ min: 1, max: 4 }),
    });
    const motifs = fc.array(someSolid, { minLength: 1, maxLength: 3 });
    fc.assert(
      fc.property(
        motifs,
        motifs,
        fc.integer({ min: 1, max: 3 }),
        fc.integer({ min: 1, max: 6 }),
        (before, motif, times, n) => {
          const solids = (list: typeof motif) => list.map((it) => solid(it.yarn, it.picks));
          const rounds = (k: number): Block => ({ kind: 'repeat', times: k, of: solids(motif) });
          const plan = planWeaving('ABC', [...solids(before), rounds(times)]);
          const longer = planWeaving('ABC', [...solids(before), rounds(times + n)]);
          const pick = laid(plan).picks;
          const beyond = (it: Plan) => stopsByHand(laid(it), 0, pick).map((stop) => stop.weftEnd);
          const most = laid(longer).picks;
          const room = roomFor(plan, pick, (most - pick) * (INCH / 10));
          expect(stopsOf(plan, pick, room).map((it) => it.weftEnd)).toEqual(beyond(longer));
        },
      ),
    );
  });
});

function letters(course: Course, piece: number): string {
  return picksOfPiece(course, piece)
    .map((it) => course.plan.yarns[it.yarn]?.letter)
    .join('');
}

describe('a stop adopted', () => {
  it('law: makes a sound plan with exactly the promised picks, woven picks and later pieces as they were', () => {
    fc.assert(
      fc.property(someCourse, fc.nat(), ({ course, piece, pick, factor }, n) => {
        fc.pre(piece >= 0);
        const context = contextAt(course, pick, {
          piece,
          beat: { factor },
          warpLeft: exactly(500),
        });
        const { stops } = endingsOf(course, pick, context);
        const stop = stops[n % stops.length];
        if (stop === undefined) throw new Error('no stop');
        const next = planWith(course.plan, stop.revision());
        expect(checkPlan(next)).toMatchObject({ ok: true });
        const again = laid(next);
        const first = course.pieces[piece]?.firstPick ?? 0;
        const woven = letters(course, piece).slice(0, Math.max(0, pick - first));
        expect(letters(again, piece)).toHaveLength(stop.allPicks);
        expect(letters(again, piece).slice(0, woven.length)).toBe(woven);
        if (stop.place.kind !== 'beyond') {
          const weft = letters(course, piece).slice(0, stop.weftEnd - first);
          expect(letters(again, piece).slice(0, stop.weftEnd - first)).toBe(weft);
        }
        for (const it of course.pieces.slice(piece + 1))
          expect(letters(again, it.index)).toBe(letters(course, it.index));
        const pieceNow: Piece | undefined = next.pieces[piece];
        expect(pieceNow).toMatchObject({
          name: 'Piece',
          startShed: course.plan.pieces[piece]?.startShed,
        });
      }),
    );
  });

  it('beyond the plan a last alternation goes on, and a last repeat goes round more often', () => {
    const revised = (weft: readonly Block[], more: number) => {
      const plan = planWeaving('AB', weft);
      const pick = laid(plan).picks;
      const stops = stopsOf(plan, pick, roomFor(plan, pick, more * (INCH / 10)));
      return stops.at(-1)?.revision().pieces[0]?.weft;
    };
    expect(revised([alternation('A1 B3', turns(3))], 8)).toEqual([alternation('A1 B3', turns(7))]);
    const of = [solid('A', 2), solid('B', 3)];
    expect(revised([{ kind: 'repeat', times: 2, of }], 12)).toEqual([
      { kind: 'repeat', times: 4, of },
      solid('A', 2),
    ]);
  });
});
