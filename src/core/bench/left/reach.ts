/** Whether something lasts to the end of the plan, and if not, from which pick on it may fail. */
import { mostThatFits } from '../search.ts';
import type { BelievedLength, Reach } from './left.ts';

/** Sums of exact lengths stray by less than this; it must not make a warp too short. */
const TOLERANCE = 1e-6;

/**
 * `spare(to)` is what is left over once all picks before `to` are woven; it only ever shrinks. The
 * picks in question run from `pick`, the next one, to before `picks`.
 */
export function reachOf(
  { pick, picks }: { readonly pick: number; readonly picks: number },
  spare: (to: number) => BelievedLength,
): Reach {
  const toCome = Math.max(0, picks - pick);
  const end = spare(picks);
  if (toCome === 0 || covers(end.low)) return { kind: 'yes' };
  const failsAfter = (bound: (left: BelievedLength) => number) =>
    mostThatFits(toCome, (k) => covers(bound(spare(pick + k))));
  const sure = failsAfter((left) => left.low);
  return {
    kind: covers(end.high) ? 'maybe' : 'no',
    earliest: pick + sure,
    picks: sure,
    likely: covers(end.mm) ? null : pick + failsAfter((left) => left.mm),
  };
}

/** Whether so much left over (mm) will do: nought does, and the hair less that a sum may stray. */
export function covers(spare: number): boolean {
  return spare >= -TOLERANCE;
}
