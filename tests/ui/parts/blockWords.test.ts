import { describe, expect, it } from 'vitest';
import type { Block } from '../../../src/core/plan/plan.ts';
import { blockWords, lettersOf } from '../../../src/ui/parts/blockWords.ts';

const YARNS = [
  { letter: 'A', name: 'moss' },
  { letter: 'B', name: 'chalk' },
  { letter: 'C', name: 'rust' },
];
const cycle = (...turns: readonly (readonly [string, number])[]) =>
  turns.map(([yarn, picks]) => ({ yarn, picks }));
const alternation = (opens: string, path: 'round' | 'there-and-back'): Block => ({
  kind: 'alternation',
  cycle: cycle(['A', 2], ['B', 1], ['C', 4]),
  path,
  opens,
  extent: { kind: 'turns', turns: 7 },
});
const SOLID: Block = { kind: 'solid', yarn: 'B', extent: { kind: 'picks', picks: 1 } };

describe('a block in words', () => {
  it.each<readonly [string, Block]>([
    ['1 pick of chalk', SOLID],
    ['edge: 1 pick of chalk', { ...SOLID, name: 'edge' }],
    ['2½ in of chalk', { kind: 'solid', yarn: 'B', extent: { kind: 'length', loomLength: 63.5 } }],
    ['moss 2, chalk 1 and rust 4 in turn, 7 turns', alternation('A', 'round')],
    // It is told from the turn it opens on.
    ['chalk 1, rust 4 and moss 2 in turn, 7 turns', alternation('B', 'round')],
    [
      'moss 2, chalk 1 and rust 4 there and back, 7 turns, chalk first',
      alternation('B', 'there-and-back'),
    ],
    ['by eye', { kind: 'free' }],
    ['about 4 in by eye', { kind: 'free', loomLength: 101.6 }],
    ['3 times', { kind: 'repeat', times: 3, of: [SOLID] }],
    ['there and back', { kind: 'mirror', centre: 'shared', of: [SOLID] }],
    ['there and back, the middle twice', { kind: 'mirror', centre: 'doubled', of: [SOLID] }],
  ])('%s', (words, block) => {
    expect(blockWords(block, YARNS, 'inch')).toBe(words);
  });

  it('names each of its yarns once, the one it opens on first', () => {
    expect(lettersOf(alternation('B', 'round'))).toEqual(['B', 'A', 'C']);
    const group: Block = { kind: 'repeat', times: 2, of: [SOLID, alternation('A', 'round')] };
    expect(lettersOf(group)).toEqual(['B', 'A', 'C']);
  });
});
