/**
 * A jump in beat, found by looking back: how much better the later readings would be explained if the
 * beat had changed at once at some mark.
 *
 * Source: P. de Jong & J. Penzer, Diagnosing Shocks in Time Series, J. Am. Stat. Assoc. 93, 1998: the
 * best size of a shock is −pull/hold, and pull²/hold is chi-squared with one degree without one.
 */
import type { Beat } from './beat.ts';
import { type Branch, driftOf } from './branches.ts';
import { beforeMark, latest, oneBack } from './hindsight.ts';
import { at } from './kalman.ts';
import { FACTOR } from './quantities.ts';

export interface Jump {
  /** Index of the first mark after it. */
  readonly mark: number;
  /** Spacing after / before. */
  readonly ratio: number;
}

/** The jump in beat that the last reading made clear: said once. Null where there is none, or it was clear before. */
export function jumpAt(beat: Beat): Jump | null {
  return beat.jump;
}

/** How many marks back a jump is looked for, and how clear and how large one must be to be said. */
const MARKS_BACK = 10;
const CLEAR = 7.5;
const LARGE = 0.025;

/** The clearest jump in the piece being woven, if one is clear; there are so many marks. */
export function clearestJump(branches: readonly Branch[], marks: number): Jump | null {
  const last = steadiest(branches);
  let later = last && isSurprising(last) ? latest(last) : null;
  let best: Jump | null = null;
  let most = CLEAR;
  for (let steps = 0; later && steps < MARKS_BACK; steps++, later = oneBack(later)) {
    const { before, mark } = later.branch;
    if (!before || !mark) return best;
    const { pull, hold } = beforeMark(later, mark.since);
    const [pulled, held] = [at(pull, FACTOR), at(hold, FACTOR * pull.length + FACTOR)];
    const ratio = 1 - pulled / held / at(before.state.mean, FACTOR);
    if (pulled ** 2 < most * held || Math.abs(ratio - 1) < LARGE) continue;
    most = pulled ** 2 / held;
    best = { mark: marks - 1 - steps, ratio };
  }
  return best;
}

/** To unsteady hands nothing is a jump; so the steadiest that are still likely are asked. */
function steadiest(branches: readonly Branch[]): Branch | undefined {
  return [...branches].sort((a, b) => driftOf(a) - driftOf(b) || b.weight - a.weight)[0];
}

/** A reading that came as expected makes no jump clear. */
const isSurprising = ({ news }: Branch): boolean =>
  news.kind === 'seen' && news.seen.gap ** 2 > news.seen.variance;
