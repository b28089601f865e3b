/** The loom length of each piece as the bench believes it once it is woven. */
import { isMeasured } from '../bench/asking.ts';
import type { Progress } from '../bench/progress.ts';
import { accountsOf } from '../bench/standing.ts';
import type { Size } from './sizes.ts';

/**
 * One a piece; null where the fell was never measured on this warp, for the planned beat is no
 * reading. How sure the others are is for whoever learns from them (`sureEnough`).
 */
export function loomLengthsOf(progress: Progress): readonly (Size | null)[] {
  const isKnown = isMeasured(progress);
  return accountsOf(progress).woven.map(({ mm, sd }) => (isKnown && mm > 0 ? { mm, sd } : null));
}
