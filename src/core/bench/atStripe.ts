/** What is asked of stripes once they are laid: the side of a pick. */
import type { Side } from '../plan/plan.ts';
import { type Stripes, sideOf } from './stripes.ts';

/** The side the shuttle of a pick of a stripe is thrown from. */
export function fromSideOf(stripes: Stripes, stripe: number, pick: number): Side {
  let thrown = pick - (stripes.firstPick[stripe] ?? 0);
  for (const it of stripes.midFlips) if (it.stripe === stripe && it.pick <= pick) thrown++;
  return sideOf((stripes.fromSide[stripe] ?? 0) ^ (thrown & 1));
}
