import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NO_ADJUSTMENTS } from '../../../src/core/bench/adjustments.ts';
import { layCourse } from '../../../src/core/bench/course.ts';
import { duesOf } from '../../../src/core/bench/dues.ts';
import { pickAt } from '../../../src/core/bench/pickAt.ts';
import { type CardGroup, loomCard } from '../../../src/core/paper/loomCard.ts';
import type { Plan } from '../../../src/core/plan/plan.ts';
import { anyPlan } from '../bench/arbitraries.ts';
import {
  alternation,
  checked,
  demo,
  pieceOf,
  planOf,
  planWeaving,
  solid,
  yarns,
} from '../plan/samples.ts';

function cardOf(plan: Plan): readonly CardGroup[] {
  const course = layCourse(plan, NO_ADJUSTMENTS);
  return loomCard(course, duesOf(course));
}

/** A line in a few letters, such as `A24 @24 RR↑`. */
function shortly(plan: Plan, { lines }: CardGroup): readonly string[] {
  return lines.map((line) => {
    const boxes = line.boxes.map((has) => (has ? '☐' : '·')).join('');
    if (line.kind === 'due') return `${boxes} ${line.due.kind} after ${line.after}`;
    const round = line.round.map(({ yarn, picks }) => `${plan.yarns[yarn]?.letter}${picks}`);
    return `${boxes} ${round.join(' ')} x${line.turns} = ${line.picks}, ${line.from} ${line.shed}`;
  });
}

describe('a loom card', () => {
  it('tells the towels line by line', () => {
    const plan = checked(demo('moss-and-chalk'));
    const [first, second] = cardOf(plan);
    if (first === undefined || second === undefined) throw new Error('wanted two groups');
    expect(shortly(plan, first)).toEqual([
      '☐ tail after 0',
      '☐ A24 x1 = 24, right 0',
      '☐ hemstitch after 4',
      '☐ B2 A2 x15 = 30, right 0',
      '☐ A24 x1 = 24, right 0',
      '☐ C8 x1 = 8, right 0',
      '☐ B14 x1 = 14, right 0',
      '☐ A2 B2 x7 = 14, right 0',
      '☐ B24 x1 = 24, right 0',
      '☐ A2 B2 x7 = 14, right 0',
      '☐ B14 x1 = 14, right 0',
      '☐ C8 x1 = 8, right 0',
      '☐ A24 x1 = 24, right 0',
      '☐ B2 A2 x15 = 30, right 0',
      '☐ A24 x1 = 24, right 0',
      '☐ endTail after 252',
      '☐ hemstitch after 252',
      '☐ cutYarns after 252',
      '☐ gap after 252',
    ]);
    expect(shortly(plan, second).at(-1)).toBe('☐ cutOff after 252');
  });

  it('has one list with a box each for pieces woven alike, also for what only some of them have', () => {
    const piece = (name: string) => pieceOf([solid('A', 6), solid('B', 2)], { name });
    const plan = planOf({
      yarns: yarns('AB'),
      pieces: [piece('one'), piece('two'), piece('three')],
    });
    const groups = cardOf(plan);
    expect(groups.map(({ pieces }) => pieces)).toEqual([[0, 1, 2]]);
    expect(groups.flatMap((group) => shortly(plan, group))).toEqual([
      '☐☐☐ A6 x1 = 6, right 0',
      '☐☐☐ B2 x1 = 2, right 0',
      '☐☐· cutYarns after 8',
      '☐☐· gap after 8',
      '··☐ cutOff after 8',
    ]);
  });

  it('keeps pieces apart that are not woven one after the other, and more than six', () => {
    const even = pieceOf([solid('A', 6)]);
    const odd = pieceOf([solid('A', 4)]);
    const pieces = [even, odd, even, ...Array.from({ length: 8 }, () => odd)];
    expect(cardOf(planOf({ pieces })).map((group) => group.pieces)).toEqual([
      [0],
      [1],
      [2],
      [3, 4, 5, 6, 7, 8],
      [9, 10],
    ]);
  });

  it('keeps pieces apart that begin in another shed or from another side', () => {
    const piece = pieceOf([solid('A', 6)]);
    const pieces = [
      piece,
      { ...piece, startShed: 'down' as const },
      { ...piece, startSide: 'left' as const },
    ];
    expect(cardOf(planOf({ pieces }))).toHaveLength(3);
  });

  it('tells an alternation from the turn it opens on, and its last turn where it is cut short', () => {
    const plan = planWeaving('AB', [
      alternation('A2 B2', { kind: 'turns', turns: 5 }, { opens: 'B' }),
    ]);
    const course = layCourse(plan, {
      ...NO_ADJUSTMENTS,
      blocks: [{ piece: 0, block: 0, picks: 9 }],
    });
    const [line] = loomCard(course, duesOf(course))[0]?.lines ?? [];
    expect(line).toMatchObject({
      round: [
        { yarn: 1, picks: 2 },
        { yarn: 0, picks: 2 },
      ],
      turns: 5,
      picks: 9,
      lastTurnPicks: 1,
    });
  });

  it('of any plan has every pick and every due once a piece, in the order of the cloth', () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        const course = layCourse(plan, NO_ADJUSTMENTS);
        const dues = duesOf(course);
        const groups = loomCard(course, dues);
        expect(groups.flatMap(({ pieces }) => pieces)).toEqual(course.pieces.map((it) => it.index));
        for (const group of groups) {
          for (const [place, index] of group.pieces.entries()) {
            const piece = course.pieces[index];
            if (piece === undefined) throw new Error(`got no piece ${index}`);
            const lines = group.lines.filter(({ boxes }) => boxes[place]);
            const woven = lines.flatMap((line) => (line.kind === 'block' ? [line] : []));
            expect(woven.reduce((sum, line) => sum + line.picks, 0)).toBe(piece.picks);
            expect(woven.at(-1)?.loomEnd).toBeCloseTo(piece.loomLength, 6);
            let pick = piece.firstPick;
            for (const line of woven) {
              const facts = pickAt(course, pick);
              expect([line.from, line.shed]).toEqual([facts?.from, facts?.shed]);
              expect(line.round[0]?.yarn).toBe(facts?.yarn);
              pick += line.picks;
            }
            const told = lines.flatMap((line) => (line.kind === 'due' ? [line.due.kind] : []));
            const wanted = dues.filter(
              (due) => due.piece === index && due.kind !== 'hemBegins' && due.kind !== 'hemEnds',
            );
            expect(told).toEqual(wanted.map((due) => due.kind));
          }
        }
      }),
      { numRuns: 300 },
    );
  });
});

describe('a loom card with a part by eye', () => {
  const free = { kind: 'free', loomLength: 100 } as const;
  const reaches = (plan: Plan) =>
    cardOf(plan)[0]?.lines.map((line) => [
      line.kind === 'block' ? line.role : line.due.kind,
      line.reach,
      line.kind === 'block' ? line.picks : line.after,
    ]);

  it('says of what comes after it not where it lies, and counts no pick that is not thrown', () => {
    expect(reaches(planWeaving('AB', [solid('A', 4), free, solid('B', 2)]))).toEqual([
      ['solid', 'known', 4],
      ['free', 'byEye', 0],
      ['solid', 'beyond', 2],
      ['cutOff', 'beyond', 7],
    ]);
  });

  it('tells how long it is meant to be', () => {
    const [line] = cardOf(planWeaving('AB', [free]))[0]?.lines ?? [];
    expect(line).toMatchObject({ reach: 'byEye', meant: 100, from: 'right', shed: 0 });
  });
});
