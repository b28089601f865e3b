import { describe, expect, it } from 'vitest';
import { NO_ADJUSTMENTS } from '../../../../src/core/bench/adjustments.ts';
import { type Course, layCourse } from '../../../../src/core/bench/course.ts';
import type { Aim, Fit } from '../../../../src/core/bench/endings/ending.ts';
import { endingsOf } from '../../../../src/core/bench/endings/endings.ts';
import type { Block, Piece, Plan } from '../../../../src/core/plan/plan.ts';
import {
  alternation,
  INCH,
  pieceOf,
  planOf,
  solid,
  solidOfLength,
  yarns,
} from '../../plan/samples.ts';
import { having } from '../logs.ts';
import { contextAt, exactly } from './contexts.ts';

/** A tenth of an inch: the pick spacing of all plans here. */
const PICK = INCH / 10;

const laid = (plan: Plan) => layCourse(plan, NO_ADJUSTMENTS);
const wishing = (picks: number) => ({ wish: { state: 'loom', length: picks * PICK } }) as const;
const weaving = (...pieces: readonly Piece[]) => planOf({ yarns: yarns('ABC'), pieces });
const solids = (order: string) =>
  order.split(' ').map((it) => solid(it.slice(0, 1), Number(it.slice(1))));

function fitsAt(
  course: Course,
  pick: number,
  aim: Aim,
  changes: Parameters<typeof contextAt>[2] = {},
): readonly Fit[] {
  return endingsOf(course, pick, contextAt(course, pick, changes)).fits.filter(
    (it) => it.aim === aim,
  );
}

/** What a fit changes, such as `pair 1:80>74 3:80>74`. */
const told = ({ way, motifs, matched, changes, pieces }: Fit) =>
  [
    way,
    ...(motifs === 0 ? [] : [`${motifs > 0 ? '+' : '−'}${Math.abs(motifs)}`]),
    ...(matched ? ['matched'] : []),
    ...changes.map(({ piece, block, picksFrom, picksTo }) =>
      pieces.length > 1
        ? `${piece}.${block}:${picksFrom}>${picksTo}`
        : `${block}:${picksFrom}>${picksTo}`,
    ),
  ].join(' ');

