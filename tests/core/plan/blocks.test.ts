import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { closes, mergeRuns, type Run, readsSameBothWays } from '../../../src/core/measure/runs.ts';
import {
  type LaidBlock,
  layWeft,
  picksOf,
  turnOf,
  withLongerLastTurn,
  withPicks,
} from '../../../src/core/plan/blocks.ts';
import { nearestTurns, picksForLength } from '../../../src/core/plan/blockTurns.ts';
import type { Block } from '../../../src/core/plan/plan.ts';
import { alternationBlock, anyPlan, blockOf } from '../bench/arbitraries.ts';
import { alternation, planWeaving, solid } from './samples.ts';

const LETTERS = [...'ABCDE'];

/** One run a turn, by yarn letter, neighbours not merged. */
function turnsOf(laid: readonly LaidBlock[]): Run<string>[] {
  return laid.flatMap((block) =>
    Array.from({ length: block.turns }, (_, k) => {
      const { yarn, picks } = turnOf(block, k);
      return { of: LETTERS[yarn] ?? '?', count: picks };
    }),
  );
}

function laid(block: Block): readonly LaidBlock[] {
  return layWeft(planWeaving('ABCDE', [block]), 0);
}

function written(block: Block): string {
  return mergeRuns(turnsOf(laid(block)))
    .map((run) => `${run.of}${run.count}`)
    .join(' ');
}

const turns = (n: number) => ({ kind: 'turns', turns: n }) as const;
const length = (loomLength: number) => ({ kind: 'length', loomLength }) as const;
const back = { path: 'there-and-back' } as const;

describe('blocks', () => {
  it.each<[string, Block, string]>([
    ['a solid', solid('A', 3), 'A3'],
    ['three colours in the round', alternation('A2 B2 C1', turns(5)), 'A2 B2 C1 A2 B2'],
    ['three colours there and back', alternation('A2 B1 C3', turns(6), back), 'A2 B1 C3 B1 A2 B1'],
    [
      'there and back keeps each its own picks',
      alternation('A1 B2 C3 B4 D5', turns(9), back),
      'A1 B2 C3 B4 D5 B4 C3 B2 A1',
    ],
    [
      'one that opens on its second colour',
      alternation('A2 B1', turns(3), { opens: 'B' }),
      'B1 A2 B1',
    ],
    ['one given in picks', alternation('A2 B1', { kind: 'picks', picks: 5 }), 'A2 B1 A2'],
    [
      'a repeat, which shares nothing',
      { kind: 'repeat', times: 2, of: [solid('A', 1), solid('B', 2), solid('A', 1)] },
      'A1 B2 A2 B2 A1',
    ],
    [
      'a mirror that shares its centre',
      { kind: 'mirror', centre: 'shared', of: [solid('A', 1), solid('B', 2)] },
      'A1 B2 A1',
    ],
    [
      'a mirror that doubles it',
      { kind: 'mirror', centre: 'doubled', of: [solid('A', 1), solid('B', 2)] },
      'A1 B4 A1',
    ],
    [
      'a mirror whose centre is one turn of an alternation',
      { kind: 'mirror', centre: 'shared', of: [alternation('A1 B2', turns(4))] },
      'A1 B2 A1 B2 A1 B2 A1',
    ],
    [
      'a centre made of two blocks of one colour is one run',
      { kind: 'mirror', centre: 'shared', of: [solid('A', 1), solid('B', 2), solid('B', 3)] },
      'A1 B5 A1',
    ],
    ['a mirror of one block', { kind: 'mirror', centre: 'shared', of: [solid('A', 3)] }, 'A3'],
  ])('%s', (_, block, expected) => {
    expect(written(block)).toBe(expected);
  });

  it('say which time round of a repeat they belong to, and where they stand in the plan', () => {
    const round: Block = {
      kind: 'repeat',
      name: 'motif',
      times: 2,
      of: [solid('A', 1), solid('B', 1)],
    };
    expect(laid(round).map((it) => [it.source, it.passes])).toEqual([
      ['pieces[0].weft[0].of[0]', [{ name: 'motif', index: 0, of: 2 }]],
      ['pieces[0].weft[0].of[1]', [{ name: 'motif', index: 0, of: 2 }]],
      ['pieces[0].weft[0].of[0]', [{ name: 'motif', index: 1, of: 2 }]],
      ['pieces[0].weft[0].of[1]', [{ name: 'motif', index: 1, of: 2 }]],
    ]);
  });
});

describe('closing and mirroring are two facts', () => {
  it.each<[string, Block, boolean, boolean]>([
    ['A2 B2 A2 closes and mirrors', alternation('A2 B2', turns(3)), true, true],
    ['A B C A closes and does not mirror', alternation('A1 B1 C1', turns(4)), true, false],
    ['A B C B A closes and mirrors', alternation('A1 B1 C1', turns(5), back), true, true],
    ['A B C B closes not and mirrors not', alternation('A1 B1 C1', turns(4), back), false, false],
    ['A2 B2 closes not and mirrors not', alternation('A2 B2', turns(2)), false, false],
  ])('%s', (_, block, doesClose, mirrors) => {
    const runs = turnsOf(laid(block));
    expect([closes(runs), readsSameBothWays(runs)]).toEqual([doesClose, mirrors]);
  });

  it('a mirrored cycle that opens and closes on its first colour mirrors', () => {
    const cycle = fc
      .shuffledSubarray(LETTERS, { minLength: 3 })
      .chain((list) =>
        fc.tuple(...list.map((yarn) => fc.integer({ min: 1, max: 4 }).map((n) => `${yarn}${n}`))),
      );
    fc.assert(
      fc.property(cycle, fc.integer({ min: 1, max: 200 }), (list, mm) => {
        const closed = { ...back, closes: list[0]?.slice(0, 1) ?? '' };
        const runs = turnsOf(laid(alternation(list.join(' '), length(mm), closed)));
        expect([closes(runs), readsSameBothWays(runs)]).toEqual([true, true]);
      }),
    );
  });

  it('an alternation of two closes with an odd number of turns and not with an even one', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 40 }), (n) => {
        expect(closes(turnsOf(laid(alternation('A2 B3', turns(n)))))).toBe(n % 2 === 1);
      }),
    );
  });
});

