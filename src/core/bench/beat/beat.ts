/**
 * The beat, estimated: how long the piece is at every pick, woven and to come, and how well that is
 * known. Pick spacing = planned spacing × one common factor, with a slow correction per yarn.
 *
 * A `Beat` is a value: every reading makes a new one. What cannot be (an unknown pin, no number)
 * changes nothing. Lengths are loom millimetres from the start of the piece.
 */
import type { Mm } from '../../measure/length.ts';
import {
  type Branch,
  believing,
  type Child,
  childrenOf,
  driftOf,
  everyWay,
  pruned,
  type Taking,
  WAYS,
} from './branches.ts';
import { beforeMark, earlier, withHindsight } from './hindsight.ts';
import { type Gaussian, predicted } from './kalman.ts';
import type { BeatMark, Place, Reading, Ruler, Stretch } from './marks.ts';
import {
  atStart,
  type BeatPrior,
  beatLoosened,
  nextPiece,
  PINS,
  pinning,
  pinningNoise,
  quantitiesOf,
  sightOf,
  slotOf,
} from './quantities.ts';
import { grown, reachOf } from './reach.ts';
import { NO_READINGS, type Rounding, rounded, roundingNoise } from './rounding.ts';

export interface Beat {
  readonly yarns: number;
  readonly prior: BeatPrior;
  readonly marks: readonly BeatMark[];
  readonly branches: readonly Branch[];
  readonly rounding: Rounding;
}

/** What a plan alone says: its own spacing, give or take 6 % (sd). */
export const PLANNED: BeatPrior = { factor: 1, spread: 0.06 };

const NO_PINS: readonly (string | null)[] = Array.from({ length: PINS }, () => null);
/** So many of the pieces after the first are begun as if nothing were known: another day, another beat. */
const AFRESH = 0.2;

/** Nothing woven yet; the plan has this many yarns. */
export function startBeat(yarns: number, prior: BeatPrior): Beat {
  const state = atStart(yarns, prior);
  const branches = WAYS.map(
    ({ weight }, way): Branch => ({
      before: null,
      mark: null,
      way,
      recent: 0,
      weight: Math.log(weight),
      state,
      news: { kind: 'none' },
    }),
  );
  return { yarns, prior, marks: [], branches, rounding: NO_READINGS };
}

/** A pin goes into the cloth at the fell. The last three can be measured from. */
export function pinned(beat: Beat, ruler: Ruler, place: Place, pin: string): Beat {
  const here = arrived(beat, ruler, place);
  const slot = here.marks.reduce((n, { what }) => n + (what.kind === 'pinned' ? 1 : 0), 0) % PINS;
  const pins = pinsOf(here).map((it, i) => (i === slot ? pin : it === pin ? null : it));
  const since = reachOf(here.marks, ruler, place).since;
  const mark = markAt(place, { kind: 'pinned', slot }, since, pins);
  const n = quantitiesOf(beat.yarns);
  return extended(here, mark, (state, drift) =>
    predicted(grown(state, since, drift), pinning(n, slot), pinningNoise(n, slot)),
  );
}

/** The fell is measured. An unknown pin, or no number, changes nothing. */
export function measured(beat: Beat, ruler: Ruler, place: Place, reading: Reading): Beat {
  const rounding = rounded(beat.rounding, reading.mm);
  const here = { ...arrived(beat, ruler, place), rounding };
  const children = taken(here, ruler, place, reading);
  if (children.length === 0) return beat;
  const { since } = reachOf(here.marks, ruler, place);
  const mark = markAt(place, { kind: 'measured', ...reading }, since, pinsOf(here));
  return { ...here, marks: [...here.marks, mark], branches: believing(children, mark) };
}

/** A length was woven whose picks from `fromPick` to the place are estimated: cloth grows, the beat learns nothing. */
export function woveByLength(
  beat: Beat,
  ruler: Ruler,
  place: Place,
  fromPick: number,
  length: Mm,
): Beat {
  const before = { ...place, pick: fromPick };
  const counted = arrived(beat, ruler, before);
  const { since } = reachOf(counted.marks, ruler, before);
  const from = extended(
    counted,
    markAt(before, { kind: 'told' }, since, pinsOf(counted)),
    (state, drift) => grown(state, since, drift),
  );
  // As good as the two readings it stands for, and worse the longer it is.
  const variance = 2 * (2 + roundingNoise(beat.rounding)) + (0.02 * length) ** 2;
  const told: Stretch = { kind: 'told', mm: length, variance };
  return extended(from, markAt(place, { kind: 'told' }, told, pinsOf(from)), (state, drift) =>
    grown(state, told, drift),
  );
}

