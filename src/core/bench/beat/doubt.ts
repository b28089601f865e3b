import { arrived, type Beat, takings } from './beat.ts';
import { FITS } from './branches.ts';
import { lengthAt } from './lengths.ts';
import type { Place, Reading, Ruler } from './marks.ts';
import { type Believed, believed } from './quantiles.ts';
import { reachOf } from './reach.ts';

export interface Doubt {
  /** What the ruler should show, with its 90 % interval. */
  readonly expected: Believed;
  /** `absurd` when a slip of ruler or count is more likely than not: asked, never refused. */
  readonly doubtful: 'no' | 'absurd';
}

/** Whether a reading not yet taken should be questioned. */
export function doubtOf(beat: Beat, ruler: Ruler, place: Place, reading: Reading): Doubt {
  const here = arrived(beat, ruler, place);
  const children = takings(here, reachOf(here.marks, ruler, place).since, reading);
  if (children.length === 0) return { expected: lengthAt(beat, ruler, place), doubtful: 'absurd' };
  const top = Math.max(...children.map(({ weight }) => weight));
  let [fitting, all] = [0, 0];
  for (const { weight, verdict } of children) {
    const share = Math.exp(weight - top);
    all += share;
    if (verdict === FITS) fitting += share;
  }
  const guesses = children
    .filter(({ verdict }) => verdict === FITS)
    .map(({ before, exact, error }) => ({
      weight: Math.exp(before.weight),
      mean: reading.mm - exact.gap,
      sd: Math.sqrt(exact.variance + error),
    }));
  const isAbsurd = fitting < all / 2 || reading.mm < 0;
  return { expected: believed(guesses), doubtful: isAbsurd ? 'absurd' : 'no' };
}
