/** Stripes as the eye meets them, and whether a piece is the same seen from its other end. */
import type { Mm } from '../../measure/length.ts';
import type { Sameness } from './ending.ts';

/**
 * Stripes in weaving order, neighbours of one kind merged. What tells stripes apart is a number:
 * the yarn, or the colour. The lists grow in place: thousands of stops are read off one of them.
 */
export interface SeenRuns {
  readonly of: number[];
  readonly picks: number[];
  /** Loom length of each. */
  readonly mm: number[];
}

/** No stripe yet; `see` adds the turns. */
export function noneSeen(): SeenRuns {
  return { of: [], picks: [], mm: [] };
}

/** One turn more at the end; merges into the last stripe where that is of the same kind. */
export function see(seen: SeenRuns, of: number, picks: number, mm: Mm): void {
  if (picks === 0) return;
  const last = seen.of.length - 1;
  if (seen.of[last] === of) {
    seen.picks[last] = (seen.picks[last] ?? 0) + picks;
    seen.mm[last] = (seen.mm[last] ?? 0) + mm;
    return;
  }
  seen.of.push(of);
  seen.picks.push(picks);
  seen.mm.push(mm);
}

/** Takes back the last `see`. */
export function unsee(seen: SeenRuns, picks: number, mm: Mm): void {
  if (picks === 0) return;
  const last = seen.of.length - 1;
  if (seen.picks[last] === picks) {
    seen.of.pop();
    seen.picks.pop();
    seen.mm.pop();
    return;
  }
  seen.picks[last] = (seen.picks[last] ?? 0) - picks;
  seen.mm[last] = (seen.mm[last] ?? 0) - mm;
}

/** The stripes of turns in a row. */
export function seenRuns(
  turns: readonly { readonly of: number; readonly picks: number; readonly mm: Mm }[],
): SeenRuns {
  const seen = noneSeen();
  for (const { of, picks, mm } of turns) see(seen, of, picks, mm);
  return seen;
}

/** The same stripes in lists of their own, since lists grow in place. */
export function copyOf({ of, picks, mm }: SeenRuns): SeenRuns {
  return { of: [...of], picks: [...picks], mm: [...mm] };
}

/**
 * How far two stripes may differ in length and still be the same to the eye (ours). Side by side the
 * eye tells lengths that differ by 2 to 3 % (from memory); the stripes that face each other in a
 * piece lie at its two ends, so twice that. The millimetre is for narrow stripes: less than the fell
 * wavers across the width.
 */
export const EYE_SHARE = 0.05;
export const EYE_LEAST: Mm = 1;

/**
 * Whether the stripes are the same from both ends: in yarns and picks, else in colours and, within
 * what the eye tells apart, lengths. `yarns` tells stripes apart by yarn index, `colours` by colour.
 */
export function samenessOf(yarns: SeenRuns, colours: SeenRuns): Sameness {
  if (mirrors(yarns.of) && mirrors(yarns.picks)) return 'exact';
  return mirrors(colours.of) && looksMirrored(colours.mm) ? 'toTheEye' : 'no';
}

function mirrors(list: readonly number[]): boolean {
  for (let i = 0, j = list.length - 1; i < j; i++, j--) {
    if (list[i] !== list[j]) return false;
  }
  return true;
}

function looksMirrored(mm: readonly Mm[]): boolean {
  for (let i = 0, j = mm.length - 1; i < j; i++, j--) {
    const [one, other] = [mm[i] ?? 0, mm[j] ?? 0];
    const most = Math.max(EYE_LEAST, EYE_SHARE * Math.max(one, other));
    if (Math.abs(one - other) > most + 1e-9) return false;
  }
  return true;
}
