/**
 * Fits: plans that meet the wished length, or use the warp that is left and no more. Mirrored ones
 * first, then what changes least (design §4, "Endings"). Woven picks stay as they are.
 */
import type { Mm } from '../../../measure/length.ts';
import { checkPlan } from '../../../plan/checkPlan.ts';
import { type Aim, type Fit, WAYS } from '../ending.ts';
import { type Reckoning, stateLines } from '../reckoning.ts';
import { planWith } from '../revision.ts';
import { type Board, type BoardPiece, boardOf } from './board.ts';
import { clothOf, fitOf, laidPiece, type Outcome, outcomeOf, warpAfterPieces } from './outcome.ts';
import { type Target, TOLERANCE } from './target.ts';
import { type Trial, trialOfLater, trialsOf } from './trials.ts';

/**
 * The fits to the wish of the present piece, then those to the warp, at most three of a way for each; every
 * one makes a sound plan in which no woven pick is another.
 */
export function fitsOf(reckoning: Reckoning): readonly Fit[] {
  const board = boardOf(reckoning);
  return [...ranked(board, 'wish', wishTrials(board)), ...ranked(board, 'warp', warpTrials(board))];
}

/** The trials of one piece, or of several, towards one target, and by how much the plan as it is misses that. */
interface Tried {
  readonly trials: readonly Trial[];
  readonly overNow: Mm;
  readonly overOf: (outcome: Outcome) => Mm;
  /** The length that is aimed at. */
  readonly whole: Mm;
}

function wishTrials(board: Board): readonly Tried[] {
  const [it] = board.pieces;
  const { plan, beliefs } = board.reckoning;
  const wish = it?.piece.wish;
  if (it === undefined || it.isUnseen || wish === undefined) return [];
  const { nought, slope } = stateLines(plan, it.piece, laidPiece(board, it, it.items));
  const whole = (wish.length - nought[wish.state]) / slope[wish.state];
  const target: Target = { aim: 'wish', over: (planned) => beliefs.ahead(planned).mm - whole };
  const overOf = ({ kept }: Outcome) => target.over(kept[0]?.strand.ahead ?? []);
  const overNow = target.over(it.strand.ahead);
  return [{ trials: trialsOf(board, it, target), overNow, overOf, whole }];
}

/** How much too long the whole is by the bad end of the interval. */
const tooLong = ({ warpAfterAll }: Outcome): Mm => -warpAfterAll.leaves.low;

function warpTrials(board: Board): readonly Tried[] {
  const [present, ...later] = board.pieces;
  const last = later[later.length - 1];
  if (present === undefined || board.pieces.some((it) => it.isUnseen)) return [];
  const whole = board.reckoning.context.warpLeft.mm;
  const now = tooLong(outcomeOf(board, unchanged(0)));
  const tried = (trials: readonly Trial[]): Tried => ({
    trials,
    overNow: now,
    overOf: tooLong,
    whole,
  });
  const own = tried(trialsOf(board, present, warpTarget(board, [present])));
  if (last === undefined) return [own];
  const shorter = tried(trialsOf(board, last, warpTarget(board, [last])));
  const all = later.length > 1 ? trialOfLater(board, warpTarget(board, later)) : [];
  return [own, shorter, tried(all), tried(now > TOLERANCE ? droppedTrials(board) : [])];
}

/** What the pieces that change may weave; all others stay as they are. */
function warpTarget(board: Board, changing: readonly BoardPiece[]): Target {
  const others = board.reckoning.plan.yarns.map((_, yarn) =>
    board.pieces
      .filter((it) => !changing.includes(it))
      .reduce((sum, it) => sum + (it.strand.ahead[yarn] ?? 0), 0),
  );
  const over = (planned: readonly Mm[]) => {
    const ahead = others.map((mm, yarn) => mm + (planned[yarn] ?? 0));
    return -warpAfterPieces(board, 0, ahead).leaves.low;
  };
  return { aim: 'warp', over };
}

function unchanged(dropped: number): Trial {
  const plain = { way: 'dropped', motifs: 0, matched: false, moved: 0 } as const;
  return { ...plain, dropped, cost: 0, wefts: new Map() };
}

/** As few of the last pieces dropped as make the rest fit; each of their blocks is a change of 1. */
function droppedTrials(board: Board): readonly Trial[] {
  for (let dropped = 1; dropped < board.pieces.length; dropped++) {
    const trial = unchanged(dropped);
    if (tooLong(outcomeOf(board, trial)) > TOLERANCE) continue;
    const gone = board.pieces.slice(board.pieces.length - dropped);
    return [{ ...trial, cost: gone.reduce((sum, it) => sum + it.items.length, 0) }];
  }
  return [];
}

/** More of one way would be a list to read, not a choice (ours). */
const MOST_OF_A_WAY = 3;

function ranked(board: Board, aim: Aim, tried: readonly Tried[]): readonly Fit[] {
  const outcomes = tried.flatMap(({ trials, ...rest }) =>
    trials
      .map((trial) => outcomeOf(board, trial))
      .filter((outcome) => isBetter(aim, rest, outcome)),
  );
  const fits: Fit[] = [];
  const seen = new Set<string>();
  for (const outcome of outcomes.sort(byRank)) {
    const ofWay = fits.filter((it) => it.way === outcome.trial.way).length;
    const cloth = clothOf(outcome);
    if (ofWay === MOST_OF_A_WAY || seen.has(cloth)) continue;
    seen.add(cloth);
    const fit = fitOf(board, aim, outcome);
    if (fit === null) continue;
    if (checkPlan(planWith(board.reckoning.plan, fit.revision())).ok) fits.push(fit);
  }
  return fits;
}

/** Motifs and matched halves move in big steps; what comes within a hundredth of the length meets it (ours). */
const CLOSE_SHARE = 0.01;

/** Whether it is worth offering: nearer than the plan as it is, and on the warp where that is the aim. */
function isBetter(
  aim: Aim,
  { overNow, overOf, whole }: Omit<Tried, 'trials'>,
  outcome: Outcome,
): boolean {
  const { way, matched } = outcome.trial;
  if (matched && !outcome.mirrored) return false;
  const over = overOf(outcome);
  const isClose = Math.abs(over) <= CLOSE_SHARE * whole;
  if (aim === 'wish' && (way === 'motifs' || way === 'mirror') && !isClose) return false;
  if (aim === 'warp' && over > TOLERANCE) return false;
  if (aim === 'warp' && overNow > TOLERANCE) return true;
  if (way === 'mirror' && isClose) return true;
  return Math.abs(over) < Math.abs(overNow) - TOLERANCE;
}

/** Costs are sums of fractions and stray by less than this. */
const COST_TOLERANCE = 1e-9;

/** Mirrored ones first, then what changes least; of two that cost the same the one with less to do. */
function byRank(one: Outcome, other: Outcome): number {
  if (one.mirrored !== other.mirrored) return one.mirrored ? -1 : 1;
  const dearer = one.trial.cost - other.trial.cost;
  if (Math.abs(dearer) > COST_TOLERANCE) return dearer;
  if (one.trial.moved !== other.trial.moved) return one.trial.moved - other.trial.moved;
  return WAYS.indexOf(one.trial.way) - WAYS.indexOf(other.trial.way);
}
