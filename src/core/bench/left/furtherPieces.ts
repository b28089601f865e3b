/** Further pieces (design §4): how many more like one of the plan the warp and every yarn of it allow. */
import { furtherGaps } from '../../plan/warpLength.ts';
import { mostThatFits } from '../search.ts';
import type { BelievedLength, FurtherPieces, WarpContext, YarnContext } from './left.ts';
import { covers } from './reach.ts';
import { warpAccount } from './warpLeft.ts';
import { type WeftTally, weftOfPiece } from './weftTally.ts';
import { yarnAccount } from './yarnAccount.ts';

/** How many pieces more like piece `like`, as it is laid now, can be woven after the plan's last. */
export function furtherPieces(
  tally: WeftTally,
  pick: number,
  like: number,
  context: WarpContext & YarnContext,
): FurtherPieces {
  const yarns = yarnLimits(tally, pick, like, context);
  const warp = limitOf({ kind: 'warp' }, spareOfWarp(tally, pick, like, context));
  const limits = [warp, ...yarns.filter((it) => it !== null)];
  const first = limits.reduce((least, it) => (it.more < least.more ? it : least));
  const weft = weftOfPieceAt(tally, like);
  return {
    piece: like,
    more: first.more,
    sure: Math.min(...limits.map((it) => it.sure)),
    limitedBy: first.by,
    unweighed: [...weft.keys()].filter(
      (yarn) => yarns[yarn] === null && (weft[yarn]?.length ?? 0) > 0,
    ),
  };
}

interface Limit {
  readonly by: FurtherPieces['limitedBy'];
  readonly more: number;
  readonly sure: number;
}

/** More than anybody weaves on one warp; the search ends there. */
const MOST_FURTHER = 999;

/** `spare` tells what is left over with so many pieces more, one at least; it only ever shrinks. */
function limitOf(by: Limit['by'], spare: (more: number) => BelievedLength): Limit {
  return {
    by,
    more: mostThatFits(MOST_FURTHER, (k) => covers(spare(k).mm)),
    sure: mostThatFits(MOST_FURTHER, (k) => covers(spare(k).low)),
  };
}

/** One a yarn; null where nobody knows how much there is. */
function yarnLimits(tally: WeftTally, pick: number, like: number, context: YarnContext) {
  return weftOfPieceAt(tally, like).map(({ length }, yarn): Limit | null => {
    const { stock, planned } = yarnAccount(tally, pick, yarn, context);
    if (stock === null) return null;
    const toCome = planned(tally.course.picks);
    return limitOf({ kind: 'yarn', yarn }, (more) => stock.spare(toCome + more * length));
  });
}

function weftOfPieceAt(tally: WeftTally, like: number) {
  const piece = tally.course.pieces[like];
  if (piece === undefined) throw new Error(`furtherPieces: wanted a piece, got ${like}`);
  return weftOfPiece(tally, piece);
}

function spareOfWarp(
  { course }: WeftTally,
  pick: number,
  like: number,
  context: WarpContext,
): (more: number) => BelievedLength {
  const account = warpAccount(course, pick, context);
  const { plan, picks, pieces } = course;
  const planned = account.wanted(picks);
  const ending = plan.pieces[like]?.ending;
  const fringe = ending === undefined ? planned.fringe : account.fringeAfter(ending);
  const length = pieces[like]?.loomLength ?? 0;
  return (more) =>
    account.spare({
      loomLength: planned.loomLength + more * length,
      gaps: planned.gaps + furtherGaps(plan, like, more),
      fringe,
    });
}
