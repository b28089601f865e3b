import { type Beat, inPiece } from './beat.ts';
import { type Branch, driftOf, jumpOver, likely } from './branches.ts';
import { beforeMark, earlier } from './hindsight.ts';
import { at, dot, times } from './kalman.ts';
import { growth, type Place, type Ruler, type Stretch } from './marks.ts';
import { type Believed, believed, type Guess } from './quantiles.ts';
import { factorWeights, LENGTH, quantitiesOf, total } from './quantities.ts';
import { grown, reachOf } from './reach.ts';

/**
 * Loom length from the start of the place's piece to before its pick, with its 90 % interval: woven
 * (with what later readings of the piece say), at the fell, or to come.
 */
export function lengthAt(now: Beat, ruler: Ruler, place: Place): Believed {
  const beat = inPiece(now, place.piece);
  const { index, since, rest } = reachOf(beat.marks, ruler, place);
  if (rest === null) return believed(beat.branches.flatMap((it) => ahead(it, since)));
  const steps = beat.marks.length - 2 - index;
  return believed(likely(beat.branches).flatMap((it) => behind(it, steps, since, rest)));
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
  if (!later?.branch.before) return [];
  const n = last.state.mean.length;
  const { before } = later.branch;
  const { mean, cov } = grown(before.state, since, driftOf(before));
  const { pull, hold } = beforeMark(later, rest);
  const row = cov.slice(LENGTH * n, LENGTH * n + n);
  const variance = at(row, LENGTH) - dot(row, times(hold, row));
  const guess = { mean: at(mean, LENGTH) - dot(row, pull), sd: Math.sqrt(Math.max(0, variance)) };
  return [{ ...guess, weight: Math.exp(last.weight) }];
}

/** Real / planned spacing of a yarn as it is now, with its 90 % interval. */
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
  return { factor: mm, low, high };
}
