/**
 * The estimator's model once more, all at once instead of step by step: every way a weaver's hand may
 * be and every reading may be misread, each a set of linear equations with normal errors, solved by
 * mathjs and weighed by how likely it makes the readings. Nothing is dropped. The figures stand here
 * a second time on purpose.
 */
import { add, det, erf, inv, type Matrix, matrix, multiply, subtract, transpose } from 'mathjs';

const DRIFTS = [
  [0.011, 0.64],
  [0.022, 0.31],
  [0.05, 0.05],
] as const;
const READINGS = [
  [1.2, 0.74],
  [2.3, 0.26],
] as const;
const MISREAD = { share: 0.015, sd: 32 };
const MISCOUNTED = { share: 0.002, sd: 40 };
const YARN_SD = 0.015;
const PIN_SD = 1;
const JUMP = { perMm: 1 / 5000, sd: 0.05 };

export interface Step {
  /** Planned lengths woven since the step before, by yarn. */
  readonly planned: readonly number[];
  readonly done:
    | { readonly kind: 'nothing' }
    | { readonly kind: 'pin' }
    /** `rounding`: variance. `fromPin`: counted among the pins put in. */
    | {
        readonly kind: 'read';
        readonly mm: number;
        readonly rounding: number;
        readonly fromPin: number | null;
      };
}

interface Guess {
  readonly weight: number;
  readonly mean: number;
  readonly sd: number;
}

/** Median and 90 % interval of the length after step `asked`, given all the readings. */
export function lengthByForce(
  steps: readonly Step[],
  asked: number,
  prior: { readonly factor: number; readonly spread: number },
): readonly number[] {
  const read = steps.flatMap(({ done }) => (done.kind === 'read' ? [done] : []));
  const guesses = DRIFTS.flatMap(([drift, a]) =>
    READINGS.flatMap(([sd, b]) =>
      Array.from({ length: 3 ** read.length }, (_, code) => {
        // Of every reading: 0 it fits, 1 it is misread, 2 picks were miscounted before it.
        const verdicts = read.map((_, i) => Math.floor(code / 3 ** i) % 3);
        const noise = read.map(({ rounding }, i) =>
          verdicts[i] === 1 ? MISREAD.sd ** 2 : sd ** 2 + rounding,
        );
        const shares = [1 - MISREAD.share - MISCOUNTED.share, MISREAD.share, MISCOUNTED.share];
        const chance = verdicts.reduce((share, it) => share * (shares[it] ?? 0), a * b);
        return solved(steps, asked, prior, drift ** 2 / 100, verdicts, noise, chance);
      }).flat(),
    ),
  );
  return [0.5, 0.05, 0.95].map((share) => quantile(guesses, share));
}

