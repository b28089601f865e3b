import fc from 'fast-check';
import { add, inv, type Matrix, matrix, multiply, subtract, transpose } from 'mathjs';
import { describe, expect, it } from 'vitest';
import {
  beforeMove,
  beforeReading,
  type Gaussian,
  type Hindsight,
  type Move,
  met,
  noHindsight,
  observed,
  predicted,
  type Seen,
} from '../../../../src/core/bench/beat/kalman.ts';

/** A reading with an error of this variance. */
function seenBy(belief: Gaussian, weights: readonly number[], gap: number, noise: number): Seen {
  const exact = met(belief, weights, gap);
  return { ...exact, variance: exact.variance + noise };
}

describe('the Kalman step', () => {
  // The local level model of the flow of the Nile at Aswan, 1871 on: J. Durbin & S. J. Koopman, Time
  // Series Analysis by State Space Methods, ch. 2, variances 15099 and 1469.1, started with variance
  // 1e7; data and parameters from memory, each step checked with a pencil: P·R / (P + R) and so on.
  const NOISE = 15099;
  const STEP = [{ row: 0, column: 0, variance: 1469.1 }];
  const stay: Move = { row: 0, weights: [1], add: 0 };

  it.each([
    // flow, level after it, its variance, level and variance before the next
    [[1120], 1118.311, 15076.24, 16545.34],
    [[1120, 1160], 1140.109, 7894.56, 9363.66],
    [[1120, 1160, 963], 1072.316, 5779.5, 7248.6],
  ] as const)('follows the Nile after %j', (flows, level, variance, before) => {
    let belief: Gaussian = { mean: [0], cov: [1e7] };
    let after = belief;
    for (const flow of flows) {
      const seen = seenBy(belief, [1], flow - (belief.mean[0] ?? 0), NOISE);
      after = observed(belief, seen);
      belief = predicted(after, stay, STEP);
    }
    expect(after.mean[0]).toBeCloseTo(level, 1);
    expect(after.cov[0]).toBeCloseTo(variance, 1);
    expect(belief.cov[0]).toBeCloseTo(before, 1);
  });

  it('comes to rest on the Nile at a variance of 4032, a gain of 0.267', () => {
    let belief: Gaussian = { mean: [1000], cov: [1e7] };
    for (let year = 0; year < 100; year++) {
      const after = observed(belief, seenBy(belief, [1], 0, NOISE));
      belief = predicted(after, stay, STEP);
      if (year === 99) expect(after.cov[0]).toBeCloseTo(4032.16, 1);
    }
    const { across, variance } = seenBy(belief, [1], 0, NOISE);
    expect((across[0] ?? 0) / variance).toBeCloseTo(0.267, 3);
  });
});

const N = 4;
const number = fc.double({ min: -3, max: 3, noNaN: true });
const vector = fc.array(number, { minLength: N, maxLength: N });
const column = (numbers: readonly number[]): Matrix => matrix(numbers.map((it) => [it]));
const flat = (of: Matrix): readonly number[] => (of.toArray() as number[][]).flat();
const square = (numbers: readonly number[]): Matrix =>
  matrix(Array.from({ length: N }, (_, i) => numbers.slice(i * N, i * N + N)));

/** Any belief: a mean, and half·halfᵀ + a little on the diagonal. */
const belief = fc
  .tuple(vector, fc.array(number, { minLength: N * N, maxLength: N * N }))
  .map(([mean, half]): Gaussian => {
    const own = Array.from({ length: N * N }, (_, i) => (i % (N + 1) === 0 ? 0.1 : 0));
    const whole = multiply(square(half), transpose(square(half)));
    return { mean, cov: flat(add(whole, square(own)) as Matrix) };
  });
const move = fc.record({ row: fc.nat(N - 1), weights: vector, add: number });
const reading = fc.record({
  weights: vector,
  gap: number,
  noise: fc.double({ min: 0.1, max: 4, noNaN: true }),
});

const fOf = ({ row, weights }: Move): Matrix =>
  matrix(
    Array.from({ length: N }, (_, i) =>
      i === row ? [...weights] : Array.from({ length: N }, (_, j) => (i === j ? 1 : 0)),
    ),
  );

