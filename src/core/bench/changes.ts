/** What the weaver changes of the plan at the loom: picks of a block, what blocks keep, whole pieces. */

import { isCount } from '../measure/isCount.ts';
import type { Grams } from '../measure/mass.ts';
import { LIMITS } from '../plan/limits.ts';
import type { Letter, Piece } from '../plan/plan.ts';
import { mirrorsMatched } from './aim.ts';
import { blockKey, type Keeping } from './aims.ts';
import type { CourseBlock } from './course.ts';
import { duesOf } from './dues.ts';
import { KEEPS, type Keep } from './events.ts';
import { aimWhereMeasured, withBlocks } from './measuring.ts';
import type { Progress } from './progress.ts';
import { revisedCourse } from './revise.ts';

/** A block gets another number of picks; what is woven never changes. */
export function blockSet(
  progress: Progress,
  piece: number,
  block: number,
  picks: number,
): Progress {
  const { course, pick } = progress;
  const it = course.blocks[(course.pieces[piece]?.firstBlock ?? -1) + block];
  if (it === undefined || it.ofPiece !== block || it.piece !== piece) return progress;
  if (it.laid.role === 'free') return progress;
  if (!isCount(picks) || pick > it.firstPick + it.picks) return progress;
  const woven = Math.max(0, pick - it.firstPick);
  const wanted = Math.max(woven, Math.min(picks, LIMITS.picks));
  const from = sameYarnFrom(progress, it, woven, wanted);
  const change = { piece, block, picks: wanted, ...(from === null ? {} : { sameYarnFrom: from }) };
  const set = withBlocks(progress, [change]);
  return withBlocks(set, mirrorsMatched(set.course, pick, set.keeping));
}

/**
 * From which pick on a block keeps the yarn of its last turn. One pick more where the closing tail
 * falls on the wrong side brings that shuttle back, and so must not begin another colour's turn.
 */
function sameYarnFrom(
  progress: Progress,
  block: CourseBlock,
  woven: number,
  picks: number,
): number | null {
  const { course, dues } = progress;
  const earlier = course.adjustments.blocks.findLast(
    (it) => it.piece === block.piece && it.block === block.ofPiece,
  )?.sameYarnFrom;
  if (earlier !== undefined && woven > earlier) return earlier;
  const isLast = block.ofPiece === (course.pieces[block.piece]?.blocks ?? 0) - 1;
  const wrong = dues.some(
    (it) => it.kind === 'endTail' && it.piece === block.piece && it.wrongSide,
  );
  return isLast && wrong && picks === block.picks + 1 ? block.picks : null;
}

/** From now on a block keeps its length or its picks; at a beat that is known it is aimed anew. */
export function keepBlock(progress: Progress, piece: number, block: number, by: Keep): Progress {
  const { course, keeping } = progress;
  const isThere = (course.pieces[piece]?.blocks ?? 0) > block && isCount(block);
  if (!isThere || !KEEPS.includes(by)) return progress;
  const blocks = new Map(keeping.blocks).set(blockKey(piece, block), by);
  return keepingAnew(progress, { ...keeping, blocks });
}

/** What the second halves of the mirrors of a piece match of their first halves. */
export function keepMirror(progress: Progress, piece: number, by: Keep): Progress {
  if (progress.course.pieces[piece] === undefined || !KEEPS.includes(by)) return progress;
  const mirrors = new Map(progress.keeping.mirrors).set(piece, by);
  return keepingAnew(progress, { ...progress.keeping, mirrors });
}

function keepingAnew(progress: Progress, keeping: Keeping): Progress {
  return aimWhereMeasured({ ...progress, keeping });
}

/** The plan from piece `from` on is another; a plan that cannot be, or that changes woven picks, is none. */
export function revised(progress: Progress, from: number, pieces: readonly Piece[]): Progress {
  const course = revisedCourse(progress.course, progress.pick, from, pieces);
  if (course === null) return progress;
  const { keeping } = progress;
  const isBefore = (key: string) => Number.parseInt(key, 10) < from;
  return {
    ...progress,
    course,
    dues: duesOf(course),
    keeping: {
      blocks: new Map([...keeping.blocks].filter(([key]) => isBefore(key))),
      mirrors: new Map([...keeping.mirrors].filter(([piece]) => piece < from)),
    },
    aim: null,
    revision: progress.revision + 1,
  };
}

/** Yarn was weighed: so much of it is not in the cloth. Nothing happens for a yarn of no such letter. */
export function weighed(progress: Progress, letter: Letter, net: Grams): Progress {
  const yarn = progress.course.plan.yarns.findIndex((it) => it.letter === letter);
  if (yarn < 0 || !Number.isFinite(net) || net < 0) return progress;
  // Weighed at the bench, so the warp is wound, whether its list was ticked or not.
  const weighing = { yarn, pick: progress.pick, net, wound: true };
  return { ...progress, weighings: [...progress.weighings, weighing] };
}

/** A shuttle of this yarn ran empty before the pick at the fell. */
export function bobbinChanged(progress: Progress, letter: Letter): Progress {
  const yarn = progress.course.plan.yarns.findIndex((it) => it.letter === letter);
  if (yarn < 0) return progress;
  return { ...progress, bobbins: [...progress.bobbins, { yarn, pick: progress.pick }] };
}
