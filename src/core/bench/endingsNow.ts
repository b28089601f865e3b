/** The endings from this moment of the progress on. Loaded when asked for, never with the bench. */
import { lengthBefore, pieceAtFell } from './asking.ts';
import type { Endings, Stop } from './endings/ending.ts';
import { endingsOf } from './endings/endings.ts';
import { hemPicks } from './layPiece.ts';
import type { Pace } from './left/left.ts';
import { warpAccount } from './left/warpLeft.ts';
import type { Progress } from './progress.ts';
import { accountsOf, believeAhead, type Standing } from './standing.ts';

/** Stops and fits of the piece at the fell, by what is believed of lengths, warp and yarn now. */
export function endingsNow(progress: Progress, standing: Standing, pace: Pace | null): Endings {
  const { course, pick } = progress;
  const yarnOf = (yarn: number) => standing.yarns.find((it) => it.yarn === yarn);
  return endingsOf(course, pick, {
    piece: pieceAtFell(progress).piece,
    believe: (at) => lengthBefore(progress, at),
    believeAhead: (planned) => believeAhead(progress, planned),
    warpLeft: standing.warp.left,
    yarnLeft: (yarn) => yarnOf(yarn)?.left?.grams ?? null,
    gramsPerPick: (yarn) => yarnOf(yarn)?.perPick.grams ?? 0,
    picksPerMinute: pace?.picksPerMinute ?? null,
    hemPicks: (edge, neighbour) => hemPicks(course.plan, edge, neighbour),
    fringeAfter: warpAccount(course, pick, accountsOf(progress)).fringeAfter,
  });
}

/**
 * Of all stops those a weaver would think of: here, where the plan ends, whole blocks and motifs, and
 * turns where the piece reads the same from both ends; the nearest to the wish where there is one.
 */
export function sensibleStops(stops: readonly Stop[]): readonly Stop[] {
  const nearest = nearestToWish(stops);
  return stops.filter((stop) => stop === nearest || isWhole(stop) || stop.reads.same !== 'no');
}

/** The nearest to the wish first; without a wish in weaving order. */
export function nearestFirst(stops: readonly Stop[]): readonly Stop[] {
  const miss = ({ fromWish }: Stop) => Math.abs(fromWish?.mm ?? 0);
  return [...stops].sort((a, b) => miss(a) - miss(b));
}

function isWhole({ place }: Stop): boolean {
  return place.kind === 'beyond' ? place.turns === 0 : place.kind !== 'turn';
}

function nearestToWish(stops: readonly Stop[]): Stop | null {
  return stops.reduce<Stop | null>((best, stop) => {
    if (stop.fromWish === null) return best;
    const miss = Math.abs(stop.fromWish.mm);
    return best?.fromWish && Math.abs(best.fromWish.mm) <= miss ? best : stop;
  }, null);
}
