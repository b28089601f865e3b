/**
 * The beat, estimated: how long the piece is at every pick, woven and to come, and how well that is
 * known. Pick spacing = planned spacing × one common factor, with a slow correction per yarn.
 *
 * A `Beat` is a value: every reading makes a new one. What cannot be (an unknown pin, no number)
 * changes nothing. Lengths are loom millimetres from the start of the piece.
 */
import type { Mm } from '../../measure/length.ts';
import type { ReadFrom } from '../events.ts';
import {
  type Branch,
  believing,
  type Child,
  childrenOf,
  driftOf,
  NO_NEWS,
  type Taking,
  WAYS,
} from './branches.ts';
import { beforeMark, earlier, withHindsight } from './hindsight.ts';
import { clearestJump, type Jump } from './jump.ts';
import { type Gaussian, predicted } from './kalman.ts';
import { lengthAfter } from './lengths.ts';
import type { BeatMark, Place, Reading, Ruler, Stretch } from './marks.ts';
import { inPiece, leftAt, pieceOf } from './pieces.ts';
import {
  atStart,
  type BeatPrior,
  LAST_PIN,
  type Origin,
  PIECE_START,
  PIN_ERROR,
  pinning,
  pinningNoise,
  quantitiesOf,
  sightOf,
} from './quantities.ts';
import { growingBy, reachOf } from './reach.ts';
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

/** Nothing woven yet; the plan has this many yarns. */
export function startBeat(yarns: number, prior: BeatPrior): Beat {
  const state = atStart(yarns, prior);
  const first = { before: null, mark: null, recent: 0, state, news: NO_NEWS };
  const branches = WAYS.map(({ weight }, way): Branch => {
    return { ...first, way, weight: Math.log(weight) };
  });
  return { yarns, prior, marks: [], branches, rounding: NO_READINGS, ...NO_JUMP };
}

/** A pin goes into the cloth at the fell. */
export function pinned(beat: Beat, ruler: Ruler, place: Place, pin: string): Beat {
  const here = arrived(beat, ruler, place);
  const { since } = reachOf(here.marks, ruler, place);
  const n = quantitiesOf(beat.yarns);
  const grown = growingBy(n, since);
  return extended(here, markAt(place, { kind: 'pinned', pin }, since), (state, drift) =>
    predicted(grown(state, drift), pinning(n), pinningNoise(n)),
  );
}

/** The fell is measured. An unknown pin, or what is no length (under a kilometre), changes nothing. */
export function measured(beat: Beat, ruler: Ruler, place: Place, reading: Reading): Beat {
  const here = { ...arrived(beat, ruler, place), rounding: rounded(beat.rounding, reading.mm) };
  const { since } = reachOf(here.marks, ruler, place);
  const children = takings(here, since, reading);
  if (children.length === 0) return beat;
  const mark = markAt(place, { kind: 'measured', ...reading }, since);
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
  if (!isLength(length)) return beat;
  // As good as the two readings it stands for, and worse the longer it is.
  const variance = 2 * (2 + roundingNoise(beat.rounding)) + (0.02 * length) ** 2;
  const from = { ...place, pick: fromPick };
  const before = arrived(beat, ruler, from);
  const counted = toldAt(before, from, reachOf(before.marks, ruler, from).since);
  return toldAt(counted, place, { kind: 'told', mm: length, variance });
}

function toldAt(beat: Beat, place: Place, since: Stretch): Beat {
  const grown = growingBy(quantitiesOf(beat.yarns), since);
  return extended(beat, markAt(place, { kind: 'told' }, since), grown);
}

/** Picks were taken out: what is known of the cloth left stays, later marks and pins go with their cloth. */
export function takenBackTo(beat: Beat, ruler: Ruler, place: Place): Beat {
  const here = leftAt(beat, place.piece);
  if (pieceOf(here) !== place.piece) return here;
  const { index, since, rest } = reachOf(here.marks, ruler, place);
  if (rest === null) return here;
  const mark = markAt(place, { kind: 'takenBack' }, since);
  const steps = here.marks.length - 2 - index;
  const branches = here.branches.flatMap((it) => backTo(it, steps, mark, rest));
  return { ...here, marks: [...here.marks.slice(0, index + 1), mark], branches, ...NO_JUMP };
}

function backTo(last: Branch, steps: number, mark: BeatMark, rest: Stretch): readonly Branch[] {
  const later = earlier(last, steps);
  const before = later?.branch.before;
  if (!later || !before) return [];
  const grown = growingBy(last.state.mean.length, mark.since);
  const state = grown(before.state, driftOf(before));
  const hindsight = beforeMark(later, rest);
  const news = { kind: 'kept', cov: state.cov, hindsight } as const;
  return [{ ...last, before, mark, state: withHindsight(state, hindsight), news }];
}

/** Every way to take a reading after this stretch; none when it starts from a pin not there or is no number. */
export function takings(beat: Beat, since: Stretch, reading: Reading): readonly Child[] {
  const origin = originOf(beat, reading.from);
  if (origin === null || !isLength(Math.abs(reading.mm))) return [];
  const taking: Taking = {
    advance: growingBy(quantitiesOf(beat.yarns), since),
    sight: (state) => sightOf(state, origin, reading.tension),
    reading: reading.mm,
    error: roundingNoise(beat.rounding) + origin.variance,
  };
  return beat.branches.flatMap((branch) => childrenOf(branch, taking));
}

/** Beyond a kilometre is no cloth, and squares of it might overflow. */
const isLength = (mm: Mm): boolean => mm >= 0 && mm <= 1e6;

/** The last pin is one of the quantities; an older one lies where the cloth is believed to have been. */
function originOf({ marks, branches }: Beat, from: ReadFrom): Origin | null {
  if (from.kind === 'start') return PIECE_START;
  const piece = marks[marks.length - 1]?.piece;
  const isPin = ({ what }: BeatMark) => what.kind === 'pinned';
  const index = marks.findLastIndex(
    ({ what, piece: of }) => of === piece && what.kind === 'pinned' && what.pin === from.pin,
  );
  if (index < 0) return null;
  if (marks.findLastIndex(isPin) === index) return LAST_PIN;
  const { mm, sd } = lengthAfter(branches, marks.length - 1 - index);
  // Its error is in part that of the fell itself; counted three times over, it is never taken for news.
  return { kind: 'known', mm, variance: 3 * sd ** 2 + PIN_ERROR ** 2 };
}

/** The estimator where the weaver is: a new piece begins by itself, going back takes picks out. */
export function arrived(beat: Beat, ruler: Ruler, place: Place): Beat {
  return takenBackTo(inPiece(beat, place.piece), ruler, place);
}

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

function markAt(place: Place, what: BeatMark['what'], since: Stretch): BeatMark {
  return { what, piece: place.piece, pick: place.pick - place.firstPick, since };
}