function expectNear(got: readonly number[], wanted: readonly number[]): void {
  const scale = Math.max(1, ...wanted.map(Math.abs));
  expect(got.length).toBe(wanted.length);
  got.forEach((it, i) => {
    expect(Math.abs(it - (wanted[i] ?? Number.NaN)) / scale).toBeLessThan(1e-6);
  });
}

describe('against mathjs', () => {
  it('a move is F·x + b and F·P·Fᵀ + Q', () => {
    const noise = [
      { row: 1, column: 1, variance: 0.3 },
      { row: 0, column: 1, variance: 0.1 },
    ];
    const q = square([0, 0.1, 0, 0, 0.1, 0.3, 0, 0, ...Array.from({ length: 8 }, () => 0)]);
    fc.assert(
      fc.property(belief, move, (before, step) => {
        const after = predicted(before, step, noise);
        const f = fOf(step);
        const b = column(Array.from({ length: N }, (_, i) => (i === step.row ? step.add : 0)));
        expectNear(after.mean, flat(add(multiply(f, column(before.mean)), b) as Matrix));
        const spread = multiply(multiply(f, square(before.cov)), transpose(f));
        expectNear(after.cov, flat(add(spread, q) as Matrix));
      }),
    );
  });

  it('a reading is x + P·hᵀ/S·gap and P − P·hᵀ·h·P/S with S = h·P·hᵀ + R', () => {
    fc.assert(
      fc.property(belief, reading, (before, { weights, gap, noise }) => {
        const after = observed(before, seenBy(before, weights, gap, noise));
        const p = square(before.cov);
        const h = transpose(column(weights));
        const s = (flat(multiply(multiply(h, p), transpose(h)) as Matrix)[0] ?? 0) + noise;
        const gain = multiply(multiply(p, transpose(h)), 1 / s);
        expectNear(after.mean, flat(add(column(before.mean), multiply(gain, gap)) as Matrix));
        expectNear(after.cov, flat(subtract(p, multiply(multiply(gain, h), p)) as Matrix));
      }),
    );
  });

  it('hindsight is what all the readings say at once', () => {
    // x at the start; each reading sees h·(F…F·x); stacked, one least-squares problem for x.
    const steps = fc.array(fc.tuple(move, reading), { minLength: 1, maxLength: 5 });
    fc.assert(
      fc.property(belief, steps, (start, list) => {
        const seen: { readonly move: Move; readonly seen: Seen }[] = [];
        let now = start;
        let f = square(Array.from({ length: N * N }, (_, i) => (i % (N + 1) === 0 ? 1 : 0)));
        let mean = column(start.mean);
        const rows: number[][] = [];
        const gaps: number[] = [];
        for (const [step, { weights, gap, noise }] of list) {
          now = predicted(now, step, []);
          const news = seenBy(now, weights, gap, noise);
          seen.push({ move: step, seen: news });
          const expected = weights.reduce((sum, w, i) => sum + w * (now.mean[i] ?? 0), 0);
          now = observed(now, news);
          f = multiply(fOf(step), f);
          const b = column(Array.from({ length: N }, (_, i) => (i === step.row ? step.add : 0)));
          mean = add(multiply(fOf(step), mean), b) as Matrix;
          const h = transpose(column(weights));
          rows.push([...flat(multiply(h, f) as Matrix)].map((it) => it / Math.sqrt(noise)));
          const blind = flat(multiply(h, mean) as Matrix)[0] ?? 0;
          gaps.push((expected + gap - blind) / Math.sqrt(noise));
        }
        const p = square(start.cov);
        const a = matrix(rows);
        const information = add(inv(p), multiply(transpose(a), a)) as Matrix;
        const cov = inv(information);
        const shift = multiply(multiply(cov, transpose(a)), column(gaps)) as Matrix;
        let back: Hindsight = noHindsight(N);
        for (const it of seen.reverse()) back = beforeMove(beforeReading(back, it.seen), it.move);
        const pulled = multiply(p, column(back.pull)) as Matrix;
        expectNear(flat(multiply(pulled, -1) as Matrix), flat(shift));
        const held = multiply(multiply(p, square(back.hold)), p) as Matrix;
        expectNear(flat(subtract(p, held) as Matrix), flat(cov));
      }),
      { numRuns: 60 },
    );
  });
});
