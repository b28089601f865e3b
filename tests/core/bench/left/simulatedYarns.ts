/**
 * Weavers made of chance, to try the accounts on: a yarn heavier or lighter than its count, a hand
 * that lays more or less of it than planned, labels and scales that are off, tails of any length, and
 * a warp that takes up as it likes. Knows nothing of the accounts: it winds, throws and weighs.
 */
import type { YarnWeighing } from '../../../../src/core/bench/left/left.ts';
import type { Plan } from '../../../../src/core/plan/plan.ts';
import { alternation, BASE, pieceOf, planOf, solid, yarns } from '../../plan/samples.ts';
import type { Chance } from '../beat/simulatedWeaver.ts';

/** Standard deviations, as shares unless said otherwise. */
export interface Yarns {
  /** Real over labelled weight of a metre, and of what a pick takes besides. */
  readonly tex: number;
  readonly hand: number;
  /** Random walk of the use of weft over 100 m of it. */
  readonly drift: number;
  readonly label: number;
  /** Grams; readings are whole grams. */
  readonly scale: number;
  readonly damp: number;
}

/** Off the plan by 5 %, all told. */
export const USUAL: Yarns = {
  tex: 0.04,
  hand: 0.03,
  drift: 0,
  label: 0.02,
  scale: 0.9,
  damp: 0.004,
};

/** The count as labelled, and the same 5 % in the hand. */
export const WEFT_ALONE: Yarns = { ...USUAL, tex: 0, hand: 0.05 };

const WIDTH = 480;
const ENDS = 240;
const TEX = 295.2705;
const SPACING = 2.5;
const WARP_OF_A = {
  order: [{ kind: 'solid', yarn: 'A', ends: ENDS }],
  viewpoint: 'front',
} as const;

/** Two pieces of two yarns: solids and an alternation of two and two; A is the warp too. */
const BLOCKS = [
  { yarns: 'A', picks: 60 },
  { yarns: 'B', picks: 220 },
  { yarns: 'AB', picks: 160 },
  { yarns: 'B', picks: 120 },
  { yarns: 'A', picks: 90 },
] as const;

export function planFor(onHand: readonly [number, number]): Plan {
  const weft = BLOCKS.map((block) =>
    block.yarns === 'AB'
      ? alternation('A2 B2', { kind: 'picks', picks: block.picks })
      : solid(block.yarns, block.picks),
  );
  return planOf({
    units: 'metric',
    loom: { ...BASE.loom, dents: { count: 50, per: '10cm' }, weavingWidth: 600 },
    yarns: yarns('AB').map((yarn, i) => ({
      ...yarn,
      count: { system: 'tex', number: TEX, plies: 1 },
      onHand: onHand[i] ?? 0,
    })),
    warp: { ...WARP_OF_A, firstEnd: 'slot' },
    weaving: { ...BASE.weaving, pickSpacing: SPACING, carryLimit: CARRY },
    allowances: {
      ...BASE.allowances,
      weftExtra: { share: 0.07, from: { kind: 'practice' } },
      warpTaken: { share: 0.1, from: { kind: 'practice' } },
    },
    pieces: [pieceOf(weft), pieceOf(weft)],
  });
}

export const PICKS = 2 * BLOCKS.reduce((sum, block) => sum + block.picks, 0);

/** Yarn of each pick of one piece. */
const PIECE = BLOCKS.flatMap(({ yarns: letters, picks }) =>
  Array.from({ length: picks }, (_, n) => letters[(n >> 1) % letters.length] ?? ''),
);

/** What hands do with a yarn at one pick, besides throwing it. */
interface Handling {
  readonly tails: number;
  readonly carried: number;
}

/** Longer than this a resting yarn is cut. */
const CARRY = 25;

/** One a pick of the warp: null where the pick is of another yarn. */
function handlingOf(letter: string): readonly (Handling | null)[] {
  const piece = PIECE.map((yarn, n): Handling | null => {
    if (yarn !== letter) return null;
    const rested = SPACING * (n - 1 - PIECE.slice(0, n).lastIndexOf(letter));
    const next = PIECE.indexOf(letter, n + 1);
    const rests = next < 0 ? Number.POSITIVE_INFINITY : SPACING * (next - 1 - n);
    const starts = rested > CARRY || !PIECE.slice(0, n).includes(letter);
    return {
      tails: Number(starts) + Number(rests > CARRY),
      carried: starts ? 0 : rested,
    };
  });
  return [...piece, ...piece];
}

const HANDLINGS: { readonly [letter: string]: readonly (Handling | null)[] } = {
  A: handlingOf('A'),
  B: handlingOf('B'),
};

export interface Yarn {
  readonly onHand: number;
  /** Grams not in the cloth when so many picks are woven; below nought where more was woven than there was. */
  readonly left: readonly number[];
}

/** What one yarn really does over the whole warp; `wound` is the length of the warp, mm. */
export function yarnOf(
  truth: Yarns,
  chance: Chance,
  letter: string,
  onHand: number,
  wound: number,
): Yarn {
  const gramsPerMm = (TEX / 1e6) * (1 + truth.tex * chance.normal());
  let hand = 1 + truth.hand * chance.normal();
  const tail = () => chance.between([60, 140]) * gramsPerMm;
  const ends = letter === 'A' ? ENDS : 0;
  let left = onHand * (1 + truth.label * chance.normal()) - ends * wound * gramsPerMm;
  const lefts = [left];
  for (const handling of HANDLINGS[letter] ?? []) {
    if (handling !== null) {
      for (let k = 0; k < handling.tails; k++) left -= tail();
      const length = WIDTH * 1.07 * hand * (1 + 0.03 * chance.normal());
      left -= (handling.carried + length) * gramsPerMm;
      hand += truth.drift * Math.sqrt(length / 100_000) * chance.normal();
    }
    lefts.push(left);
  }
  return { onHand, left: lefts };
}

/** The scale, read in whole grams on a day as damp as it is. */
export function weighs(
  truth: Yarns,
  chance: Chance,
  yarn: number,
  pick: number,
  left: number,
): YarnWeighing {
  const shown = left * (1 + truth.damp * chance.normal()) + truth.scale * chance.normal();
  return { yarn, pick, net: Math.max(0, Math.round(shown)), wound: true };
}
