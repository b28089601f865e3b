import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NO_ADJUSTMENTS } from '../../../src/core/bench/adjustments.ts';
import { layCourse } from '../../../src/core/bench/course.ts';
import { type Due, duesOf } from '../../../src/core/bench/dues.ts';
import { happened } from '../../../src/core/bench/happened.ts';
import { nextDue, openDues, roomBeforeAdvance } from '../../../src/core/bench/openDues.ts';
import type { Progress } from '../../../src/core/bench/progress.ts';
import type { Plan } from '../../../src/core/plan/plan.ts';
import { alternation, BASE, pieceOf, planOf, planWeaving, solid, yarns } from '../plan/samples.ts';
import { anyPlan, happening } from './arbitraries.ts';
import { having, takenOut, thrown } from './logs.ts';
import { weave } from './weaver.ts';

const duesIn = (plan: Plan): readonly Due[] => duesOf(layCourse(plan, NO_ADJUSTMENTS));
const told = (dues: readonly Due[]) => dues.map((due) => `${due.at} ${due.kind}`);
const open = (progress: Progress) => openDues(progress).map((due) => due.id);

const FRINGE = { kind: 'hemstitch', fringe: 50, twisted: false } as const;
const stitched = { beginning: FRINGE, ending: FRINGE };
const TWO_TOWELS = planOf({
  yarns: yarns('AB'),
  pieces: [pieceOf([solid('A', 10), solid('B', 6)], stitched), pieceOf([solid('B', 12)], stitched)],
});

describe('what is due', () => {
  it('for two hemstitched towels', () => {
    expect(told(duesIn(TWO_TOWELS))).toEqual([
      '0 tail',
      '4 hemstitch',
      '16 endTail',
      '16 hemstitch',
      '16 cutYarns',
      '16 gap',
      '16 tail',
      '20 hemstitch',
      '28 endTail',
      '28 hemstitch',
      '28 cutOff',
    ]);
  });

  it('for a hem in its own yarn: where it begins and where it ends', () => {
    const hem = { kind: 'hem', washedAllowance: 12, yarn: 'B' } as const;
    const plan = planOf({
      weaving: { ...BASE.weaving, pickSpacing: 2 },
      pieces: [pieceOf([solid('A', 10)], { beginning: hem, ending: hem })],
    });
    expect(told(duesIn(plan))).toEqual(['0 hemBegins', '6 hemEnds', '16 hemBegins', '22 cutOff']);
    expect(duesIn(plan)[0]).toMatchObject({ yarn: 1, loomLength: 12, until: 6 });
  });

  it('where the edge end is not caught: once a block, with the yarns it concerns', () => {
    const odd = alternation('A1 B1', { kind: 'turns', turns: 6 });
    const even = alternation('A2 B2', { kind: 'turns', turns: 6 });
    const locks = duesIn(planWeaving('AB', [even, odd])).filter((due) => due.kind === 'lockEdge');
    expect(locks).toMatchObject([{ at: 13, until: 18, yarns: [1, 0] }]);
  });

  it('where it is not caught at one place only: gone with that pick', () => {
    const once = planWeaving('AB', [solid('A', 2), solid('B', 3), solid('A', 4)]);
    const locks = duesIn(once).filter((due) => due.kind === 'lockEdge');
    expect(locks).toMatchObject([{ at: 5, until: 6, places: 1, yarns: [0] }]);
  });

  it('at a gap: the yarn still joined to the cloth, for the others were cut when they were done', () => {
    const cut = duesIn(TWO_TOWELS).filter((due) => due.kind === 'cutYarns');
    expect(cut).toMatchObject([{ at: 16, yarns: [1] }]);
  });

  it('comes in weaving order, every card under its own name', () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        const dues = duesIn(plan);
        expect(new Set(dues.map((due) => due.id)).size).toBe(dues.length);
        expect(dues.map((due) => due.at)).toEqual(
          dues.map((due) => due.at).toSorted((a, b) => a - b),
        );
        for (const due of dues) expect(due.until).toBeGreaterThan(due.at);
      }),
    );
  });

  it('at an edge end is due in exactly the blocks whose edge end is not caught', () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        const uncaught = weave(plan).filter((it) => it.coming?.edge === 'not-caught');
        const wanted = new Set(uncaught.map((it) => `${it.piece}/lock-edge/${it.block.ofPiece}`));
        const locks = duesIn(plan).filter((due) => due.kind === 'lockEdge');
        expect(new Set(locks.map((due) => due.id))).toEqual(wanted);
      }),
    );
  });
});

