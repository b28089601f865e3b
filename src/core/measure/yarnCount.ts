import type { CountNotation } from './countNotation.ts';
import { readPlied, writePlied } from './countNotation.ts';
import type { Mm } from './length.ts';
import { MM_PER_YARD } from './length.ts';
import type { Grams } from './mass.ts';
import { G_PER_POUND } from './mass.ts';
import type { TextProblem } from './quantityText.ts';
import type { Result } from './result.ts';
import { fail, ok } from './result.ts';

/** Linear density: grams per kilometre of the finished, plied yarn. */
export type Tex = number;

/** Every way of stating a yarn's fineness that the app reads. */
export const COUNT_SYSTEMS = [
  'cottonCount',
  'linenLea',
  'worsted',
  'woollenRun',
  'woollenCut',
  'metric',
  'tex',
  'dtex',
  'denier',
  'ydPerLb',
  'mPer100g',
  'mPerKg',
] as const;
export type CountSystem = (typeof COUNT_SYSTEMS)[number];

/**
 * A count as its label states it. `number` is that of one single, `plies` how many are twisted
 * together; for yards per pound, metres per 100 g and per kg the number is of the finished yarn.
 */
export interface YarnCount {
  readonly system: CountSystem;
  readonly number: number;
  /** A whole number from 1. */
  readonly plies: number;
}

export type CountProblem =
  | Exclude<TextProblem, 'nonsense'>
  | 'not-a-count'
  | 'too-fine'
  | 'too-thick'
  | 'too-many-plies';

/**
 * How a system works. `spun`: length per mass of a single, so plies divide it; `weighed`: mass per
 * length of a single, so plies multiply it; `label`: length per mass of the yarn as sold, whose
 * plies are in the figure already.
 */
type Rule =
  | {
      readonly kind: 'spun';
      readonly metresPerGram: number;
      readonly writes: CountNotation;
    }
  | { readonly kind: 'weighed'; readonly tex: Tex }
  | { readonly kind: 'label'; readonly metresPerGram: number };

const METRES_PER_GRAM_OF_YD_PER_LB = MM_PER_YARD / 1000 / G_PER_POUND;

/** Yards in the hank of each count and the metric systems: ASTM D2260, Table 1. */
const RULES: Readonly<Record<CountSystem, Rule>> = {
  cottonCount: hanksPerPound(840),
  linenLea: hanksPerPound(300),
  worsted: hanksPerPound(560),
  woollenRun: hanksPerPound(1600),
  woollenCut: hanksPerPound(300),
  metric: { kind: 'spun', metresPerGram: 1, writes: 'ply/count' },
  tex: { kind: 'weighed', tex: 1 },
  dtex: { kind: 'weighed', tex: 1 / 10 },
  denier: { kind: 'weighed', tex: 1 / 9 },
  ydPerLb: { kind: 'label', metresPerGram: METRES_PER_GRAM_OF_YD_PER_LB },
  mPer100g: { kind: 'label', metresPerGram: 1 / 100 },
  mPerKg: { kind: 'label', metresPerGram: 1 / 1000 },
};

/** From half a silk filament to a rope of rags; beyond lies a slip of the finger. */
const FINEST: Tex = 0.1;
const THICKEST: Tex = 1e6;
const MOST_PLIES = 99;

/**
 * Linear density of the finished yarn, by ASTM D2260: 8/2 cotton → 147.6 tex. Plies that a count
 * of singles states are folded in (without twist contraction); a label figure takes none.
 */
export function texOf(count: YarnCount): Tex {
  const { system, number, plies } = count;
  if (!(number > 0) || !(plies >= 1)) {
    throw new RangeError(`got count ${number} in ${plies} plies, wanted above 0 in 1 or more`);
  }
  const rule = RULES[system];
  switch (rule.kind) {
    case 'spun':
      return (1000 * plies) / (number * rule.metresPerGram);
    case 'weighed':
      return number * plies * rule.tex;
    case 'label':
      return 1000 / (number * rule.metresPerGram);
  }
}

/** The number that names a yarn of this density, unplied, in a system: 30 tex → cotton 19.7. */
export function countIn(system: CountSystem, tex: Tex): number {
  const rule = RULES[system];
  return rule.kind === 'weighed' ? tex / rule.tex : 1000 / (tex * rule.metresPerGram);
}

/** The count of unlike singles twisted together, all in one spun system: 1/N = Σ 1/a (Taylor 1909). */
export function foldedCount(singles: readonly number[]): number {
  if (singles.length === 0) throw new RangeError('got no singles, wanted one or more');
  return 1 / singles.reduce((sum, single) => sum + 1 / single, 0);
}

/**
 * Reads a count in a given system: `8/2`, `2/16`, `3360`, `30×2`. `16/2` and `2/16` are read alike,
 * because both orders are written (see `readPlied`). Plies on a label figure are no count.
 */
export function parseYarnCount(text: string, system: CountSystem): Result<YarnCount, CountProblem> {
  const plain = text.trim().toLowerCase();
  if (plain === '') return fail('empty');
  if (/^[-\u2212\u2013]/.test(plain)) return fail('negative');
  const read = readPlied(plain, notationOf(system));
  if (!read.ok) return fail(read.problem === 'nonsense' ? 'not-a-count' : read.problem);
  const { number, plies } = read.value;
  if (!Number.isInteger(plies) || plies < 1 || number === 0) return fail('not-a-count');
  if (plies > MOST_PLIES) return fail('too-many-plies');
  const count: YarnCount = { system, number, plies };
  if (texOf(count) < FINEST) return fail('too-fine');
  return texOf(count) > THICKEST ? fail('too-thick') : ok(count);
}

/**
 * Writes a count the way its system does, so that `parseYarnCount` reads it back: `8/2` cotton,
 * `2/8` metric, `30×2` tex. Label figures are written without plies.
 */
export function formatYarnCount(count: YarnCount): string {
  return writePlied(count, notationOf(count.system));
}

/** Yards in a pound of yarn: 147.6 tex → 3360. */
export function ydPerLb(tex: Tex): number {
  return countIn('ydPerLb', tex);
}

/** Metres in a kilogram of yarn: 125 tex → 8000. */
export function mPerKg(tex: Tex): number {
  return countIn('mPerKg', tex);
}

/** Metres in 100 g of yarn: 125 tex → 800. */
export function mPer100g(tex: Tex): number {
  return countIn('mPer100g', tex);
}

/** Length of a mass of yarn, in mm: 100 g at 125 tex → 800 000. */
export function lengthOf(grams: Grams, tex: Tex): Mm {
  return (grams / tex) * 1e6;
}

/** Mass of a length of yarn, in grams: 8 m at 125 tex → 1. */
export function massOf(mm: Mm, tex: Tex): Grams {
  return (mm * tex) / 1e6;
}

function hanksPerPound(yards: number): Rule {
  return {
    kind: 'spun',
    metresPerGram: yards * METRES_PER_GRAM_OF_YD_PER_LB,
    writes: 'count/ply',
  };
}

function notationOf(system: CountSystem): CountNotation {
  const rule = RULES[system];
  if (rule.kind === 'spun') return rule.writes;
  return rule.kind === 'weighed' ? 'count×ply' : 'plain';
}
