import type { Result } from './result.ts';
import { fail, ok } from './result.ts';

/** Why a typed quantity was refused; `nonsense` is renamed by whoever knows what was wanted. */
export type TextProblem = 'empty' | 'nonsense' | 'negative' | 'ambiguous-comma';

interface Term {
  readonly amount: number;
  /** As written, without a full stop; '' for a bare number. */
  readonly unit: string;
}

/** Longer than any quantity a person types; keeps a pasted page away from the pattern below. */
const LONGEST_TEXT = 64;

const TERM =
  /(?:(?:(?<whole>\d+)(?:\s+|-))?(?<over>\d+)\s*\/\s*(?<under>\d+)|(?<decimal>\d+(?:[.,]\d+)?|[.,]\d+))\s*(?:(?<unit>[a-z]+|['"])\.?)?(?:,(?=\s))?\s*/gy;

/**
 * Reads a sum such as `1 yd 4 in` with the size of each unit; a bare number is in `bareUnit`.
 * Units must fall (`2 in 3 in` is a slip, not a sum) and a bare number must stand alone.
 */
export function parseSum(
  text: string,
  unitSizes: ReadonlyMap<string, number>,
  bareUnit: number,
): Result<number, TextProblem> {
  const plain = plainText(text);
  if (plain === '') return fail('empty');
  const isNegative = plain.startsWith('-');
  const terms = readTerms(isNegative ? plain.slice(1).trimStart() : plain);
  if (!terms.ok) return terms;
  const total = addTerms(terms.value, unitSizes, bareUnit);
  if (total === undefined || Number.isNaN(total)) return fail('nonsense');
  return isNegative ? fail('negative') : ok(total);
}

/**
 * Reads one decimal number with a point or a comma. `1,500` is refused: it is one and a half to
 * some and fifteen hundred to others, and a wrong guess would be a thousandfold error.
 */
export function parseDecimal(text: string): Result<number, TextProblem> {
  if (/^[1-9]\d{0,2},\d{3}(?!\d)/.test(text)) return fail('ambiguous-comma');
  if (!/^(?:\d+(?:[.,]\d+)?|[.,]\d+)$/.test(text)) return fail('nonsense');
  return ok(Number(text.replace(',', '.')));
}

/** Lower case, with the many printed forms of fractions, minus signs and primes made plain. */
export function plainText(text: string): string {
  return text
    .toLowerCase()
    .replace(/[\u00bc-\u00be\u2150-\u215e\u2189]/g, (glyph) => ` ${glyph.normalize('NFKC')}`)
    .replace(/[\u2044\u2215]/g, '/')
    .replace(/[\u2212\u2013]/g, '-')
    .replace(/[\u2032\u2018\u2019]/g, "'")
    .replace(/[\u2033\u201c\u201d]|''/g, '"')
    .trim();
}

function readTerms(text: string): Result<readonly Term[], TextProblem> {
  const terms: Term[] = [];
  let consumed = 0;
  for (const match of text.length > LONGEST_TEXT ? [] : text.matchAll(TERM)) {
    const amount = readAmount(match.groups ?? {});
    if (!amount.ok) return amount;
    terms.push({ amount: amount.value, unit: match.groups?.unit ?? '' });
    consumed += match[0].length;
  }
  return consumed === text.length && terms.length > 0 ? ok(terms) : fail('nonsense');
}

function readAmount(groups: Readonly<Record<string, string | undefined>>) {
  const { whole = '0', over, under, decimal } = groups;
  if (decimal !== undefined) return parseDecimal(decimal);
  // Nothing over nought is no number; parseSum refuses it with the rest of the nonsense.
  return ok(Number(under) === 0 ? Number.NaN : Number(whole) + Number(over) / Number(under));
}

function addTerms(
  terms: readonly Term[],
  unitSizes: ReadonlyMap<string, number>,
  bareUnit: number,
): number | undefined {
  let total = 0;
  let last = Number.POSITIVE_INFINITY;
  for (const { amount, unit } of terms) {
    const size = unit === '' && terms.length === 1 ? bareUnit : unitSizes.get(unit);
    if (size === undefined || size >= last) return undefined;
    total += amount * size;
    last = size;
  }
  return total;
}
