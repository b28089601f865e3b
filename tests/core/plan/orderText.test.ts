import { describe, expect, it } from 'vitest';
import { MM_PER_INCH, MM_PER_YARD } from '../../../src/core/measure/length.ts';
import {
  formatBlocks,
  formatStripes,
  parseBlocks,
  parseStripes,
} from '../../../src/core/plan/orderText.ts';
import type { AlternationBlock, Block, Stripe } from '../../../src/core/plan/plan.ts';
import type { TextFaultCode } from '../../../src/core/plan/text/faults.ts';
import { alternation, solid, solidOfLength } from './samples.ts';

const ends = (count: number, yarn: string): Stripe => ({ kind: 'solid', yarn, ends: count });
const length = (loomLength: number) => ({ kind: 'length', loomLength }) as const;
const turns = (n: number) => ({ kind: 'turns', turns: n }) as const;
const picks = (n: number) => ({ kind: 'picks', picks: n }) as const;

function stripes(text: string): readonly Stripe[] {
  const read = parseStripes(text);
  if (!read.ok) throw new Error(`${text}: ${JSON.stringify(read.problem)}`);
  return read.value;
}

function blocks(text: string, previous: readonly Block[] = []): readonly Block[] {
  const read = parseBlocks(text, 'inch', previous);
  if (!read.ok) throw new Error(`${text}: ${JSON.stringify(read.problem)}`);
  return read.value;
}

const nineTurns: Stripe = {
  kind: 'alternation',
  cycle: [
    { yarn: 'C', ends: 2 },
    { yarn: 'B', ends: 2 },
  ],
  turns: 9,
};

// The notation is this app's own; every row is what its words say, by hand.
const WARPS: readonly [string, readonly Stripe[]][] = [
  ['24 B', [ends(24, 'B')]],
  ['24 B, 12 A', [ends(24, 'B'), ends(12, 'A')]],
  ['9 turns of (2 C, 2 B)', [nineTurns]],
  ['3 times (2 A, 2 B)', [{ kind: 'repeat', times: 3, of: [ends(2, 'A'), ends(2, 'B')] }]],
  ['mirror (10 A, 4 B)', [{ kind: 'mirror', centre: 'shared', of: [ends(10, 'A'), ends(4, 'B')] }]],
  [
    'mirror with the middle twice (10 A, 4 B)',
    [{ kind: 'mirror', centre: 'doubled', of: [ends(10, 'A'), ends(4, 'B')] }],
  ],
  [
    '2 times (mirror (1 A, 2 times (1 B, 1 C)), 4 M)',
    [
      {
        kind: 'repeat',
        times: 2,
        of: [
          {
            kind: 'mirror',
            centre: 'shared',
            of: [ends(1, 'A'), { kind: 'repeat', times: 2, of: [ends(1, 'B'), ends(1, 'C')] }],
          },
          ends(4, 'M'),
        ],
      },
    ],
  ],
];

const TWO = 'A2 B2';
const WEFTS: readonly [string, readonly Block[]][] = [
  ['24 picks A', [solid('A', 24)]],
  ['2½ in A', [solidOfLength('A', 63.5)]],
  ['2 1/16 in A', [solidOfLength('A', 52.3875)]],
  ['60 mm A', [solidOfLength('A', 60)]],
  ['2½ in A odd picks', [{ kind: 'solid', yarn: 'A', extent: { ...length(63.5), parity: 'odd' } }]],
  [
    '2½ in A even picks',
    [{ kind: 'solid', yarn: 'A', extent: { ...length(63.5), parity: 'even' } }],
  ],
  ['13 turns of (2 A, 2 B)', [alternation(TWO, turns(13))]],
  ['26 picks of (2 A, 2 B)', [alternation(TWO, picks(26))]],
  ['3 in of (2 A, 2 B) from B to B', [alternation(TWO, length(76.2), { opens: 'B', closes: 'B' })]],
  ['3 in of (2 A, 2 B) from B', [alternation(TWO, length(76.2), { opens: 'B' })]],
  [
    '9 turns of (4 A, 2 B, 2 C) there and back from A to A',
    [alternation('A4 B2 C2', turns(9), { path: 'there-and-back', closes: 'A' })],
  ],
  ['by eye', [{ kind: 'free' }]],
  ['24 picks A, 6 in by eye', [solid('A', 24), { kind: 'free', loomLength: 152.4 }]],
  [
    '2 times (6 picks M, mirror (1 in A, 24 picks B))',
    [
      {
        kind: 'repeat',
        times: 2,
        of: [
          solid('M', 6),
          { kind: 'mirror', centre: 'shared', of: [solidOfLength('A', 25.4), solid('B', 24)] },
        ],
      },
    ],
  ],
];

