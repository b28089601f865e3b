/** The arithmetic every ending shares: lengths, warp, yarn and time, from what the context believes. */
import { loomLengthFromWarp } from '../../measure/clothState.ts';
import type { Mm } from '../../measure/length.ts';
import { spacingsIn } from '../../plan/blockTurns.ts';
import { gapAfter, sharesOf } from '../../plan/geometry.ts';
import { type PieceLengths, pieceLengths } from '../../plan/pieceLengths.ts';
import type { Piece, Plan, Wish } from '../../plan/plan.ts';
import type { Course, CoursePiece } from '../course.ts';
import { type Beliefs, beliefsFrom } from './beliefs.ts';
import type { EndingContext, Interval } from './context.ts';
import type {
  EndingLengths,
  Lasts,
  PieceEnding,
  Reading,
  WarpAfter,
  WarpVerdict,
  YarnNeed,
} from './ending.ts';
import { edgesOf, type LaidPiece } from './woven/asWoven.ts';

export interface Reckoning {
  readonly course: Course;
  readonly plan: Plan;
  /** The fell lies before this pick. */
  readonly pick: number;
  readonly context: EndingContext;
  /** The piece to end. */
  readonly present: CoursePiece;
  readonly beliefs: Beliefs;
  /** A number for the colour of each yarn index: yarns of one colour are one to the eye. */
  readonly colours: readonly number[];
  /** Planned millimetres per pick of each yarn index outside blocks: in hems. */
  readonly hemSpacings: readonly Mm[];
}

/** What all endings share, the fell lying before `pick`. Throws where the course has no piece `context.piece`. */
export function reckoningOf(course: Course, pick: number, context: EndingContext): Reckoning {
  const { plan } = course;
  const present = course.pieces[context.piece];
  if (present === undefined)
    throw new Error(`endings: wanted a piece of the course, got ${context.piece}`);
  const colours = plan.yarns.map((yarn) => yarn.colour.toLowerCase());
  const usual = usualWeft(course, pick);
  return {
    course,
    plan,
    pick,
    context,
    present,
    beliefs: beliefsFrom(context, usual, Math.max(2 * sumOf(usual), MOST_AHEAD)),
    colours: colours.map((colour) => colours.indexOf(colour)),
    hemSpacings: spacingsIn(plan, undefined),
  };
}

/** Later pieces and what may be woven beyond the plan are believed up to here at little cost (ours). */
const MOST_AHEAD: Mm = 20_000;

/** Planned millimetres still to weave of the whole warp, by yarn index; where there are none, of all of it. */
function usualWeft(course: Course, pick: number): readonly Mm[] {
  const { turns, plan } = course;
  const all = plan.yarns.map(() => 0);
  const ahead = plan.yarns.map(() => 0);
  for (let turn = 0; turn < turns.count; turn++) {
    const yarn = turns.yarn[turn] ?? 0;
    const end = turns.firstPick[turn + 1] ?? 0;
    const picks = end - (turns.firstPick[turn] ?? 0);
    const spacing = turns.spacing[turn] ?? 0;
    all[yarn] = (all[yarn] ?? 0) + picks * spacing;
    ahead[yarn] = (ahead[yarn] ?? 0) + Math.max(0, Math.min(picks, end - pick)) * spacing;
  }
  return ahead.some((mm) => mm > 0) ? ahead : all;
}

/**
 * What is still to be woven, from the length at the fell to a later one. The later interval holds the
 * doubt about the fell and, apart from it, that about the rest: their squares add up.
 */
export function toWeave(here: Interval, there: Interval): Interval {
  const rest = (whole: Mm, part: Mm) => Math.sqrt(Math.max(0, whole ** 2 - part ** 2));
  const mm = there.mm - here.mm;
  return {
    mm,
    low: mm - rest(there.mm - there.low, here.mm - here.low),
    high: mm + rest(there.high - there.mm, here.high - here.mm),
  };
}

/** Sums of exact lengths and weights stray by less than this. */
const TOLERANCE = 1e-6;

/** The warp that is left once so much is woven and so much that could be woven is not. */
export function warpAfter({ context }: Reckoning, woven: Interval, unwoven: Mm): WarpAfter {
  const { warpLeft } = context;
  const mm = warpLeft.mm - woven.mm - unwoven;
  const low = mm - Math.hypot(warpLeft.mm - warpLeft.low, woven.high - woven.mm);
  const high = mm + Math.hypot(warpLeft.high - warpLeft.mm, woven.mm - woven.low);
  return { leaves: { mm, low, high }, verdict: verdictOf(low, high) };
}

