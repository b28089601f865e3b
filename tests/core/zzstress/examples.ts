/** Worked examples of books and weavers, made into whole plans: a warp of A, woven with B. */
import type { YarnCount } from '../../../src/core/measure/yarnCount.ts';
import type { AllowanceName, Block, Plan, Stripe } from '../../../src/core/plan/plan.ts';
import { BASE, checked, INCH, NO_ALLOWANCES, pieceOf, solid, yarns } from '../plan/samples.ts';

export const YARD = 36 * INCH;

export interface Example {
  readonly ends: number;
  /** Ends per inch in the reed. */
  readonly epi: number;
  /** Picks per inch on the loom. */
  readonly ppi?: number;
  /** Loom length of each piece, inches. */
  readonly lengths: readonly number[];
  readonly warp?: YarnCount;
  readonly weft?: YarnCount;
  readonly shares?: Partial<Record<AllowanceName, number>>;
  /** Front and back together, inches. */
  readonly waste?: number;
}

export const cotton = (number: number, plies = 1): YarnCount => ({
  system: 'cottonCount',
  number,
  plies,
});

/** The example as a checked plan on a shaft loom 100 in wide. */
export function exampleOf(example: Example): Plan {
  const { ends, epi, ppi = 10, lengths, waste = 0 } = example;
  const [a, b] = yarns('AB');
  return checked({
    ...BASE,
    loom: {
      kind: 'shaft',
      dents: { count: epi, per: 'inch' },
      endsPerDent: 1,
      weavingWidth: 100 * INCH,
      frontTieOn: (waste / 3) * INCH,
      backWaste: ((2 * waste) / 3) * INCH,
      weavingDepth: 100,
    },
    yarns: [
      { ...a, count: example.warp ?? cotton(8, 2) },
      { ...b, count: example.weft ?? cotton(8, 2) },
    ],
    warp: { order: [{ kind: 'solid', yarn: 'A', ends }], viewpoint: 'front' },
    weaving: { ...BASE.weaving, pickSpacing: INCH / ppi },
    allowances: sharesFrom(example.shares ?? {}),
    pieces: lengths.map((inches) =>
      pieceOf(wovenWith(Math.round(inches * ppi)), { startShed: 'odd' }),
    ),
  });
}

/** So many picks of B; no block of a plan may have more than 100 000. */
function wovenWith(picks: number): readonly Block[] {
  const once: Block = { kind: 'solid', yarn: 'B', extent: { kind: 'picks', picks: picks / 2 } };
  const all: Block = { kind: 'solid', yarn: 'B', extent: { kind: 'picks', picks } };
  return [picks > 100_000 ? { kind: 'repeat', times: 2, of: [once] } : all];
}

export function sharesFrom(shares: Partial<Record<AllowanceName, number>>): Plan['allowances'] {
  const typed = Object.entries(shares).map(([name, share]) => [
    name,
    { share, from: { kind: 'typed' } },
  ]);
  return { ...NO_ALLOWANCES, ...Object.fromEntries(typed) };
}

/** A warp order in short: `A20 B2` is twenty ends of A and two of B. */
export function stripesOf(text: string): readonly Stripe[] {
  return text.split(' ').map((it) => ({
    kind: 'solid',
    yarn: it.slice(0, 1),
    ends: Number(it.slice(1)),
  }));
}

/** A plan of this warp order, on a loom wide enough for anything. */
export function warpedWith(letters: string, order: readonly Stripe[]): Plan {
  return checked({
    ...BASE,
    loom: { ...BASE.loom, weavingWidth: 5000 * INCH },
    yarns: yarns(letters),
    warp: { ...BASE.warp, order },
    pieces: [pieceOf([solid(letters.slice(0, 1), 4)])],
  });
}