describe('a mirror block', () => {
  it('reads the same from both ends, whatever is in it', () => {
    const half = fc.array(blockOf(LETTERS), { minLength: 1, maxLength: 3 });
    fc.assert(
      fc.property(half, fc.constantFrom('shared' as const, 'doubled' as const), (of, centre) => {
        const runs = turnsOf(laid({ kind: 'mirror', centre, of }));
        expect(readsSameBothWays(runs)).toBe(true);
        const there = turnsOf(of.flatMap((block) => laid(block)));
        expect(mergeRuns(runs).slice(0, mergeRuns(there).length - 1)).toEqual(
          mergeRuns(there).slice(0, -1),
        );
      }),
    );
  });
});

describe('a solid by length', () => {
  it.each([
    ['3 in at 10 to the inch is 30', 76.2, 2.54, 30],
    ['2½ in at 10 to the inch: 24 and 26 are as near, ties go down', 63.5, 2.54, 24],
    ['less than a pick is still there and back', 0.1, 2.54, 2],
  ])('%s', (_, mm, spacing, picks) => {
    expect(picksForLength({ kind: 'length', loomLength: mm }, spacing)).toBe(picks);
  });

  it('is even unless asked, odd when asked, and misses by one pick at most', () => {
    const size = {
      loomLength: fc.integer({ min: 1, max: 4000 }).map((n) => n / 4),
      spacing: fc.constantFrom(0.5, 1, 1.5, 2.54),
    };
    fc.assert(
      fc.property(
        fc.record(size),
        fc.constantFrom(undefined, 'even', 'odd', 'any'),
        (it, asked) => {
          const parity = asked as 'even' | 'odd' | 'any' | undefined;
          const picks = picksForLength(
            { kind: 'length', loomLength: it.loomLength, ...(parity && { parity }) },
            it.spacing,
          );
          if (parity !== 'any') expect(picks % 2).toBe(parity === 'odd' ? 1 : 0);
          const least = parity === 'odd' || parity === 'any' ? 1 : 2;
          expect(picks).toBeGreaterThanOrEqual(least);
          const miss = Math.abs(picks - it.loomLength / it.spacing);
          if (picks > least)
            expect(miss).toBeLessThanOrEqual(parity === 'any' ? 0.5 + 1e-9 : 1 + 1e-9);
        },
      ),
    );
  });
});

describe('an alternation by length', () => {
  it('takes the nearest number of turns that closes, ties down', () => {
    fc.assert(
      fc.property(
        alternationBlock(LETTERS),
        fc.integer({ min: 1, max: 160 }),
        (block, quarters) => {
          const asked = { ...block, extent: length(quarters / 4) };
          const [it] = laid(asked);
          if (it === undefined) throw new Error('nothing laid');
          const valid = Array.from({ length: 200 }, (_, n) => ({ ...it, turns: n + 1 })).filter(
            (one) =>
              block.closes === undefined ||
              LETTERS[turnOf(one, one.turns - 1).yarn] === block.closes,
          );
          const misses = valid.map((one) => Math.abs(lengthOf(one) - quarters / 4));
          const least = Math.min(...misses);
          expect(it.turns).toBe(valid[misses.findIndex((miss) => miss <= least + 1e-9)]?.turns);
        },
      ),
    );
  });

  it('of 700,000 turns is still the nearest', () => {
    const period = { yarns: [0, 1], picks: [1, 1] };
    expect(nearestTurns(period, 0, 0, 700_000, () => 1)).toBe(699_999);
  });
});

function lengthOf(block: LaidBlock): number {
  return Array.from({ length: block.turns }, (_, k) => turnOf(block, k)).reduce(
    (sum, turn) => sum + turn.picks * (block.spacings[turn.yarn] ?? 0),
    0,
  );
}

describe('a block with other picks', () => {
  it('has exactly so many, and begins as it did', () => {
    fc.assert(
      fc.property(anyPlan, fc.nat(40), fc.nat(100), (plan, picks, which) => {
        const blocks = layWeft(plan, 0);
        const before = blocks[which % blocks.length];
        if (before === undefined) throw new Error('no block');
        const after = withPicks(before, picks);
        expect(picksOf(after)).toBe(picks);
        const woven = Math.min(picks, picksOf(before));
        expect(eachPick(after).slice(0, woven)).toEqual(eachPick(before).slice(0, woven));
      }),
    );
  });

  it('stays in the yarn of its last turn when told so', () => {
    const block = laid(alternation('A1 B1', turns(3)))[0];
    if (block === undefined) throw new Error('no block');
    expect(eachPick(withPicks(block, 5))).toEqual([0, 1, 0, 1, 0]);
    expect(eachPick(withLongerLastTurn(block, 2))).toEqual([0, 1, 0, 0, 0]);
    expect(eachPick(withLongerLastTurn(withPicks(block, 0), 1))).toEqual([0]);
  });
});

function eachPick(block: LaidBlock): readonly number[] {
  return Array.from({ length: block.turns }, (_, k) => turnOf(block, k)).flatMap((turn) =>
    Array<number>(turn.picks).fill(turn.yarn),
  );
}