/** Picks were taken out: what is known of the cloth left stays, later marks and pins go with their cloth. */
export function takenBackTo(beat: Beat, ruler: Ruler, place: Place): Beat {
  const { index, since, rest } = reachOf(beat.marks, ruler, place);
  if (rest === null) return beat;
  const last = beat.marks[index];
  const next = beat.marks[index + 1];
  // Of a piece without any mark nothing is known: what is left ends at the mark before.
  const isKnown = last?.piece === place.piece || next === undefined;
  const kept = isKnown ? since : nothing(beat);
  const left = isKnown ? rest : (next.since ?? rest);
  const mark: BeatMark = {
    what: { kind: 'takenBack' },
    piece: isKnown ? place.piece : (last?.piece ?? place.piece),
    pick: isKnown ? place.pick - place.firstPick : (last?.pick ?? 0),
    since: kept,
    pins: last?.pins ?? NO_PINS,
  };
  const steps = beat.marks.length - 2 - index;
  const branches = beat.branches.flatMap((it) => backTo(it, steps, mark, left));
  const marks = [...beat.marks.slice(0, index + 1), mark];
  return { ...beat, marks, branches };
}

function backTo(last: Branch, steps: number, mark: BeatMark, rest: Stretch): readonly Branch[] {
  const later = earlier(last, steps);
  const before = later?.branch.before;
  if (!later || !before) return [];
  const state = grown(before.state, mark.since, driftOf(before));
  const hindsight = beforeMark(later, rest);
  const news = { kind: 'kept', cov: state.cov, hindsight } as const;
  return [{ ...last, before, mark, state: withHindsight(state, hindsight), news }];
}

/** Every way to take a reading here; none when it starts from a pin not there or is no number. */
export function taken(beat: Beat, ruler: Ruler, place: Place, reading: Reading): readonly Child[] {
  const slot = slotOf(pinsOf(beat), reading.from);
  if (slot === undefined || !Number.isFinite(reading.mm)) return [];
  const { since } = reachOf(beat.marks, ruler, place);
  const taking: Taking = {
    advance: (state, drift) => grown(state, since, drift),
    sight: (state) => sightOf(state, slot, reading.tension),
    reading: reading.mm,
    rounding: roundingNoise(beat.rounding),
  };
  return beat.branches.flatMap((branch) => childrenOf(branch, taking));
}

/** The estimator where the weaver is: a new piece begins by itself, going back takes picks out. */
export function arrived(beat: Beat, ruler: Ruler, place: Place): Beat {
  const last = beat.marks[beat.marks.length - 1];
  if (last === undefined || place.piece > last.piece) return begun(beat, place.piece);
  return takenBackTo(beat, ruler, place);
}

/** A new piece: no cloth, no pins; the beat carries on, or starts afresh. The first one is as the prior says. */
export function begun(beat: Beat, piece: number): Beat {
  const since = nothing(beat);
  const mark: BeatMark = { what: { kind: 'begun' }, piece, pick: 0, since, pins: NO_PINS };
  if (beat.marks.length === 0) return extended(beat, mark, (state) => state);
  const carried = extended({ ...beat, branches: everyWay(beat.branches) }, mark, nextPiece);
  const both = carried.branches.flatMap((branch) => [
    { ...branch, weight: branch.weight + Math.log(1 - AFRESH) },
    afresh(branch, beat.prior.spread),
  ]);
  return { ...carried, branches: pruned(both) };
}

/** One mark more that splits no branch. */
function extended(
  beat: Beat,
  mark: BeatMark,
  advance: (state: Gaussian, drift: number) => Gaussian,
): Beat {
  const branches = beat.branches.map((before): Branch => {
    const drift = driftOf(before);
    const state = advance(before.state, drift);
    return { ...before, before, mark, state, news: { kind: 'none' } };
  });
  return { ...beat, marks: [...beat.marks, mark], branches };
}

function afresh(branch: Branch, spread: number): Branch {
  return {
    ...branch,
    recent: branch.recent ^ 1,
    weight: branch.weight + Math.log(AFRESH),
    state: beatLoosened(branch.state, spread),
  };
}

function markAt(
  place: Place,
  what: BeatMark['what'],
  since: Stretch,
  pins: BeatMark['pins'],
): BeatMark {
  return { what, piece: place.piece, pick: place.pick - place.firstPick, since, pins };
}

function pinsOf({ marks }: Beat): BeatMark['pins'] {
  return marks[marks.length - 1]?.pins ?? NO_PINS;
}

function nothing({ yarns }: Beat): Stretch {
  return { kind: 'counted', planned: Array.from({ length: yarns }, () => 0) };
}
