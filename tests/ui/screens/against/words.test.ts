import { describe, expect, it } from 'vitest';
import type {
  Change,
  PieceAgainstPlan,
} from '../../../../src/core/journal/againstPlan/againstPlan.ts';
import { changeWords, pieceWords } from '../../../../src/ui/screens/against/words.ts';

const told = (picks: number, loomLength: number) => ({ picks, loomLength, blocks: [] });

describe('how a block differs from its plan, in words', () => {
  it.each<readonly [string, Change, readonly [number, number], readonly [number, number]]>([
    ['As planned', 'asPlanned', [20, 50], [20, 50]],
    // The beat was another: as many picks, but longer.
    ['As planned, 0.5 cm longer', 'asPlanned', [20, 50], [20, 55]],
    ['4 picks more, 1 cm longer', 'longer', [20, 50], [24, 60]],
    ['1 pick fewer, 0.3 cm shorter', 'shorter', [20, 50], [19, 47.5]],
    ['4 picks more', 'longer', [20, 50], [24, 50]],
    ['As many picks, but others', 'other', [20, 50], [20, 50]],
    ['Woven by eye', 'byEye', [0, 0], [20, 50]],
    ['Being woven', 'here', [20, 50], [4, 10]],
  ])('%s', (words, change, planned, woven) => {
    const row = { role: 'solid', name: null, change } as const;
    const it = { ...row, planned: told(...planned), woven: told(...woven) };
    expect(changeWords(it, 'metric')).toBe(words);
  });
});

describe('how a piece came out', () => {
  const piece: PieceAgainstPlan = {
    piece: 0,
    name: 'Towel',
    rows: [],
    planned: { picks: 100, loomLength: 250 },
    woven: { picks: 100, loomLength: 250 },
    state: 'done',
    takenOut: 0,
  };

  it.each<readonly [string, Partial<PieceAgainstPlan>]>([
    ['Woven: as planned.', {}],
    ['Woven: 4 picks fewer, 1 cm shorter.', { woven: { picks: 96, loomLength: 240 } }],
    ['On the loom.', { state: 'begun', woven: { picks: 50, loomLength: 125 } }],
    ['Woven. It was not in the plan.', { planned: null }],
    ['Woven: as planned. 3 picks were taken out on the way.', { takenOut: 3 }],
    ['Woven: as planned. 1 pick was taken out on the way.', { takenOut: 1 }],
    ['Left out of the plan.', { state: 'dropped', woven: { picks: 0, loomLength: 0 } }],
  ])('%s', (words, change) => {
    expect(pieceWords({ ...piece, ...change }, 'metric').join(' ')).toBe(words);
  });
});