describe('a hemstitched piece', () => {
  it('hangs its tail where the first pick is thrown from, and its end tail where the last shuttle lies', () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        const woven = weave(plan);
        for (const due of duesIn(plan)) {
          const picks = woven.filter((it) => it.piece === due.piece);
          if (due.kind === 'tail') expect(due.side).toBe(picks[0]?.from);
          if (due.kind !== 'endTail') continue;
          expect(due.side).not.toBe(picks.at(-1)?.from);
          expect(due.wrongSide).toBe(due.side !== plan.weaving.workingSide);
        }
      }),
    );
  });

  it('with its end tail on the wrong side is mended by one pick more of the last yarn', () => {
    fc.assert(
      fc.property(anyPlan, fc.nat(9), (plan, more) => {
        const start = having(plan);
        for (const due of start.dues) {
          if (due.kind !== 'endTail' || !due.wrongSide) continue;
          const piece = start.course.pieces[due.piece];
          const block = start.course.blocks[(piece?.firstBlock ?? 0) + (piece?.blocks ?? 0) - 1];
          if (piece === undefined || block === undefined) throw new Error('no last block');
          const set = { kind: 'blockSet', piece: due.piece, block: block.ofPiece } as const;
          const mended = happened(start, { ...set, picks: block.picks + 1 });
          const tail = mended.dues.find((it) => it.id === due.id);
          expect(tail).toMatchObject({ wrongSide: false, at: due.at + 1 });
          expect(mended.course.stripes.count).toBe(start.course.stripes.count);
          // Even woven and then lengthened again, that pick stays what it is.
          const longer = [
            thrown(due.at + 1),
            { ...set, picks: block.picks + 1 + more } as const,
          ].reduce(happened, mended);
          expect(longer.course.stripes.count).toBe(start.course.stripes.count);
        }
      }),
    );
  });

  it('keeps lengthening by whole turns where the tail falls right', () => {
    const oneAndOne = pieceOf([alternation('A1 B1', { kind: 'turns', turns: 3 })], stitched);
    const start = having(planOf({ pieces: [oneAndOne] }));
    expect(start.dues.find((due) => due.kind === 'endTail')).toMatchObject({ wrongSide: false });
    const longer = happened(start, { kind: 'blockSet', piece: 0, block: 0, picks: 4 });
    expect(longer.course.stripes.count).toBe(4);
  });

  it('of no more picks than come before stitching is still stitched', () => {
    const short = having(planOf({ pieces: [pieceOf([solid('A', 2)], stitched)] }), thrown(2));
    expect(open(short)).toContain('0/hemstitch-beginning');
  });
});

describe('a card', () => {
  it('waits from its pick until it is done or too late', () => {
    expect(open(having(TWO_TOWELS))).toEqual(['0/tail']);
    expect(open(having(TWO_TOWELS, thrown(3)))).toEqual(['0/tail']);
    expect(open(having(TWO_TOWELS, thrown(4)))).toEqual(['0/hemstitch-beginning']);
    const done = { kind: 'dueDone', due: '0/hemstitch-beginning' } as const;
    expect(open(having(TWO_TOWELS, thrown(4), done))).toEqual([]);
    const put = { kind: 'dueDeferred', due: '0/hemstitch-beginning' } as const;
    expect(openDues(having(TWO_TOWELS, thrown(5), put))).toMatchObject([{ deferred: true }]);
  });

  it('asks for a look after a length that was not counted', () => {
    expect(open(having(TWO_TOWELS, { kind: 'woveLength', loomLength: 20 }))).toContain('look/8');
    expect(open(having(TWO_TOWELS, thrown(8)))).not.toContain('look/8');
  });

  it('is open exactly while its pick has come, it is not too late and it is not done', () => {
    const logs = anyPlan.chain((plan) =>
      fc.tuple(fc.constant(plan), fc.array(happening(plan), { maxLength: 15 })),
    );
    fc.assert(
      fc.property(logs, ([plan, happenings]) => {
        const progress = having(plan, ...happenings);
        const { dues, pick, done } = progress;
        const wanted = dues.filter(
          (due) => due.at <= pick && due.until > pick && !done.has(due.id),
        );
        const cards = openDues(progress).filter((due) => due.kind === 'course');
        expect(cards.map((due) => due.id)).toEqual(wanted.map((due) => due.id));
        const next = nextDue(progress);
        const later = dues.filter((due) => due.at > pick && !done.has(due.id)).map((due) => due.at);
        expect(next?.at ?? null).toBe(later.length === 0 ? null : Math.min(...later));
      }),
    );
  });
});

