import { describe, expect, it } from 'vitest';
import type { Allowance } from '../../../src/core/plan/plan.ts';
import { rangeOf } from '../../../src/core/plan/sureness.ts';

const practice = (share: number): Allowance => ({ share, from: { kind: 'practice' } });
const washed = (share: number, pieces: number, spread: number): Allowance => ({
  share,
  from: { kind: 'washed', pieces, spread },
});

describe('the range of a forecast size', () => {
  it('is nothing where nothing was learnt', () => {
    expect(rangeOf(700, [practice(0.03), practice(0.08)])).toBeNull();
    expect(rangeOf(700, [])).toBeNull();
  });

  it('of one learnt share is t times its spread, as a part of what is left', () => {
    // Three pieces are worth 4 + 2 degrees of freedom: t = 1.943 (table). 0.01 of 0.92 is 1.087 %.
    const range = rangeOf(644, [washed(0.08, 3, 0.01)]);
    const half = (644 * 1.943 * 0.01) / 0.92;
    expect(range?.from).toBeCloseTo(644 - half, 1);
    expect(range?.to).toBeCloseTo(644 + half, 1);
  });

  it('of two adds their spreads in squares; one from practice may stray as a single piece does', () => {
    const both = rangeOf(600, [washed(0.04, 1, 0.0141421356), washed(0.1, 1, 0.0141421356)]);
    const one = rangeOf(600, [practice(0.04), washed(0.1, 1, 0.0141421356)]);
    expect(one?.from).toBeCloseTo(both?.from ?? 0, 4);
    // √((√2/96)² + (√2/90)²) = 2.154 %, on eight degrees of freedom very nearly: t = 1.860.
    expect(both?.to).toBeCloseTo(600 * (1 + 0.02154 * 1.86), 0);
  });
});
