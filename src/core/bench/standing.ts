/** How the warp at the loom stands: what is left of it and of its yarns, and whether both last. */
import type { Mm } from '../measure/length.ts';
import { factorOf, lengthAt } from './beat/lengths.ts';
import type { Ruler } from './beat/marks.ts';
import type { Believed } from './beat/quantiles.ts';
import { fellAt } from './belief.ts';
import { furtherPieces } from './left/furtherPieces.ts';
import type { FurtherPieces, WarpContext, WarpLeft, YarnContext, YarnLeft } from './left/left.ts';
import { warpLeft } from './left/warpLeft.ts';
import { tallyWeft, type WeftTally } from './left/weftTally.ts';
import { yarnLeft } from './left/yarnLeft.ts';
import { lastOfYarn } from './milestones.ts';
import { yarnAt } from './pickAt.ts';
import type { Progress } from './progress.ts';
import { rulerOf } from './ruler.ts';

export interface Standing {
  readonly warp: WarpLeft;
  /** Of every yarn of the plan that has weft in it, or may be thrown by eye, in the plan's order. */
  readonly yarns: readonly YarnLeft[];
}

/** Everything left, before the pick at the fell; a course is tallied once by its caller. */
export function standingOf(progress: Progress, tally = tallyWeft(progress.course)): Standing {
  const { course, pick } = progress;
  const context = accountsOf(progress);
  const woven = course.plan.yarns.map((_, yarn) => yarn).filter((yarn) => isWoven(tally, yarn));
  return {
    warp: warpLeft(course, pick, context),
    yarns: woven.map((yarn) => yarnLeft(tally, pick, yarn, context)),
  };
}

const isWoven = ({ course }: WeftTally, yarn: number) =>
  course.open.length > 0 || lastOfYarn(course.stripes, yarn, course.stripes.count - 1) >= 0;

/** How many pieces more like the one at the fell warp and yarn allow. */
export function furtherLikeThis(progress: Progress): FurtherPieces {
  const { course, pick } = progress;
  const { piece } = fellAt(course, pick);
  return furtherPieces(tallyWeft(course), pick, piece, accountsOf(progress));
}

/** What the accounts of warp and yarn want to know of the progress. */
export function accountsOf(progress: Progress): WarpContext & YarnContext {
  const { course, pick, tiedOn, weighings, bobbins } = progress;
  return {
    tiedOn,
    weighings,
    bobbins,
    woven: course.pieces.map((piece) => {
      const to = Math.min(pick, piece.firstPick + piece.picks);
      return to <= piece.firstPick ? NOTHING : lengthIn(progress, piece, to);
    }),
    ahead: spreadAhead(progress),
  };
}

const NOTHING: Believed = { mm: 0, low: 0, high: 0, sd: 0 };

function lengthIn(
  { course, beat }: Progress,
  piece: { readonly index: number; readonly firstPick: number },
  pick: number,
): Believed {
  const { index, firstPick } = piece;
  return lengthAt(beat, rulerOf(course), { piece: index, firstPick, pick });
}

/**
 * Loom length of the piece at the fell if so much more were woven: planned millimetres by yarn, also
 * beyond the plan.
 */
export function believeAhead(progress: Progress, planned: readonly Mm[]): Believed {
  const { course, beat, pick } = progress;
  const place = fellAt(course, pick);
  const ruler = rulerOf(course);
  const end = pick + 1;
  const longer: Ruler = (from, to) =>
    to < end ? ruler(from, to) : ruler(from, pick).map((mm, yarn) => mm + (planned[yarn] ?? 0));
  return lengthAt(beat, longer, { ...place, pick: end });
}

/** Standard deviation of a loom length to come: what weaving it in the yarn at the fell adds to what is not known now. */
function spreadAhead(progress: Progress): (loomLength: Mm) => Mm {
  const { course, beat, pick } = progress;
  const yarn = yarnAt(course, Math.min(pick, course.picks - 1));
  const { factor } = factorOf(beat, yarn);
  const ahead = (loomLength: Mm) =>
    believeAhead(
      progress,
      course.plan.yarns.map((_, i) => (i === yarn ? loomLength / factor : 0)),
    );
  const now = ahead(0).sd;
  return (loomLength) => Math.sqrt(Math.max(0, ahead(loomLength).sd ** 2 - now ** 2));
}
