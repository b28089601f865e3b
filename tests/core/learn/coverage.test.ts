/**
 * Cloth woven by a simulator of our own, washed and measured, through the whole chain: log → readings →
 * what each warp taught → the allowances of the next plan → its forecasts. An interval that claims
 * nine in ten must hold about nine in ten.
 */
import { describe, expect, it } from 'vitest';
import { NO_ADJUSTMENTS } from '../../../src/core/bench/adjustments.ts';
import { type Course, layCourse } from '../../../src/core/bench/course.ts';
import { clothKindOf } from '../../../src/core/learn/clothKind.ts';
import { allowancesFrom, type Knowledge, knowledgeOf } from '../../../src/core/learn/knowledge.ts';
import { type LearntWarp, learntOf } from '../../../src/core/learn/learntWarp.ts';
import { readingsOf } from '../../../src/core/learn/readings.ts';
import { nineInTen } from '../../../src/core/measure/spread.ts';
import { reedWidth } from '../../../src/core/plan/geometry.ts';
import type { Plan } from '../../../src/core/plan/plan.ts';
import { type Range, sureBy } from '../../../src/core/plan/sureness.ts';
import { sheetOf } from '../../../src/core/planner/sheet.ts';
import { INCH, pieceOf, planOf, solid } from '../plan/samples.ts';
import { type Dice, diceFrom } from './chance.ts';
import { type Nature, SHARES, weaveWarp } from './cloth.ts';

/** 250 ends of a 12½ dent heddle; every piece 300 picks of a tenth of an inch. */
const planOfPieces = (pieces: number): Plan =>
  planOf({
    warp: {
      order: [{ kind: 'solid', yarn: 'A', ends: 250 }],
      firstEnd: 'slot',
      viewpoint: 'front',
    },
    pieces: Array.from({ length: pieces }, () => pieceOf([solid('A', 300)])),
  });
const courses = new Map<number, Course>(
  [1, 2, 3, 4, 5].map((n) => [n, layCourse(planOfPieces(n), NO_ADJUSTMENTS)]),
);
const next = planOfPieces(1);
const loomLength = 300 * (INCH / 10);

interface Arrangement {
  readonly warps: number;
  readonly pieces: number;
}

/** Any yarn within practice; the standard deviations of the shares add up to `sd`. */
function natureBy(dice: Dice, sd: number): Nature {
  const part = dice.between(0.3, 0.7);
  return {
    drawIn: dice.between(0.03, 0.08),
    relax: dice.between(0.01, 0.05),
    shrinkLength: dice.between(0.03, 0.12),
    shrinkWidth: dice.between(0.03, 0.1),
    warpTaken: dice.between(0.06, 0.13),
    betweenWarps: sd * Math.sqrt(part),
    betweenPieces: sd * Math.sqrt(1 - part),
    reading: dice.between(1, 3),
  };
}

function taught(nature: Nature, { warps, pieces }: Arrangement, dice: Dice): readonly LearntWarp[] {
  const course = courses.get(pieces);
  if (course === undefined) throw new Error(`got no course of ${pieces} pieces`);
  const order = { pieces, reed: reedWidth(course.plan), times: dice.whole(1, 4) };
  return Array.from({ length: warps }, (_, n) => {
    const { log } = weaveWarp(nature, order, dice);
    const readings = readingsOf(log, pieces);
    const learnt = learntOf(`w${n}`, { course, picks: course.picks, readings, loomLengths: [] });
    if (learnt === null) throw new Error('got a warp that taught nothing');
    return learnt;
  });
}

interface Case {
  readonly nature: Nature;
  readonly known: Knowledge;
  readonly nextWarp: ReturnType<typeof weaveWarp>;
}

function caseOf(seed: number, arrangement: Arrangement, sd: (dice: Dice) => number): Case {
  const dice = diceFrom(seed);
  const nature = natureBy(dice, sd(dice));
  const known = knowledgeOf(clothKindOf(next), taught(nature, arrangement, dice));
  if (known === null) throw new Error('got no knowledge of the same cloth');
  const nextWarp = weaveWarp(nature, { pieces: 1, reed: reedWidth(next), times: 1 }, dice);
  return { nature, known, nextWarp };
}

/** The share of hits in percent. */
function percent(hits: readonly boolean[]): number {
  return (100 * hits.filter((it) => it).length) / hits.length;
}