describe('an order as one line of text', () => {
  it.each(WARPS)('warp: %s', (text, order) => {
    expect(formatStripes(order)).toBe(text);
    expect(stripes(text)).toEqual(order);
  });

  it.each(WEFTS)('weft: %s', (text, weft) => {
    expect(formatBlocks(weft, 'inch')).toBe(text);
    expect(blocks(text)).toEqual(weft);
  });

  it.each([
    [63.5, '2½ in', '6.35 cm'],
    [60, '60 mm', '6 cm'],
    [2.37 * MM_PER_INCH, '2.37 in', '6.02 cm'],
    [63.53, '63.53 mm', '6.353 cm'],
    [0.1, '0.1 mm', '0.01 cm'],
  ])('%d mm is %s in inches and %s in centimetres', (mm, inch, metric) => {
    expect(formatBlocks([solidOfLength('A', mm)], 'inch')).toBe(`${inch} A`);
    expect(formatBlocks([solidOfLength('A', mm)], 'metric')).toBe(`${metric} A`);
  });
});

describe('an order may be typed in other ways', () => {
  it.each([
    ['24b,12a', '24 B, 12 A'],
    ['  24   B ,\n12 ends of a,', '24 B, 12 A'],
    ['24 B 12 A', '24 B, 12 A'],
    ['24 B; 12 A and 3 c', '24 B, 12 A, 3 C'],
    ['9 TURNS OF (2 C,2 B)', '9 turns of (2 C, 2 B)'],
    ['1 turn (2 C 2 B)', '1 turns of (2 C, 2 B)'],
    ['3 x (2 A)', '3 times (2 A)'],
    ['3x(2 A)', '3 times (2 A)'],
    ['3 × (2 A)', '3 times (2 A)'],
    ['3 (2 A)', '3 times (2 A)'],
    ['3 X, (', null],
    ['3 X, 2 A', '3 X, 2 A'],
    ['there and back (2 A)', 'mirror (2 A)'],
    ['mirrored, (2 A)', null],
    ['mirror twice in the middle (2 A)', 'mirror with the middle twice (2 A)'],
    ['there and back with its centre doubled (2 A)', 'mirror with the middle twice (2 A)'],
    ['there and back once in the middle (2 A)', 'mirror (2 A)'],
  ])('warp: %s', (typed, text) => {
    const read = parseStripes(typed);
    expect(read.ok ? formatStripes(read.value) : null).toBe(text);
  });

  it.each([
    ['6in By Eye 2 A', '6 in by eye, 2 picks A'],
    ['1 m by eye', '1000 mm by eye'],
    ['24 A', '24 picks A'],
    ['24 picks of A', '24 picks A'],
    ['2.5" A', '2½ in A'],
    ['2 1/2in. of A', '2½ in A'],
    ['2-1/2 in a', '2½ in A'],
    ['2,5 in A', '2½ in A'],
    ['6,35 cm A,24 B', '2½ in A, 24 picks B'],
    ['3\' 2" A', '38 in A'],
    ['1 yd 4 in A', '40 in A'],
    ['1 m A', '1000 mm A'],
    ['1 m of (2 A, 2 B)', '1000 mm of (2 A, 2 B)'],
    ['1 m 27 cm A', '50 in A'],
    ['6 M, 4 A', '6 picks M, 4 picks A'],
    ['6 m 4 A', '6 picks M, 4 picks A'],
    ['2 in A, in an odd', null],
    ['2 in A in odd picks', '2 in A odd picks'],
    ['2 in A any number of picks', '2 in A any picks'],
    ['26 picks (2 A, 2 B) to a', '26 picks of (2 A, 2 B) from A to A'],
    ['9 turns there and back of (2 A, 2 B, 2 C)', '9 turns of (2 A, 2 B, 2 C) there and back'],
    [
      '9 turns of (2 A, 2 B, 2 C) from b there and back',
      '9 turns of (2 A, 2 B, 2 C) there and back from B',
    ],
    ['9 turns of (2 A, 2 B) there and back (1 in C)', '9 turns of (2 A, 2 B), mirror (1 in C)'],
  ])('weft: %s', (typed, text) => {
    const read = parseBlocks(typed, 'inch');
    expect(read.ok ? formatBlocks(read.value, 'inch') : null).toBe(text);
  });

  it('a metre is a metre and a yard a yard', () => {
    expect(blocks('1 m A, 1 yd B')).toEqual([
      solidOfLength('A', 1000),
      solidOfLength('B', MM_PER_YARD),
    ]);
  });
});

