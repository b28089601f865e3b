import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ciede2000, labOf } from '../../../src/core/measure/colour.ts';
import type { Block, Plan, Stripe } from '../../../src/core/plan/plan.ts';
import {
  READING_LIMITS,
  READING_VERDICTS,
  readingOf,
  readingsOf,
} from '../../../src/core/planner/reads.ts';
import {
  alternation,
  BASE,
  checked,
  pieceOf,
  solid,
  solidOfLength,
  yarns,
} from '../plan/samples.ts';
import { sharesFrom, stripesOf } from './examples.ts';

interface Coloured {
  readonly colours: readonly string[];
  readonly order?: readonly Stripe[];
  readonly weft?: readonly Block[];
}

/** 12½ ends to the inch (2.032 mm an end) and 2 mm a pick. */
function coloured({ colours, order = stripesOf('A4'), weft = [solid('A', 4)] }: Coloured): Plan {
  const letters = 'ABCD'.slice(0, colours.length);
  return checked({
    ...BASE,
    yarns: yarns(letters).map((yarn, i) => ({ ...yarn, colour: colours[i] })),
    warp: { ...BASE.warp, order },
    weaving: { ...BASE.weaving, pickSpacing: 2 },
    pieces: [pieceOf(weft)],
  });
}

const turns = { kind: 'turns', turns: 9 } as const;
const twoAndTwo = alternation('A2 B2', turns);

describe('an alternation of two yarns', () => {
  it.each([
    ['black on white', '#000000', '#ffffff', 'clear'],
    ['one colour twice', '#5d7043', '#5d7043', 'vanishes'],
    ['a colour and its neighbour', '#5d7043', '#61733f', 'vanishes'],
    ['red and grey of one lightness', '#ff0000', '#808080', 'vanishes'],
    ['two greys ten steps of lightness apart', '#777777', '#919191', 'soft'],
    ['ink and oat', '#2f4560', '#d9c6a0', 'clear'],
  ])('of %s, 2 and 2: %s and %s, %s (thresholds are ours)', (_, a, b, verdict) => {
    expect(readingsOf(coloured({ colours: [a, b], weft: [twoAndTwo] }))).toMatchObject([
      { where: 'weft', piece: 0, path: 'pieces[0].weft[0]', yarns: [0, 1], verdict },
    ]);
  });

  it('red and grey #808080 differ by 0.35 in lightness: 53.24 and 53.59 (sRGB → Lab, D65)', () => {
    const [reading] = readingsOf(coloured({ colours: ['#ff0000', '#808080'], weft: [twoAndTwo] }));
    expect(Math.abs((reading?.lightness ?? 0) - 0.35)).toBeLessThanOrEqual(0.04);
    expect(reading?.difference).toBeCloseTo(ciede2000(labOf('#ff0000'), labOf('#808080')), 9);
  });

  it('of equal lightness does by colour alone where the stripes are wide', () => {
    const wide = alternation('A4 B4', turns);
    const colours = ['#ff0000', '#808080'];
    const [reading] = readingsOf(coloured({ colours, weft: [wide] }));
    expect(reading).toMatchObject({ narrowest: 8, verdict: 'clear' });
    expect(READING_LIMITS.fine).toBe(8);
  });

  it('is as narrow as its narrower turn, washed', () => {
    const colours = ['#000000', '#ffffff'];
    const plan = coloured({ colours, weft: [alternation('A3 B2', turns)] });
    expect(readingsOf(plan)[0]?.narrowest).toBeCloseTo(4, 9);
    const allowances = sharesFrom({ relax: 0.05, shrinkLength: 0.1 });
    expect(readingsOf(checked({ ...plan, allowances }))[0]?.narrowest).toBeCloseTo(
      4 * 0.95 * 0.9,
      9,
    );
  });
});

describe('what is looked at', () => {
  const colours = ['#000000', '#ffffff', '#777777'];

  it('is every pair of neighbours in a cycle once, there and back or round', () => {
    const round = alternation('A2 B2 C2', turns);
    const pairs = (block: Block) =>
      readingsOf(coloured({ colours, weft: [block] })).map((it) => it.yarns);
    expect(pairs(round)).toEqual([
      [0, 1],
      [1, 2],
      [0, 2],
    ]);
    expect(pairs({ ...round, path: 'there-and-back' })).toEqual([
      [0, 1],
      [1, 2],
    ]);
  });

  it('is an alternation inside repeats and mirrors, and a repeat of solids', () => {
    const repeat: Block = {
      kind: 'repeat',
      times: 4,
      of: [solidOfLength('A', 10), solid('B', 3)],
    };
    const weft: Block[] = [
      solid('A', 4),
      { kind: 'mirror', centre: 'shared', of: [twoAndTwo, solid('C', 4)] },
      repeat,
      { ...repeat, times: 1 },
    ];
    const found = readingsOf(coloured({ colours, weft }));
    expect(found.map((it) => it.path)).toEqual(['pieces[0].weft[1].of[0]', 'pieces[0].weft[2]']);
    expect(found[1]?.narrowest).toBeCloseTo(6, 9);
  });

  it('is the warp too', () => {
    const order: Stripe[] = [
      ...stripesOf('A4 B4'),
      { kind: 'repeat', times: 5, of: stripesOf('A2 C1') },
      {
        kind: 'mirror',
        centre: 'shared',
        of: [
          {
            kind: 'alternation',
            cycle: [
              { yarn: 'B', ends: 3 },
              { yarn: 'C', ends: 3 },
            ],
            turns: 6,
          },
        ],
      },
    ];
    const found = readingsOf(coloured({ colours, order }));
    expect(found.map(({ where, piece, path, yarns: pair }) => [where, piece, path, pair])).toEqual([
      ['warp', null, 'warp.order[2]', [0, 2]],
      ['warp', null, 'warp.order[3].of[0]', [1, 2]],
    ]);
    expect(found[0]?.narrowest).toBeCloseTo(2.032, 9);
  });

  it('is nothing where no colours take turns', () => {
    expect(readingsOf(coloured({ colours, weft: [solid('A', 9), solid('B', 9)] }))).toEqual([]);
  });
});

describe('a verdict', () => {
  const lab = fc.record({
    l: fc.double({ min: 0, max: 100, noNaN: true }),
    a: fc.double({ min: -80, max: 80, noNaN: true }),
    b: fc.double({ min: -80, max: 80, noNaN: true }),
  });
  const rank = (verdict: (typeof READING_VERDICTS)[number]) => READING_VERDICTS.indexOf(verdict);

  it('is the same whichever yarn comes first, and no better where stripes are finer', () => {
    fc.assert(
      fc.property(lab, lab, fc.double({ min: 0.1, max: 30, noNaN: true }), (one, other, mm) => {
        expect(readingOf(one, other, mm)).toBe(readingOf(other, one, mm));
        expect(rank(readingOf(one, other, mm / 2))).toBeGreaterThanOrEqual(
          rank(readingOf(one, other, mm)),
        );
        expect(readingOf(one, one, mm)).toBe('vanishes');
      }),
    );
  });
});