const holdsNineInTen = (hits: readonly boolean[]) => {
  expect(hits.length).toBeGreaterThanOrEqual(1000);
  expect(percent(hits)).toBeGreaterThanOrEqual(86);
  expect(percent(hits)).toBeLessThanOrEqual(94);
};

/** How much yarns differ in how steady they are: 0.7 to 1.5 parts in a hundred (ours). */
const anySteadiness = (dice: Dice) => dice.between(0.007, 0.015);

const ARRANGEMENTS: readonly Arrangement[] = [
  { warps: 1, pieces: 1 },
  { warps: 1, pieces: 2 },
  { warps: 1, pieces: 4 },
  { warps: 2, pieces: 1 },
  { warps: 2, pieces: 3 },
  { warps: 4, pieces: 2 },
];

describe.each(ARRANGEMENTS)('learnt from $warps warps of $pieces pieces', (arrangement) => {
  const cases = Array.from({ length: 300 }, (_, n) =>
    caseOf(1 + n * 7919, arrangement, anySteadiness),
  );

  it('the share of the next piece lies within what is claimed', () => {
    const hits = cases.flatMap(({ known, nextWarp }) =>
      SHARES.map((name) => {
        const it = known.shares[name];
        const real = nextWarp.pieces[0]?.shares[name];
        if (it === undefined || real === undefined) throw new Error(`got no ${name}`);
        return Math.abs(real - it.share) <= nineInTen(sureBy(it.spread, it.pieces));
      }),
    );
    holdsNineInTen(hits);
  });

  it('the true share of the yarn lies within what is claimed of the mean', () => {
    const hits = cases.flatMap(({ nature, known }) =>
      SHARES.map((name) => {
        const it = known.shares[name];
        if (it === undefined) throw new Error(`got no ${name}`);
        return Math.abs(nature[name] - it.share) <= nineInTen(sureBy(it.ofMean, it.pieces));
      }),
    );
    holdsNineInTen(hits);
  });
});

describe('the next plan', () => {
  const cases = ARRANGEMENTS.flatMap((arrangement, k) =>
    Array.from({ length: 250 }, (_, n) => caseOf(5 + k + n * 104_729, arrangement, anySteadiness)),
  );
  const forecasts = cases.map(({ known, nextWarp }) => {
    const sheet = sheetOf({
      ...next,
      allowances: allowancesFrom(known, next.allowances, next.allowances),
    });
    const shares = nextWarp.pieces[0]?.shares;
    if (shares === undefined) throw new Error('got no piece');
    return { sheet, shares };
  });
  const within = (range: Range | null, size: number) =>
    range !== null && range.from <= size && size <= range.to;

  it('forecasts the washed length within its range', () => {
    const hits = forecasts.map(({ sheet, shares }) => {
      const real = loomLength * (1 - shares.relax) * (1 - shares.shrinkLength);
      return within(sheet.pieces[0]?.washedRange ?? null, real);
    });
    holdsNineInTen(hits);
  });

  it('forecasts the washed width within its range', () => {
    const hits = forecasts.map(({ sheet, shares }) => {
      const real = reedWidth(next) * (1 - shares.drawIn) * (1 - shares.shrinkWidth);
      return within(sheet.widths.washedRange, real);
    });
    holdsNineInTen(hits);
  });

  it('takes the warp that was claimed', () => {
    const hits = cases.map(({ known, nextWarp }) => {
      const it = known.shares.warpTaken;
      if (it === undefined) throw new Error('got no warp taken');
      return Math.abs(nextWarp.warpTaken - it.share) <= nineInTen(sureBy(it.spread, it.pieces));
    });
    holdsNineInTen(hits);
  });
});

describe('of a yarn steadier or wilder than is usual', () => {
  it('many warps measured outweigh what is usual', () => {
    for (const sd of [0.004, 0.025]) {
      const hits = Array.from({ length: 40 }, (_, n) => {
        const { known, nextWarp } = caseOf(11 + n * 31, { warps: 30, pieces: 2 }, () => sd);
        return SHARES.map((name) => {
          const it = known.shares[name];
          const real = nextWarp.pieces[0]?.shares[name] ?? 0;
          return (
            it !== undefined && Math.abs(real - it.share) <= nineInTen(sureBy(it.spread, it.pieces))
          );
        });
      }).flat();
      expect(percent(hits), String(sd)).toBeGreaterThanOrEqual(84);
    }
  });
});