describe('advancing', () => {
  const long = planOf({
    weaving: { ...BASE.weaving, pickSpacing: 2 },
    loom: { ...BASE.loom, weavingDepth: 100 },
    pieces: [pieceOf([solid('A', 200)], stitched), pieceOf([solid('A', 200)], stitched)],
  });
  const stitchedFirst = { kind: 'dueDone', due: '0/hemstitch-beginning' } as const;
  const why = (progress: Progress) =>
    openDues(progress).flatMap((due) => (due.kind === 'advance' ? [due.why] : []));

  it('is due when the fell has travelled the depth of the loom, and again that far on', () => {
    expect(why(having(long, stitchedFirst, thrown(49)))).toEqual([]);
    expect(why(having(long, stitchedFirst, thrown(50)))).toEqual(['depth']);
    const moved = having(long, stitchedFirst, thrown(45), { kind: 'advanced' });
    expect(roomBeforeAdvance(moved)).toBe(100);
    expect(why(happened(moved, thrown(49)))).toEqual([]);
    expect(why(happened(moved, thrown(50)))).toEqual(['depth']);
    expect(why(happened(happened(moved, thrown(50)), takenOut(1)))).toEqual([]);
  });

  it('says stitch first while the beginning is not hemstitched', () => {
    expect(why(having(long, thrown(50)))).toEqual(['stitch-first']);
  });

  it('comes before a new piece that could not be stitched in the room left', () => {
    const toSecond = [stitchedFirst, thrown(190), { kind: 'advanced' } as const, thrown(10)];
    expect(roomBeforeAdvance(having(long, ...toSecond))).toBeLessThan(0);
    const narrow = {
      ...long,
      allowances: BASE.allowances,
      pieces: long.pieces.map((it) => ({
        ...it,
        beginning: { ...FRINGE, fringe: 30 },
        ending: { ...FRINGE, fringe: 20 },
      })),
    };
    expect(roomBeforeAdvance(having(narrow, ...toSecond))).toBe(30);
    expect(why(having(narrow, ...toSecond))).toEqual(['room-to-stitch']);
    expect(why(having(narrow, ...toSecond, { kind: 'advanced' }))).toEqual([]);
  });

  it('is due exactly when the travel reaches the depth', () => {
    const logs = anyPlan.chain((plan) =>
      fc.tuple(fc.constant(plan), fc.array(fc.tuple(fc.nat(30), fc.boolean()), { maxLength: 8 })),
    );
    fc.assert(
      fc.property(logs, ([plan, steps]) => {
        const woven = weave(plan);
        const travel = travelOf(
          plan,
          having(plan),
          woven.map((it) => it.loomLength),
        );
        let progress = having(plan);
        let advancedAt = 0;
        for (const [picks, advance] of steps) {
          progress = happened(progress, thrown(picks));
          if (progress.pick >= woven.length) break;
          if (advance) {
            progress = happened(progress, { kind: 'advanced' });
            advancedAt = travel(progress.pick);
          }
          const room = plan.loom.weavingDepth - (travel(progress.pick) - advancedAt);
          fc.pre(Math.abs(room) > 1e-6);
          expect(why(progress).some((it) => it !== 'room-to-stitch')).toBe(room < 0);
        }
      }),
    );
  });
});

/** Length from the first pick of the warp to before a pick, gaps and all. */
function travelOf(plan: Plan, { course }: Progress, ofPiece: readonly number[]) {
  const { relax, shrinkLength } = plan.allowances;
  const fringe = (edge: Plan['pieces'][number]['ending'] | undefined) =>
    edge?.kind === 'hemstitch' ? edge.fringe / (1 - relax.share) / (1 - shrinkLength.share) : 0;
  const before = (piece: number): number => {
    if (piece === 0) return 0;
    const [above, here] = [plan.pieces[piece - 1], plan.pieces[piece]];
    return (
      before(piece - 1) +
      (course.pieces[piece - 1]?.loomLength ?? 0) +
      fringe(above?.ending) +
      fringe(here?.beginning)
    );
  };
  return (pick: number) =>
    before(course.pieces.findLastIndex((it) => it.firstPick <= pick)) + (ofPiece[pick] ?? 0);
}
