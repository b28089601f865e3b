import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { layWeft, picksOf } from '../../../src/core/plan/blocks.ts';
import { warpEnds } from '../../../src/core/plan/geometry.ts';
import { parseBlocks, parseStripes } from '../../../src/core/plan/orderText.ts';
import type { Block, Stripe } from '../../../src/core/plan/plan.ts';
import {
  type Band,
  blockSize,
  nearestClosing,
  warpBands,
  weftBands,
} from '../../../src/core/planner/orderBands.ts';
import { anyPlan } from '../bench/arbitraries.ts';
import { alternation, BASE, solid, yarns } from '../plan/samples.ts';

/** Ten picks to the inch. */
const BEAT = { yarns: yarns('ABC'), pickSpacing: 2.54 };

const warp = (text: string): readonly Stripe[] => {
  const read = parseStripes(text);
  return read.ok ? read.value : [];
};
const weft = (text: string): readonly Block[] => {
  const read = parseBlocks(text, 'inch');
  return read.ok ? read.value : [];
};
const shown = (bands: readonly Band[] | null) =>
  bands?.map(({ yarn, threads }) => `${yarn}${threads}`).join(' ') ?? null;

describe('bands are what is seen', () => {
  it.each([
    ['10 A, 3 turns of (2 A, 2 B)', 'A12 B2 A2'],
    ['mirror (2 A, 3 B)', 'A2 B3 A2'],
    ['mirror with the middle twice (2 A, 3 B)', 'A2 B6 A2'],
    ['2 times (2 A, 2 B, 2 A)', 'A2 B2 A4 B2 A2'],
    ['3 times (10000 A)', null],
  ])('warp: %s', (text, bands) => {
    expect(shown(warpBands(warp(text)))).toBe(bands);
  });

  it.each([
    ['10 A, 3 turns of (2 A, 2 B) from B to B', 'A10 B2 A2 B2'],
    ['10 A, 3 turns of (2 A, 2 B) from A to A', 'A12 B2 A2'],
    // Ten picks to the inch make 25; of the even numbers 24 and 26, as near as each other, the lower.
    ['2½ in A', 'A24'],
    ['2½ in A odd picks', 'A25'],
    // 3 in are 30 picks, 15 turns, which open and close on B.
    [
      '1 picks A, 3 in of (2 A, 2 B) from B to B',
      'A1 B2 A2 B2 A2 B2 A2 B2 A2 B2 A2 B2 A2 B2 A2 B2',
    ],
    ['4 picks D', 'D4'],
  ])('weft: %s', (text, bands) => {
    expect(shown(weftBands(weft(text), BEAT))).toBe(bands);
  });

  it('a band of the weft is as long as its picks', () => {
    expect(weftBands([solid('A', 10), { ...solid('B', 10), pickSpacing: 1 }], BEAT)).toEqual([
      { yarn: 'A', threads: 10, extent: 25.4 },
      { yarn: 'B', threads: 10, extent: 10 },
    ]);
  });

  it('a draft that is no order yet has no bands, and does not throw', () => {
    const broken = [Number.NaN, 0, -1, 2.5, 1e12, Number.POSITIVE_INFINITY];
    for (const n of broken) {
      expect(warpBands([{ kind: 'solid', yarn: 'A', ends: n }])).toBeNull();
      expect(weftBands([solid('A', n)], BEAT)).toBeNull();
      expect(weftBands([{ kind: 'repeat', times: n, of: [solid('A', 2)] }], BEAT)).toBeNull();
    }
    expect(weftBands([solid('A', 2)], { ...BEAT, pickSpacing: Number.NaN })).toBeNull();
  });

  it('a closing yarn that has left the cycle is not waited for', () => {
    const block = alternation('A2 B2', { kind: 'picks', picks: 6 }, { closes: 'C' });
    expect(shown(weftBands([block], BEAT))).toBe('A2 B2 A2');
  });
});

describe('the size of a block', () => {
  it('is its turns, picks and loom length at the planned beat', () => {
    const extent = { kind: 'length', loomLength: 76.2 } as const;
    const block = alternation('A2 B2', extent, { opens: 'B', closes: 'B' });
    expect(blockSize(block, BEAT)).toMatchObject({ turns: 15, picks: 30 });
    expect(blockSize(block, BEAT)?.loomLength).toBeCloseTo(76.2, 9);
  });

  it('turns that do not close have a neighbour that does, ties going down', () => {
    const block = alternation('A2 B2', { kind: 'turns', turns: 12 }, { closes: 'A' });
    expect(nearestClosing(block, BEAT)).toMatchObject({ turns: 11, picks: 22 });
  });
});

describe('laws of bands', () => {
  it('no two neighbours are of one yarn, and no thread is lost', () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        for (const [i, piece] of plan.pieces.entries()) {
          const { pickSpacing } = plan.weaving;
          const bands = weftBands(piece.weft, { yarns: plan.yarns, pickSpacing }) ?? [];
          const picks = layWeft(plan, i).reduce((sum, laid) => sum + picksOf(laid), 0);
          expect(bands.reduce((sum, band) => sum + band.threads, 0)).toBe(picks);
          expect(bands.some((band, k) => band.yarn === bands[k + 1]?.yarn)).toBe(false);
        }
      }),
    );
  });

  it('the ends of the bands are the ends of the warp', () => {
    const order = warp('24 B, 3 times (12 A, mirror (9 turns of (2 C, 2 B), 4 A)), 10 A');
    const bands = warpBands(order) ?? [];
    const plan = { ...BASE, warp: { ...BASE.warp, order } };
    expect(bands.reduce((sum, band) => sum + band.threads, 0)).toBe(warpEnds(plan));
  });
});