function verdictOf(low: Mm, high: Mm): WarpVerdict {
  if (low >= -TOLERANCE) return 'fits';
  return high < -TOLERANCE ? 'tooLong' : 'maybe';
}

/** What is left unwoven after a piece, as weavable loom length, when so many pieces are on the warp altogether. */
export function unwovenAfter({ plan, context }: Reckoning, piece: number, pieces: number): Mm {
  const ending = plan.pieces[piece]?.ending;
  const outer = ending === undefined ? 0 : context.fringeAfter(ending);
  const warp = piece < pieces - 1 ? gapAfter(plan, piece) : outer;
  return loomLengthFromWarp(warp, sharesOf(plan));
}

/** Lengths of a piece in every state, each a straight line over its loom length. */
export interface StateLines {
  readonly nought: PieceLengths;
  readonly slope: PieceLengths;
}

/** Those of a piece laid so: its allowances are as its hems then are. */
export function stateLines(plan: Plan, piece: Piece, laid: LaidPiece): StateLines {
  const { beginning, ending } = edgesOf(plan, piece, laid);
  const asLaid = { ...piece, beginning: beginning.edge, ending: ending.edge };
  const nought = pieceLengths(plan, asLaid, 0);
  const one = pieceLengths(plan, asLaid, 1);
  const slope = {
    loom: one.loom - nought.loom,
    off: one.off - nought.off,
    washed: one.washed - nought.washed,
    finished: one.finished - nought.finished,
  };
  return { nought, slope };
}

function lengthsOf(lines: StateLines, length: Interval): EndingLengths {
  return {
    loom: stateOf(lines, 'loom', length),
    off: stateOf(lines, 'off', length),
    washed: stateOf(lines, 'washed', length),
    finished: stateOf(lines, 'finished', length),
  };
}

function stateOf(
  { nought, slope }: StateLines,
  state: keyof PieceLengths,
  { mm, low, high }: Interval,
): Interval {
  const [from, share] = [nought[state], slope[state]];
  return { mm: from + share * mm, low: from + share * low, high: from + share * high };
}

/** What an ending of one piece comes to, counted in picks and believed as a length. */
export interface Woven {
  readonly piece: number;
  readonly lines: StateLines;
  readonly length: Interval;
  readonly hemPicks: number;
  readonly allPicks: number;
  /** Picks still to weave, by yarn index. */
  readonly toWeave: readonly number[];
  readonly reads: Reading;
}

/**
 * How a piece comes out with such an end: its lengths (mm), the picks and yarn (g) it still takes, and the
 * minutes that takes, null without a pace.
 */
export function pieceEnding({ plan, context }: Reckoning, woven: Woven): PieceEnding {
  const lengths = lengthsOf(woven.lines, woven.length);
  const picks = sumOf(woven.toWeave);
  const pace = context.picksPerMinute;
  return {
    piece: woven.piece,
    picks,
    hemPicks: woven.hemPicks,
    allPicks: woven.allPicks,
    lengths,
    reads: woven.reads,
    yarns: yarnNeeds(context, woven.toWeave),
    minutes: pace === null || pace <= 0 ? null : picks / pace,
    fromWish: fromWish(plan.pieces[woven.piece]?.wish, lengths),
  };
}

function fromWish(wish: Wish | undefined, lengths: EndingLengths): Interval | null {
  if (wish === undefined) return null;
  const { mm, low, high } = lengths[wish.state];
  return { mm: mm - wish.length, low: low - wish.length, high: high - wish.length };
}

function yarnNeeds(context: EndingContext, toWeave: readonly number[]): readonly YarnNeed[] {
  const needs: YarnNeed[] = [];
  for (const [yarn, picks] of toWeave.entries()) {
    if (picks === 0) continue;
    const left = context.yarnLeft(yarn);
    const grams = picks * context.gramsPerPick(yarn);
    needs.push({ yarn, picks, grams, left, lasts: lastsFor(grams, left) });
  }
  return needs;
}

function lastsFor(grams: number, left: YarnNeed['left']): Lasts {
  if (left === null) return 'unknown';
  if (grams <= left.low + TOLERANCE) return 'yes';
  return grams > left.high + TOLERANCE ? 'no' : 'maybe';
}

function sumOf(list: readonly number[]): number {
  return list.reduce((sum, it) => sum + it, 0);
}
