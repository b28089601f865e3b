import type { Beat } from './beat.ts';
import { type Branch, driftOf, jumpOver, likely } from './branches.ts';
import { beforeMark, earlier } from './hindsight.ts';
import { at, dot, type Gaussian, type Hindsight, times } from './kalman.ts';
import { growth, type Place, type Ruler, type Stretch } from './marks.ts';
import { inPiece } from './pieces.ts';
import { type Believed, believed, type Guess } from './quantiles.ts';
import { factorWeights, LENGTH, quantitiesOf, total } from './quantities.ts';
import { growingBy, reachOf } from './reach.ts';

/**
 * Loom length from the start of the place's piece to before its pick, with its 90 % interval: woven
 * (with what later readings of the piece say), at the fell, or to come.
 */
export function lengthAt(now: Beat, ruler: Ruler, place: Place): Believed {
  const beat = inPiece(now, place.piece);
  const { index, since, rest } = reachOf(beat.marks, ruler, place);
  const asked = likely(beat.branches);
  if (rest === null) return believed(asked.flatMap((it) => ahead(it, since)));
  const steps = beat.marks.length - 2 - index;
  return believed(asked.flatMap((it) => behind(it, steps, since, rest)));
}

/** A length to come, without and with a jump in beat on the way. */
function ahead(branch: Branch, since: Stretch): readonly Guess[] {
  const { state, weight } = branch;
  const drift = driftOf(branch);
  const { weights, add } = growth(state.mean.length, since);
  const mean = add + dot(weights, state.mean);
  const variance = dot(weights, times(state.cov, weights));
  const mm = since.kind === 'told' ? 0 : total(since.planned);
  const jump = jumpOver(mm);
  const share = Math.exp(weight);
  const sd = (wander: number) => Math.sqrt(Math.max(0, variance + (wander * mm ** 3) / 3));
  return [
    { weight: share * (1 - jump.chance), mean, sd: sd(drift) },
    { weight: share * jump.chance, mean, sd: sd(drift + jump.drift) },
  ];
}

/** A length woven, with what later readings say. */
function behind(last: Branch, steps: number, since: Stretch, rest: Stretch): readonly Guess[] {
  const later = earlier(last, steps);
  const before = later?.branch.before;
  if (!later || !before) return [];
  const grown = growingBy(last.state.mean.length, since);
  return [guessOf(last, grown(before.state, driftOf(before)), beforeMark(later, rest))];
}

/** Loom length at the mark `steps` ago, with what later readings say. */
export function lengthAfter(branches: readonly Branch[], steps: number): Believed {
  const guesses = likely(branches).flatMap((last) => {
    const later = earlier(last, steps - 1);
    const { before, mark } = later?.branch ?? {};
    if (!later || !before || !mark) return [];
    return [guessOf(last, before.state, beforeMark(later, mark.since))];
  });
  return believed(guesses);
}

function guessOf({ weight }: Branch, { mean, cov }: Gaussian, { pull, hold }: Hindsight): Guess {
  const row = cov.slice(LENGTH * mean.length, (LENGTH + 1) * mean.length);
  const variance = at(row, LENGTH) - dot(row, times(hold, row));
  const length = at(mean, LENGTH) - dot(row, pull);
  return { weight: Math.exp(weight), mean: length, sd: Math.sqrt(Math.max(0, variance)) };
}

const LEAST = 0.1;

/** Real / planned spacing of a yarn as it is now, with its 90 % interval; a pick takes room, whatever was read. */
export function factorOf(
  beat: Beat,
  yarn: number,
): { readonly factor: number; readonly low: number; readonly high: number } {
  const weights = factorWeights(quantitiesOf(beat.yarns), yarn);
  const { mm, low, high } = believed(
    beat.branches.map(({ weight, state }) => ({
      weight: Math.exp(weight),
      mean: dot(weights, state.mean),
      sd: Math.sqrt(Math.max(0, dot(weights, times(state.cov, weights)))),
    })),
  );
  const room = (factor: number) => Math.max(LEAST, factor);
  return { factor: room(mm), low: room(low), high: room(high) };
}
