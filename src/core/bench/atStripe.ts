/** What is asked of stripes once they are laid: the side of a pick, and where a yarn works before and after. */
import type { Side } from '../plan/plan.ts';
import { lastAtOrBefore } from './search.ts';
import { type Stripes, sideOf } from './stripes.ts';

/** The last stripe of a yarn up to this one; −1 where there is none. */
export function lastOfYarn({ ofYarn }: Stripes, yarn: number, stripe: number): number {
  const list = ofYarn[yarn] ?? NOWHERE;
  return list[lastAtOrBefore(list, list.length, stripe)] ?? -1;
}

/** The first stripe of a yarn after this one, in whatever piece; −1 where there is none. */
export function firstOfYarnAfter({ ofYarn }: Stripes, yarn: number, stripe: number): number {
  const list = ofYarn[yarn] ?? NOWHERE;
  return list[lastAtOrBefore(list, list.length, stripe) + 1] ?? -1;
}

const NOWHERE = new Int32Array(0);

/** The side the shuttle of a pick of a stripe is thrown from. */
export function fromSideOf(stripes: Stripes, stripe: number, pick: number): Side {
  let thrown = pick - (stripes.firstPick[stripe] ?? 0);
  for (const it of stripes.midFlips) if (it.stripe === stripe && it.pick <= pick) thrown++;
  return sideOf((stripes.fromSide[stripe] ?? 0) ^ (thrown & 1));
}
