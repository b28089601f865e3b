import type { TextProblem } from './quantityText.ts';
import { parseDecimal } from './quantityText.ts';
import type { Result } from './result.ts';
import { fail, ok } from './result.ts';

/** How a system writes a count of singles and the plies twisted from them. */
export type CountNotation = 'count/ply' | 'ply/count' | 'count×ply' | 'plain';

/** A count of singles and how many of them are twisted together. */
export interface Plied {
  readonly number: number;
  readonly plies: number;
}

/** Up to this many, a small number before a larger one is read as plies in any system. */
const USUAL_PLIES = 4;

/**
 * Reads `8/2`, `2/16`, `30×2` or a plain number. Both orders of a slash are written in every trade,
 * so the plies are the smaller number, save that a count above four may lead more plies where the
 * count comes first (12/15, a seine twine). `×` always has the count first.
 */
export function readPlied(text: string, notation: CountNotation): Result<Plied, TextProblem> {
  const [before = '', after, ...rest] = text.split(/\s*[/x×]\s*/);
  const first = parseDecimal(before);
  if (!first.ok) return first;
  if (after === undefined) return ok({ number: first.value, plies: 1 });
  const second = parseDecimal(after);
  if (!second.ok) return second;
  if (rest.length > 0 || notation === 'plain') return fail('nonsense');
  if (!text.includes('/')) return ok({ number: first.value, plies: second.value });
  return notation === 'count×ply'
    ? fail('nonsense')
    : ok(inOrder(first.value, second.value, notation));
}

/** Writes a plied count so that `readPlied` reads it back; `plain` leaves the plies unsaid. */
export function writePlied({ number, plies }: Plied, notation: CountNotation): string {
  if (plies === 1 || notation === 'plain') return `${number}`;
  if (notation === 'count×ply') return `${number}×${plies}`;
  const [first, second] = notation === 'ply/count' ? [plies, number] : [number, plies];
  const back = inOrder(first, second, notation);
  return back.number === number && back.plies === plies
    ? `${first}/${second}`
    : `${number}×${plies}`;
}

function inOrder(first: number, second: number, notation: 'count/ply' | 'ply/count'): Plied {
  const countFirst = { number: first, plies: second };
  const pliesFirst = { number: second, plies: first };
  if (!Number.isInteger(second)) return pliesFirst;
  if (!Number.isInteger(first) || first >= second) return countFirst;
  return notation === 'ply/count' || first <= USUAL_PLIES ? pliesFirst : countFirst;
}