/** Unknowns: the factor, each yarn's own, then for every step its wander, the length that adds, the pin's error, the miscount. */
function solved(
  steps: readonly Step[],
  asked: number,
  prior: { readonly factor: number; readonly spread: number },
  drift: number,
  verdicts: readonly number[],
  noise: readonly number[],
  chance: number,
): readonly Guess[] {
  const yarns = steps[0]?.planned.length ?? 0;
  const first = 1 + yarns;
  const n = first + 4 * steps.length;
  const cov = Array.from({ length: n }, () => new Array<number>(n).fill(0));
  const put = (i: number, j: number, value: number) => {
    for (const [row, column] of [
      [i, j],
      [j, i],
    ] as const) {
      const line = cov[row];
      if (line) line[column] = value;
    }
  };
  put(0, 0, prior.spread ** 2);
  for (let yarn = 0; yarn < yarns; yarn++) put(1 + yarn, 1 + yarn, YARN_SD ** 2);
  const lengths: number[][] = [];
  const pins: number[][] = [];
  let factor = unit(n, 0);
  let length = new Array<number>(n).fill(0);
  const rows: number[][] = [];
  for (const [k, { planned, done }] of steps.entries()) {
    const at = first + 4 * k;
    const mm = planned.reduce((sum, it) => sum + it, 0);
    put(at, at, drift * mm);
    put(at, at + 1, (drift * mm ** 2) / 2);
    put(at + 1, at + 1, (drift * mm ** 3) / 3);
    put(at + 2, at + 2, PIN_SD ** 2);
    length = length.map(
      (it, i) => it + mm * (factor[i] ?? 0) + (planned[i - 1] ?? 0) * own(i, yarns),
    );
    length[at + 1] = 1;
    if (done.kind === 'read') {
      const isMiscounted = verdicts[rows.length] === 2;
      put(at + 3, at + 3, isMiscounted ? MISCOUNTED.sd ** 2 : 0);
      length[at + 3] = 1;
    }
    factor = factor.map((it, i) => (i === at ? 1 : it));
    lengths.push(length);
    if (done.kind === 'pin') pins.push(length.map((it, i) => (i === at + 2 ? 1 : it)));
    if (done.kind === 'read') {
      const pin = done.fromPin === null ? null : pins[done.fromPin];
      rows.push(length.map((it, i) => it - (pin?.[i] ?? 0)));
    }
  }
  const readings = steps.flatMap(({ done }) => (done.kind === 'read' ? [done.mm] : []));
  const p = matrix(cov);
  const mean = matrix(unit(n, 0).map((it) => [it * prior.factor]));
  const h = matrix([lengths[asked] ?? []]);
  const own0 = value(multiply(h, mean) as Matrix);
  const var0 = value(multiply(multiply(h, p), transpose(h)) as Matrix);
  const last = steps.findLastIndex(({ done }) => done.kind !== 'nothing');
  const beyond = steps
    .slice(last + 1, asked + 1)
    .reduce((sum, { planned }) => sum + planned.reduce((a, b) => a + b, 0), 0);
  if (rows.length === 0) return jumping(own0, var0, chance, beyond);
  const a = matrix(rows);
  const r = matrix(noise.map((it, i) => noise.map((_, j) => (i === j ? it : 0))));
  const s = add(multiply(multiply(a, p), transpose(a)), r) as Matrix;
  const gap = subtract(matrix(readings.map((it) => [it])), multiply(a, mean)) as Matrix;
  const solvedGap = multiply(inv(s), gap);
  const across = multiply(multiply(h, p), transpose(a)) as Matrix;
  const likely =
    Math.exp(-0.5 * value(multiply(transpose(gap), solvedGap) as Matrix)) / Math.sqrt(det(s));
  const shift = value(multiply(across, solvedGap) as Matrix);
  const known = value(multiply(multiply(across, inv(s)), transpose(across)) as Matrix);
  return jumping(own0 + shift, var0 - known, chance * likely, beyond);
}

/** A length to come, with and without a jump at any place on the way: uniform between 0 and size · way. */
function jumping(mean: number, variance: number, weight: number, way: number): readonly Guess[] {
  const chance = 1 - Math.exp(-JUMP.perMm * way);
  const more = (JUMP.sd ** 2 * way ** 2) / 3;
  return [
    { weight: weight * (1 - chance), mean, sd: Math.sqrt(variance) },
    { weight: weight * chance, mean, sd: Math.sqrt(variance + more) },
  ];
}

const unit = (n: number, i: number) => Array.from({ length: n }, (_, j) => (i === j ? 1 : 0));
const own = (i: number, yarns: number) => (i >= 1 && i <= yarns ? 1 : 0);
const value = (of: Matrix) => (of.toArray() as number[][])[0]?.[0] ?? Number.NaN;

function quantile(guesses: readonly Guess[], share: number): number {
  const whole = guesses.reduce((sum, { weight }) => sum + weight, 0);
  const below = (x: number) =>
    guesses.reduce(
      (sum, { weight, mean, sd }) => sum + (weight * (1 + erf((x - mean) / sd / Math.SQRT2))) / 2,
      0,
    ) / whole;
  let [low, high] = [-1000, 10_000];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (below(middle) < share) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
