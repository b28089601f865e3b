import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Branch, type News, pruned } from '../../../../src/core/bench/beat/branches.ts';
import { earlier, withHindsight } from '../../../../src/core/bench/beat/hindsight.ts';
import {
  beforeReading,
  type Gaussian,
  met,
  noHindsight,
  observed,
  type Seen,
} from '../../../../src/core/bench/beat/kalman.ts';
import type { BeatMark } from '../../../../src/core/bench/beat/marks.ts';

/** Two yarns: length, factor, easing, a correction each, the last pin. */
const N = 6;
const number = fc.double({ min: -2, max: 2, noNaN: true });
const numbers = (count: number) => fc.array(number, { minLength: count, maxLength: count });

const belief = fc.tuple(numbers(N), numbers(N * N)).map(([mean, half]): Gaussian => {
  const cov = Array.from({ length: N * N }, (_, k) => {
    const [i, j] = [Math.floor(k / N), k % N];
    let sum = i === j ? 0.1 : 0;
    for (let m = 0; m < N; m++) sum += (half[i * N + m] ?? 0) * (half[j * N + m] ?? 0);
    return sum;
  });
  return { mean, cov };
});
const reading = fc.record({ weights: numbers(N), gap: number });

function seenBy(
  state: Gaussian,
  { weights, gap }: { weights: readonly number[]; gap: number },
): Seen {
  const exact = met(state, weights, gap);
  return { ...exact, variance: exact.variance + 0.5 };
}

const NOWHERE: BeatMark = {
  what: { kind: 'takenBack' },
  piece: 0,
  pick: 0,
  since: { kind: 'counted', planned: [0, 0] },
};

function branchAt(state: Gaussian, news: News, before: Branch | null): Branch {
  return { before, mark: before && NOWHERE, way: 0, recent: 0, weight: 0, state, news };
}

function expectSame(got: Gaussian, wanted: Gaussian): void {
  const scale = Math.max(1, ...wanted.cov.map(Math.abs));
  for (const [i, it] of got.mean.entries())
    expect(Math.abs(it - (wanted.mean[i] ?? Number.NaN)) / scale).toBeLessThan(1e-6);
  for (const [i, it] of got.cov.entries())
    expect(Math.abs(it - (wanted.cov[i] ?? Number.NaN)) / scale).toBeLessThan(1e-6);
}

describe('hindsight', () => {
  it('of one reading is what the reading says', () => {
    fc.assert(
      fc.property(belief, reading, (state, first) => {
        const seen = seenBy(state, first);
        const hindsight = beforeReading(noHindsight(N), seen);
        expectSame(withHindsight(state, hindsight), observed(state, seen));
      }),
    );
  });

  it('kept from cloth taken out joins with what the cloth woven again says', () => {
    fc.assert(
      fc.property(belief, reading, reading, (state, first, second) => {
        const lost = seenBy(state, first);
        const kept = beforeReading(noHindsight(N), lost);
        const root = branchAt(state, { kind: 'none' }, null);
        const left = withHindsight(state, kept);
        const back = branchAt(left, { kind: 'kept', cov: state.cov, hindsight: kept }, root);
        const seen = seenBy(left, second);
        const now = branchAt(observed(left, seen), { kind: 'seen', seen }, back);
        const then = earlier(now, 1);
        if (then === null) throw new Error('wanted the mark before the last one, got none');
        expectSame(withHindsight(state, then.hindsight), observed(observed(state, lost), seen));
      }),
    );
  });
});

describe('branches pruned', () => {
  const weighed = fc.record({
    way: fc.nat(5),
    recent: fc.nat(26),
    weight: fc.double({ min: -15, max: 0, noNaN: true }),
  });
  const share = ({ weight }: { readonly weight: number }) => Math.exp(weight);
  const sum = (all: readonly { readonly weight: number }[]) =>
    all.reduce((total, it) => total + share(it), 0);

  it('weigh 1 together, each at most once a way and recent past, the likeliest of all among them', () => {
    fc.assert(
      fc.property(fc.array(weighed, { minLength: 1, maxLength: 60 }), (all) => {
        const left = pruned(all);
        expect(sum(left)).toBeCloseTo(1, 9);
        expect(new Set(left.map(({ way, recent }) => `${way}/${recent}`)).size).toBe(left.length);
        const best = all.reduce((a, b) => (b.weight > a.weight ? b : a));
        expect(left[0]).toMatchObject({ way: best.way, recent: best.recent });
      }),
    );
  });

  it('that agree in the recent past weigh what they weighed together', () => {
    const left = pruned([
      { way: 0, recent: 1, weight: Math.log(0.3) },
      { way: 1, recent: 1, weight: Math.log(0.4) },
      { way: 0, recent: 1, weight: Math.log(0.3) },
    ]);
    expect(left.map((it) => [it.way, Number(share(it).toFixed(6))])).toEqual([
      [1, 0.4],
      [0, 0.6],
    ]);
  });
});