describe('fits to the wished length', () => {
  it('mirrored ones first, then the least change: A B A B A of 80 each, 16 picks fewer, first A woven', () => {
    const course = laid(weaving(pieceOf(solids('A80 B80 A80 B80 A80'), wishing(384))));
    // The last block is at 76 no mirror of the first, woven at 80, in picks; to the eye it is.
    expect(fitsAt(course, 90, 'wish').map((it) => [told(it), it.mirrored, it.cost])).toEqual([
      ['pair 1:80>72 3:80>72', true, expect.closeTo(0.1, 9)],
      ['proportion 1:80>76 2:80>76 3:80>76 4:80>76', true, expect.closeTo(0.15, 9)],
      ['block 2:80>64', true, expect.closeTo(0.2, 9)],
      ['block 1:80>64', false, expect.closeTo(0.2, 9)],
      ['block 3:80>64', false, expect.closeTo(0.2, 9)],
    ]);
  });

  it('a pair at a shared centre stays one turn short of twice: B A … B | A … B', () => {
    const half = [solid('C', 10), alternation('B2 A2', { kind: 'turns', turns: 9 })];
    const mirror: Block = { kind: 'mirror', centre: 'shared', of: half };
    const course = laid(weaving(pieceOf([mirror], wishing(54 + 8))));
    const [fit] = fitsAt(course, 5, 'wish').filter((it) => it.way === 'pair');
    expect(fit === undefined ? '' : told(fit)).toBe('pair 1:18>22 2:16>20');
    expect(fit?.revision().pieces[0]?.weft.slice(1)).toEqual([
      alternation('B2 A2', { kind: 'turns', turns: 11 }),
      alternation('A2 B2', { kind: 'turns', turns: 10 }),
      solid('C', 10),
    ]);
    expect(fit?.pieces[0]).toMatchObject({ allPicks: 62, reads: { same: 'exact' } });
    expect(fit?.pieces[0]?.fromWish?.mm).toBeCloseTo(0, 6);
  });

  it('are none where the plan has the length', () => {
    const course = laid(weaving(pieceOf(solids('A80 B80 A80'), wishing(240))));
    expect(fitsAt(course, 90, 'wish')).toEqual([]);
  });

  it('solids keep their parity, alternations the yarn they end on, in whole turns', () => {
    const weft = [solid('A', 9), alternation('B2 A2 C1', { kind: 'turns', turns: 4 })];
    const course = laid(weaving(pieceOf(weft, wishing(9 + 7 + 4))));
    expect(fitsAt(course, 0, 'wish').map(told)).toEqual(['block 0:9>13']);
    // One period more is 5 picks: B A C B A C B.
    const longer = laid(
      weaving(
        pieceOf(
          [solid('A', 9), alternation('B2 A2 C1', { kind: 'turns', turns: 10 })],
          wishing(9 + 17 + 5),
        ),
      ),
    );
    expect(fitsAt(longer, 0, 'wish').map(told)).toContain('block 1:17>22');
  });

  it('a begun block is never shorter than what is woven of it', () => {
    const course = laid(weaving(pieceOf(solids('A40 B40'), wishing(66))));
    expect(fitsAt(course, 20, 'wish').map(told)).toEqual([
      'proportion 0:40>34 1:40>34',
      'block 0:40>26',
      'block 1:40>26',
    ]);
    // 36 picks of A are in the cloth: B must give the rest.
    expect(fitsAt(course, 36, 'wish').map(told)).toEqual([
      'block 1:40>26',
      'proportion 0:40>36 1:40>30',
    ]);
  });

  it('blocks planned by length are stretched together, those in picks stay', () => {
    const weft = [solid('A', 20), solidOfLength('B', 40 * PICK), solidOfLength('A', 80 * PICK)];
    const course = laid(weaving(pieceOf(weft, wishing(152))));
    const together = fitsAt(course, 0, 'wish').filter((it) => it.way === 'proportion');
    expect(together.map(told)).toEqual(['proportion 1:40>44 2:80>88']);
  });

  it('at the beat now believed: 5 % wider, 80 picks are to be 76', () => {
    const course = laid(weaving(pieceOf(solids('A80 B80'), wishing(80 + 80))));
    const fits = fitsAt(course, 80, 'wish', { beat: { factor: 80 / 76 } });
    expect(fits.map(told)).toEqual(['block 1:80>76']);
    expect(fits[0]?.pieces[0]?.fromWish?.mm).toBeCloseTo(0, 6);
  });

  it('a motif more or fewer, as it is or with the rest in proportion', () => {
    const of = solids('A20 B20');
    const repeat = (times: number): Block => ({ kind: 'repeat', times, of });
    const course = laid(weaving(pieceOf([repeat(4), solid('A', 20)], wishing(220))));
    const [fit] = fitsAt(course, 50, 'wish').filter((it) => it.way === 'motifs');
    expect(fit).toMatchObject({ motifs: 1, changes: [], mirrored: true, cost: 2 });
    expect(fit?.revision().pieces[0]?.weft).toEqual([repeat(5), solid('A', 20)]);
    const shorter = laid(weaving(pieceOf([repeat(4), solid('A', 20)], wishing(140))));
    expect(fitsAt(shorter, 50, 'wish').map(told)).toContain('motifs −1');
    // A B A B A B A | B: no more than this B and the last A could be left out, and it is begun.
    expect(fitsAt(shorter, 145, 'wish').map(told)).not.toContain('motifs −1');
    const between = laid(weaving(pieceOf([repeat(4), solid('A', 20)], wishing(212))));
    const mixed = fitsAt(between, 0, 'wish').filter((it) => it.motifs === 1);
    // 220 are to be 212: the first and the last of A 20 lose 4 each.
    expect(mixed.map(told)).toContain('pair +1 0:20>16 8:20>16');
  });
});

describe('a second half that matches what the first became', () => {
  it('in picks: a first block ended at 70 gives a last one of 70', () => {
    const plan = weaving(pieceOf(solids('A80 B40 A60 B40 A80'), wishing(300 - 20)));
    const { course } = having(plan, { kind: 'blockSet', piece: 0, block: 0, picks: 70 });
    const fits = fitsAt(course, 75, 'wish');
    expect(fits[0]).toMatchObject({ way: 'mirror', matched: true, mirrored: true });
    expect(fits.map(told)[0]).toBe('mirror matched 4:80>70');
    expect(fits[0]?.pieces[0]?.reads.same).toBe('exact');
  });

  it('not where more of the last block is woven than the first one has', () => {
    const plan = weaving(pieceOf(solids('A80 B40 A60 B40 A80'), wishing(300 - 20)));
    const { course } = having(plan, { kind: 'blockSet', piece: 0, block: 0, picks: 70 });
    const matchedAt = (pick: number) => fitsAt(course, pick, 'wish').filter((it) => it.matched);
    expect(matchedAt(70 + 40 + 60 + 40 + 68).map(told)).toEqual(['mirror matched 4:80>70']);
    // 72 woven is no more 70, though to the eye it is; 78 is not even that.
    expect(matchedAt(70 + 40 + 60 + 40 + 72).map(told)).toEqual(['mirror matched 4:80>72']);
    expect(matchedAt(70 + 40 + 60 + 40 + 78)).toEqual([]);
  });

  it('in length: woven 5 % tighter, 80 picks are matched by 76, to the eye', () => {
    const plan = weaving(pieceOf(solids('A80 B40 A60 B40 A80'), wishing(300)));
    const fits = fitsAt(laid(plan), 130, 'wish', { beat: { factor: 80 / 76 } });
    const matched = fits.find((it) => it.matched && it.way === 'mirror');
    expect(matched).toBeDefined();
    expect(matched === undefined ? '' : told(matched)).toBe('mirror matched 3:40>38 4:80>76');
    expect(matched?.pieces[0]?.reads.same).toBe('toTheEye');
  });

  it('an alternation cut inside a turn is matched turn for turn', () => {
    const [end, centre] = [solid('A', 10), alternation('B2 A4', { kind: 'turns', turns: 3 })];
    const plan = weaving(pieceOf([end, centre, centre, end], wishing(30)));
    // B2 A4 B2 cut to B2 A3: the way back is A3 B2.
    const { course } = having(plan, { kind: 'blockSet', piece: 0, block: 1, picks: 5 });
    const [fit] = fitsAt(course, 15, 'wish', { warpLeft: exactly(400) }).filter((it) => it.matched);
    expect(fit?.revision().pieces[0]?.weft).toEqual([
      solid('A', 10),
      alternation('B2 A4', { kind: 'turns', turns: 1 }),
      solid('A', 3),
      solid('A', 3),
      alternation('B2 A4', { kind: 'turns', turns: 1 }),
      solid('A', 10),
    ]);
  });
});