describe('what cannot be read is refused with its place and what would be right', () => {
  it.each<[string, TextFaultCode, string, string]>([
    ['', 'empty', '', '24 A'],
    [' , ', 'empty', '', '24 A'],
    ['red', 'number-wanted', 'red', ''],
    ['24', 'yarn-wanted', '', 'a letter, turns of (…), times (…)'],
    ['24 red', 'unknown-word', 'red', 'a letter, turns of (…), times (…)'],
    ['24 B, twelve A', 'number-wanted', 'twelve', ''],
    ['24 B)', 'bracket-unopened', ')', ''],
    ['3 times 2 A', 'bracket-wanted', '2', '('],
    ['3 x 2 A', 'bracket-wanted', '2', '('],
    ['3 times (2 A', 'bracket-unclosed', '', ')'],
    ['3 times ()', 'too-few', ')', '1'],
    ['9 turns of (2 A)', 'too-few', ')', '2'],
    ['9 turns of 2 A', 'bracket-wanted', '2', '('],
    ['9 turns of (2 A, 3 times (2 B))', 'yarn-wanted', 'times', 'A'],
    ['2½ B', 'not-whole', '2½', ''],
    ['1,500 B', 'ambiguous-comma', '1,500', '1500'],
    ['0 B', 'too-small', '0', '1'],
    ['10001 B', 'too-big', '10001', '10000'],
    ['1001 times (2 B)', 'too-big', '1001', '1000'],
    ['3 in B', 'not-in-a-warp', 'in', 'ends'],
    ['24 picks B', 'not-in-a-warp', 'picks', 'ends'],
    ['9 turns of (2 A, 2 B) from A', 'not-in-a-warp', 'from', ''],
    ['24 B # 2', 'number-wanted', '#', ''],
    ['-24 B', 'number-wanted', '-', ''],
  ])('warp: %j is %s at %j', (text, code, got, right) => {
    const read = parseStripes(text);
    expect(read.ok ? null : read.problem).toMatchObject({ code, got, right });
    if (!read.ok) expect(text.slice(read.problem.from, read.problem.until)).toBe(got);
  });

  it.each<[string, TextFaultCode, string, string]>([
    ['24 ends A', 'not-in-a-weft', 'ends', 'picks'],
    ['24 pcks A', 'unknown-word', 'pcks', 'picks, in, cm, turns of (…), times (…)'],
    ['24 picks red', 'yarn-wanted', 'red', 'A'],
    ['2 in', 'yarn-wanted', '', 'A'],
    ['2 in 3 in A', 'not-a-length', '2 in 3 in', '2½ in, 6 cm'],
    ['1,500 yd A', 'ambiguous-comma', '1,500 yd', '1500 yd'],
    ['0 in A', 'too-small', '0 in', '0.1 mm'],
    ['201 m A', 'too-big', '201 m', '200 m'],
    ['100001 picks A', 'too-big', '100001', '100000'],
    ['3 in of (2 A, 2 B) from', 'yarn-wanted', '', 'A'],
    ['3 in of (2 A, 2 B) to blue', 'yarn-wanted', 'blue', 'A'],
    ['9 turns A', 'bracket-wanted', 'A', '('],
  ])('weft: %j is %s at %j', (text, code, got, right) => {
    const read = parseBlocks(text, 'inch');
    expect(read.ok ? null : read.problem).toMatchObject({ code, got, right });
    if (!read.ok) expect(text.slice(read.problem.from, read.problem.until)).toBe(got);
  });

  it('what is missing is missed behind what was typed', () => {
    const read = parseStripes('3 times (2 A');
    expect(read.ok ? null : read.problem).toMatchObject({ from: 12, until: 12 });
  });

  it('groups nest eighteen deep and no deeper', () => {
    const nested = (depth: number) => `${'2 times ('.repeat(depth)}1 A${')'.repeat(depth)}`;
    expect(formatStripes(stripes(nested(18)))).toBe(nested(18));
    const read = parseStripes(nested(19));
    expect(read.ok ? null : read.problem).toMatchObject({ code: 'too-deep', right: '18' });
  });

  it('a list holds two hundred items and no more', () => {
    const many = (count: number) => Array.from({ length: count }, () => '1 A').join(', ');
    expect(stripes(many(200))).toHaveLength(200);
    const read = parseStripes(many(201));
    expect(read.ok ? null : read.problem).toMatchObject({ code: 'too-many', right: '200' });
  });

  it('an endless length is refused like any other', () => {
    const read = parseBlocks('1 in '.repeat(100_000), 'inch');
    expect(read.ok ? null : read.problem.code).toBe('not-a-length');
  });

  it('a text beyond the size of a plan file is refused unread', () => {
    const read = parseStripes('1 A '.repeat(600_000));
    expect(read.ok ? null : read.problem.code).toBe('too-much');
  });
});

