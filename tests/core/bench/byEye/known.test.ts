/** What tape and scene show of a piece that is woven by eye: nothing nobody knows yet. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { onePieceMore } from '../../../../src/core/bench/byEye/onePieceMore.ts';
import { freeAtFell } from '../../../../src/core/bench/byEye/throwing.ts';
import { openIn } from '../../../../src/core/bench/course.ts';
import type { Happening } from '../../../../src/core/bench/events.ts';
import { happened } from '../../../../src/core/bench/happened.ts';
import { openDues } from '../../../../src/core/bench/openDues.ts';
import { pieceAt } from '../../../../src/core/bench/pickAt.ts';
import type { Progress } from '../../../../src/core/bench/progress.ts';
import { sceneAt } from '../../../../src/core/bench/scene.ts';
import { standingOf } from '../../../../src/core/bench/standing.ts';
import { tapeBands, tapeMarks } from '../../../../src/core/bench/tape.ts';
import { checkPlan } from '../../../../src/core/plan/checkPlan.ts';
import type { Block } from '../../../../src/core/plan/plan.ts';
import { checked, pieceOf, planOf, planWeaving, solid, yarns } from '../../plan/samples.ts';
import { having, thrown } from '../logs.ts';
import { anyFreeLog } from './freePlans.ts';

const FREE: Block = { kind: 'free' };
const MEANT: Block = { kind: 'free', loomLength: 100 };
const of = (yarn: string, picks = 1): Happening => ({ kind: 'thrownOf', yarn, picks });
const ended: Happening = { kind: 'freeEnded' };
const END = 1e9;

const seenOf = ({ course, dues, pick }: Progress) => {
  const piece = pieceAt(course, pick);
  const bands = tapeBands(course, piece, -1, END);
  const letters = bands.map((band) => course.plan.yarns[band.yarn]?.letter).join('');
  const marks = tapeMarks(course, dues, piece).map((mark) => mark.kind);
  return { letters, marks, coming: sceneAt(course, piece, pick, 9, 9).coming.length };
};

describe('of a piece with a part by eye', () => {
  it.each([
    ['nothing thrown: the pick to throw, and no end', [FREE], [], 'A', ['block'], 1],
    ['some thrown: what is woven and one more', [FREE], [of('A', 2), of('B')], 'AB', ['block'], 1],
    ['a length meant: an end as well', [MEANT], [of('A')], 'A', ['block', 'end'], 1],
    [
      'planned blocks after it: nothing of them yet',
      [FREE, solid('C', 4)],
      [of('B')],
      'B',
      ['block'],
      1,
    ],
    [
      'ended: what is planned after it, and its end',
      [FREE, solid('C', 4)],
      [of('B'), ended],
      'BC',
      ['block', 'block', 'end'],
      4,
    ],
    [
      'before it: its planned block, and the first pick of it',
      [solid('C', 4), FREE],
      [thrown(1)],
      'C',
      ['block', 'block'],
      4,
    ],
  ] as const)('%s', (_, weft, log, letters, marks, coming) => {
    const now = having(planWeaving('ABC', [...weft]), ...log);
    expect(seenOf(now)).toEqual({ letters, marks, coming });
  });

  it('the end of what is seen is the pick that stands for the next one', () => {
    fc.assert(
      fc.property(anyFreeLog, ({ plan, log }) => {
        const now = having(plan, ...log);
        const { course, pick } = now;
        const piece = pieceAt(course, pick);
        const open = openIn(course, piece);
        const { coming } = sceneAt(course, piece, pick, END / 1e6, END / 1e6);
        const last = pick + coming.length - 1;
        expect(last).toBeLessThanOrEqual(open ?? piece.firstPick + piece.picks - 1);
        if (freeAtFell(course, pick) !== null) expect([open, coming.length]).toEqual([pick, 1]);
        const picks = tapeBands(course, piece, -1, END);
        const whole = piece.loomLength - piece.unseen;
        for (const band of picks) expect(band.to).toBeLessThanOrEqual(whole + 1e-6);
      }),
      { numRuns: 300 },
    );
  });

  it('all its yarns are accounted for, also those not thrown yet', () => {
    const now = having(planWeaving('ABC', [FREE]), of('B'));
    expect(standingOf(now).yarns.map((it) => it.yarn)).toEqual([0, 1, 2]);
    const closed = happened(now, ended);
    expect(standingOf(closed).yarns.map((it) => it.yarn)).toEqual([1]);
  });

  it('has no card for edge ends: each yarn says so before it is thrown', () => {
    const one = having(planWeaving('AB', [FREE]), of('A'), of('B'), of('A'), of('B'));
    expect(openDues(one).map((due) => due.id)).toEqual([]);
  });
});

describe('one piece more', () => {
  const hem = { kind: 'hem', washedAllowance: 10 } as const;
  const plan = checked(
    planOf({ yarns: yarns('AB'), pieces: [pieceOf([FREE], { beginning: hem, ending: hem })] }),
  );
  const woven = (...more: Happening[]) =>
    having(plan, thrown(9), of('B', 2), ended, thrown(99), ...more);
  const revisedBy = (now: Progress): Progress => {
    const piece = onePieceMore(now);
    if (piece === null) throw new Error('got no piece');
    return happened(now, { kind: 'revised', from: now.course.pieces.length, pieces: [piece] });
  };

  it('follows once all is woven, by eye, with the edges of the last', () => {
    const now = revisedBy(woven());
    expect(now.course.plan.pieces.map((it) => it.name)).toEqual(['Piece', 'Piece 2']);
    expect(now.course.plan.pieces[1]).toMatchObject({ beginning: hem, ending: hem, weft: [FREE] });
    expect(checkPlan(now.course.plan)).toMatchObject({ ok: true });
    const next = happened(happened(now, thrown(99)), of('A', 3));
    expect(freeAtFell(next.course, next.pick)).not.toBeNull();
  });

  it('is not offered before that, nor once the cloth is off', () => {
    expect(onePieceMore(having(plan, thrown(9), of('B')))).toBeNull();
    expect(onePieceMore(woven({ kind: 'cutOff' }))).toBeNull();
  });
});
