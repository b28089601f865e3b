/**
 * Yarn left (design §4): weight on hand − use so far, corrected by weighings, and whether it lasts.
 * What is used is the warp's share and, of the weft, everything `weftTally.ts` counts.
 */
import { massOf } from '../../measure/yarnCount.ts';
import type { Course } from '../course.ts';
import { pieceAt } from '../pickAt.ts';
import { lastAtOrBefore } from '../search.ts';
import { believedYarn, gramsOf, noLessThanNought } from './believed.ts';
import type { Reach, YarnContext, YarnLeft } from './left.ts';
import { reachOf } from './reach.ts';
import { type WeftTally, weftBefore } from './weftTally.ts';
import { type YarnAccount, yarnAccount } from './yarnAccount.ts';

/** What is left of a yarn before `pick` is thrown, what is still wanted of it, and whether that will do. */
export function yarnLeft(
  tally: WeftTally,
  pick: number,
  yarn: number,
  context: YarnContext,
): YarnLeft {
  const account = yarnAccount(tally, pick, yarn, context);
  const { now, tex, use, stock } = account;
  const wantedTo = (end: number) => use(account.planned(end));
  const ends = endsFrom(tally.course, pick);
  return {
    yarn,
    left: stock === null ? null : believedYarn(noLessThanNought(stock.left), tex),
    used: {
      warp: gramsOf(account.warp, tex),
      weft: use(weftBefore(tally, yarn, pick)).grams,
    },
    use: { factor: now.factor, sd: Math.sqrt(now.ofFactor) },
    perPick: use(tally.perPick).grams,
    wanted: {
      block: wantedTo(ends.block),
      piece: wantedTo(ends.piece),
      warp: wantedTo(ends.warp),
    },
    spare: stock === null ? null : gramsOf(stock.spare(account.planned(ends.warp)), tex),
    reach: reachOfYarn(account, pick, ends.warp),
    misfit: now.misfit === null ? null : massOf(now.misfit, tex),
  };
}

/** The ends of the block and the piece a pick lies in, and of all. */
function endsFrom(course: Course, pick: number) {
  const { turns, blocks, picks } = course;
  if (pick >= picks) return { block: pick, piece: pick, warp: pick };
  const turn = lastAtOrBefore(turns.firstPick, turns.count, pick);
  const block = blocks[turns.block[turn] ?? -1];
  const piece = pieceAt(course, pick);
  return {
    block: block === undefined ? pick : block.firstPick + block.picks,
    piece: piece.firstPick + piece.picks,
    warp: picks,
  };
}

/** A yarn nothing more is wanted of lasts, however little there is. */
function reachOfYarn({ planned, stock }: YarnAccount, pick: number, picks: number): Reach | null {
  if (planned(picks) === 0) return { kind: 'yes' };
  return stock === null ? null : reachOf({ pick, picks }, (to) => stock.spare(planned(to)));
}