describe('what the line does not say is taken from the blocks before', () => {
  const thin: Block = { ...solidOfLength('A', 20), name: 'hem', pickSpacing: 1.2 };
  const two: AlternationBlock = {
    ...alternation(TWO, length(76.2000001), { closes: 'B' }),
    name: 'checks',
    resting: { A: { mode: 'catch', every: 4 } },
    starts: { B: 'left' },
  };
  const before: readonly Block[] = [thin, two, { ...thin, name: 'end' }];
  const line = '20 mm A, 3 in of (2 A, 2 B) from A to B, 20 mm A';

  it('the same line gives the same blocks, whole', () => {
    expect(formatBlocks(before, 'inch')).toBe(line);
    expect(blocks(line, before)).toEqual(before);
  });

  it('a block made longer keeps its name, resting, sides and pick spacing', () => {
    const [, longer] = blocks(line.replace('3 in', '4 in'), before);
    expect(longer).toEqual({ ...two, extent: length(101.6) });
  });

  it('a block put before the others moves nothing over', () => {
    const [first, ...others] = blocks(`1 in C, ${line}`, before);
    expect(first).toEqual(solidOfLength('C', 25.4));
    expect(others).toEqual(before);
  });

  it('a block taken out takes its extras along', () => {
    expect(blocks('20 mm A, 20 mm A', before)).toEqual([before[0], before[2]]);
  });

  it('a block in another yarn keeps its name only', () => {
    const [first] = blocks(line.replace('20 mm A', '20 mm C'), before);
    expect(first).toEqual({ ...solidOfLength('C', 20), name: 'hem' });
  });

  it('a change inside a group keeps the extras of the group and of its other blocks', () => {
    const group: Block = { kind: 'repeat', times: 2, name: 'both ends', of: before };
    const [typed] = blocks(`3 times (${line.replace('4 in', '3 in')}, 2 picks B)`, [group]);
    expect(typed).toEqual({ ...group, times: 3, of: [...before, solid('B', 2)] });
  });
});