describe('fits to the warp that is left', () => {
  const towel = pieceOf(solids('A40 B40 A40'));
  const exact = (picks: number) => ({ warpLeft: exactly(picks * PICK) });

  it('use it up and no more, in the whole interval', () => {
    const course = laid(weaving(towel));
    const fits = fitsAt(course, 50, 'warp', exact(70 + 9));
    expect(fits.map(told)).toEqual([
      'block 1:40>48',
      'block 2:40>48',
      'proportion 1:40>44 2:40>44',
    ]);
    const low = 60 * PICK;
    const doubtful = fitsAt(course, 50, 'warp', { warpLeft: { mm: 100 * PICK, low, high: 1e4 } });
    expect(doubtful.map(told)[0]).toBe('block 1:40>30');
    expect(doubtful.every((it) => it.warpAfterAll.verdict === 'fits')).toBe(true);
  });

  it('the last piece shorter, or dropped, where not all of it fits', () => {
    const course = laid(weaving(towel, towel));
    const fits = fitsAt(course, 50, 'warp', exact(70 + 104));
    const last = fits.filter((it) => it.changes.every((change) => change.piece === 1));
    // Those of the last piece: the way with most changes last, for a block left out counts one.
    expect(last.map((it) => [told(it), it.mirrored, it.cost])).toEqual([
      ['pair 1.0:40>32 1.2:40>32', true, expect.closeTo(0.2, 9)],
      ['proportion 1.0:40>34 1.1:40>34 1.2:40>34', true, expect.closeTo(0.3, 9)],
      ['block 1.1:40>24', true, expect.closeTo(0.4, 9)],
      ['motifs −1', true, 2],
      ['dropped', true, 3],
    ]);
    const [pair] = last;
    expect(pair?.revision()).toMatchObject({ from: 1, pieces: [{ weft: solids('A32 B40 A32') }] });
    expect(fits.find((it) => it.dropped === 1)).toMatchObject({ cost: 3 });
    expect(fits.find((it) => it.dropped === 1)?.revision()).toEqual({ from: 1, pieces: [] });
  });

  it('all later pieces in proportion', () => {
    const course = laid(weaving(towel, towel, towel));
    const fits = fitsAt(course, 50, 'warp', exact(70 + 216));
    const both = fits.find((it) => new Set(it.changes.map((change) => change.piece)).size === 2);
    expect(both?.changes.map(({ picksTo }) => picksTo)).toEqual([36, 36, 36, 36, 36, 36]);
    expect(both?.revision().from).toBe(1);
    expect(both?.warpAfterAll.leaves.mm).toBeCloseTo(0, 6);
  });

  it('as many motifs as it holds', () => {
    const repeat: Block = { kind: 'repeat', times: 2, of: solids('A20 B20') };
    const course = laid(weaving(pieceOf([repeat])));
    const fits = fitsAt(course, 50, 'warp', exact(30 + 130));
    expect(fits.map(told)).toContain('motifs +3');
    expect(fits.every((it) => it.warpAfterAll.verdict === 'fits')).toBe(true);
  });

  it('nothing is offered once everything is woven and nothing repeats', () => {
    const course = laid(weaving(pieceOf(solids('A40 B30'))));
    expect(fitsAt(course, 70, 'warp', exact(50))).toEqual([]);
  });
});
