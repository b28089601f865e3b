/** Where a place lies among the marks of its piece, and what was woven between them. */
import { type Gaussian, predicted } from './kalman.ts';
import { type BeatMark, growth, type Place, type Ruler, type Stretch } from './marks.ts';
import { growingNoise, less, total, wandering } from './quantities.ts';

export interface Reach {
  /** The last mark at or before the place. */
  readonly index: number;
  /** Woven from there to the place. */
  readonly since: Stretch;
  /** Woven from the place to the mark after it; null when the place is past the last mark. */
  readonly rest: Stretch | null;
}

/** The place must be in the piece of the last mark. */
export function reachOf(marks: readonly BeatMark[], ruler: Ruler, place: Place): Reach {
  const pick = Math.max(0, place.pick - place.firstPick);
  const index = marks.findLastIndex((it) => it.piece < place.piece || it.pick <= pick);
  const from = marks[index]?.pick ?? 0;
  const next = marks[index + 1];
  if (next?.since.kind === 'told') {
    const share = (pick - from) / (next.pick - from);
    return { index, since: part(next.since, share), rest: part(next.since, 1 - share) };
  }
  const planned = ruler(place.firstPick + from, place.firstPick + pick);
  const since: Stretch = { kind: 'counted', planned };
  if (next === undefined) return { index, since, rest: null };
  return { index, since, rest: { kind: 'counted', planned: less(next.since.planned, planned) } };
}

function part(told: Stretch & { readonly kind: 'told' }, share: number): Stretch {
  return { ...told, mm: told.mm * share, variance: told.variance * share };
}

/** How a belief changes over a stretch; `drift` as variance per mm. */
export function growingBy(
  n: number,
  stretch: Stretch,
): (state: Gaussian, drift: number) => Gaussian {
  const move = growth(n, stretch);
  const noise = (drift: number) =>
    stretch.kind === 'told'
      ? growingNoise(stretch.mm, drift, stretch.variance)
      : wandering(total(stretch.planned), drift);
  return (state, drift) => predicted(state, move, noise(drift));
}
