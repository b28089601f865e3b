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
  NO_NEWS,
  pruned,
  type Taking,
  WAYS,
} from './branches.ts';
import { beforeMark, earlier, withHindsight } from './hindsight.ts';
import { clearestJump, type Jump } from './jump.ts';
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
  /** The jump in beat that the last reading made clear; null where there is none or it was clear before. */
  readonly jump: Jump | null;
  /** The last jump there was, to say it once. */
  readonly lastJump: Jump | null;
}

/** What a plan alone says: its own spacing, give or take 6 % (sd). */
export const PLANNED: BeatPrior = { factor: 1, spread: 0.06 };

const NO_JUMP = { jump: null, lastJump: null };
/** Jumps found this near each other, in marks, are one. */
const NEAR = 3;
const NO_PINS: readonly (string | null)[] = Array.from({ length: PINS }, () => null);
/** So many of the pieces after the first are begun as if nothing were known: another day, another beat. */
const AFRESH = 0.3;

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
      news: NO_NEWS,
    }),
  );
  return { yarns, prior, marks: [], branches, rounding: NO_READINGS, ...NO_JUMP };
}

/** A pin goes into the cloth at the fell. The last three can be measured from. */
export function pinned(beat: Beat, ruler: Ruler, place: Place, pin: string): Beat {
  const here = arrived(beat, ruler, place);
  const before = here.marks.filter(({ what }) => what.kind === 'pinned').length;
  const slot = before % PINS;
  const pins = pinsOf(here).map((it, i) => (i === slot ? pin : it === pin ? null : it));
  const { since } = reachOf(here.marks, ruler, place);
  const n = quantitiesOf(beat.yarns);
  const mark = markAt(place, { kind: 'pinned', slot }, since, pins);
  return extended(here, mark, (state, drift) =>
    predicted(grown(state, since, drift), pinning(n, slot), pinningNoise(n, slot)),
  );
}

/** The fell is measured. An unknown pin, or no number, changes nothing. */
export function measured(beat: Beat, ruler: Ruler, place: Place, reading: Reading): Beat {
  const here = { ...arrived(beat, ruler, place), rounding: rounded(beat.rounding, reading.mm) };
  const { since } = reachOf(here.marks, ruler, place);
  const children = takings(here, since, reading);
  if (children.length === 0) return beat;
  const mark = markAt(place, { kind: 'measured', ...reading }, since, pinsOf(here));
  const branches = believing(children, mark);
  return noticing({ ...here, marks: [...here.marks, mark], branches });
}

/** A jump is said when it becomes clear, and not again while more readings only make it clearer. */
function noticing(beat: Beat): Beat {
  const found = clearestJump(beat.branches, beat.marks.length);
  if (found === null) return { ...beat, jump: null };
  const isKnown = beat.lastJump !== null && Math.abs(found.mark - beat.lastJump.mark) <= NEAR;
  return { ...beat, jump: isKnown ? null : found, lastJump: found };
}

/** A length was woven whose picks from `fromPick` to the place are estimated: cloth grows, the beat learns nothing. */
export function woveByLength(
  beat: Beat,
  ruler: Ruler,
  place: Place,
  fromPick: number,
  length: Mm,
): Beat {
  // As good as the two readings it stands for, and worse the longer it is.
  const variance = 2 * (2 + roundingNoise(beat.rounding)) + (0.02 * length) ** 2;
  const from = { ...place, pick: fromPick };
  const before = arrived(beat, ruler, from);
  const counted = toldAt(before, from, reachOf(before.marks, ruler, from).since);
  return toldAt(counted, place, { kind: 'told', mm: length, variance });
}

function toldAt(beat: Beat, place: Place, since: Stretch): Beat {
  const mark = markAt(place, { kind: 'told' }, since, pinsOf(beat));
  return extended(beat, mark, (state, drift) => grown(state, since, drift));
}

/** Picks were taken out: what is known of the cloth left stays, later marks and pins go with their cloth. */
export function takenBackTo(beat: Beat, ruler: Ruler, place: Place): Beat {
  const here = leftAt(beat, place.piece);
  const last = here.marks[here.marks.length - 1];
  if (last?.piece !== place.piece) return here;
  const { index, since, rest } = reachOf(here.marks, ruler, place);
  if (rest === null) return here;
  const pins = here.marks[index]?.pins ?? NO_PINS;
  const mark = markAt(place, { kind: 'takenBack' }, since, pins);
  const steps = here.marks.length - 2 - index;
  const branches = here.branches.flatMap((it) => backTo(it, steps, mark, rest));
  return { ...here, marks: [...here.marks.slice(0, index + 1), mark], branches, ...NO_JUMP };
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

/** Every way to take a reading after this stretch; none when it starts from a pin not there or is no number. */
export function takings(beat: Beat, since: Stretch, reading: Reading): readonly Child[] {
  const slot = slotOf(pinsOf(beat), reading.from);
  if (slot === undefined || !Number.isFinite(reading.mm)) return [];
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
  return takenBackTo(inPiece(beat, place.piece), ruler, place);
}

/** The estimator as it was, is, or would be in a piece: left, being woven, or not yet begun. */
export function inPiece(beat: Beat, piece: number): Beat {
  const here = leftAt(beat, piece);
  return here.marks[here.marks.length - 1]?.piece === piece ? here : begun(here, piece);
}

/** The estimator as it was when the weaver went on from a piece. */
function leftAt(beat: Beat, piece: number): Beat {
  const next = beat.marks.findIndex((mark) => mark.piece > piece);
  const what = beat.marks[next]?.what;
  if (what?.kind !== 'begun') return beat;
  return { ...beat, marks: beat.marks.slice(0, next), branches: what.before };
}

/** A new piece: no cloth, no pins; the beat carries on, or starts afresh. The first one is as the prior says. */
function begun(beat: Beat, piece: number): Beat {
  const { marks, branches, prior } = beat;
  const what = { kind: 'begun', before: branches } as const;
  const mark: BeatMark = { what, piece, pick: 0, since: nothing(beat), pins: NO_PINS };
  const begin = (branch: Branch): Branch => ({ ...branch, before: null, mark, news: NO_NEWS });
  if (marks.length === 0) return { ...beat, marks: [mark], branches: branches.map(begin) };
  const both = everyWay(branches).flatMap((branch) => {
    const carried = { ...begin(branch), state: nextPiece(branch.state) };
    return [lighter(carried, 1 - AFRESH), afresh(carried, prior.spread)];
  });
  return { ...beat, marks: [...marks, mark], branches: pruned(both) };
}

function afresh(branch: Branch, spread: number): Branch {
  const state = beatLoosened(branch.state, spread);
  return { ...lighter(branch, AFRESH), recent: branch.recent ^ 1, state };
}

const lighter = (branch: Branch, share: number): Branch => ({
  ...branch,
  weight: branch.weight + Math.log(share),
});

/** One mark more that splits no branch. */
function extended(
  beat: Beat,
  mark: BeatMark,
  advance: (state: Gaussian, drift: number) => Gaussian,
): Beat {
  const branches = beat.branches.map((before): Branch => {
    const state = advance(before.state, driftOf(before));
    return { ...before, before, mark, state, news: NO_NEWS };
  });
  return { ...beat, marks: [...beat.marks, mark], branches };
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
