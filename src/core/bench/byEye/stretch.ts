/** A stretch of woven cloth: its stripes, and the motif it becomes when it is kept. */
import type { Mm } from '../../measure/length.ts';
import { mergeRuns, type Runs } from '../../measure/runs.ts';
import { endsPerMm, warpRuns } from '../../plan/geometry.ts';
import type { Motif } from '../../plan/motif.ts';
import type { Letter, Plan } from '../../plan/plan.ts';
import type { Course } from '../course.ts';
import { withinLimit } from '../endings/woven/regroup.ts';
import { pieceAt, stripeIndexAt } from '../pickAt.ts';
import { lengthOfPiece } from '../tape.ts';
import { recogniseBlocks } from './recogniseBlocks.ts';

/** Picks of one piece, half-open. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** The stripes of a stretch, the first and the last one as far as they lie in it. */
export function stripesIn(course: Course, { from, to }: Stretch): Runs<Letter> {
  const { stripes, plan } = course;
  const runs: { of: Letter; count: number }[] = [];
  for (let r = stripeIndexAt(course, from); r < stripes.count; r++) {
    const start = Math.max(from, stripes.firstPick[r] ?? 0);
    const end = Math.min(to, stripes.firstPick[r + 1] ?? 0);
    if (start >= to) break;
    runs.push({ of: plan.yarns[stripes.yarn[r] ?? 0]?.letter ?? '', count: end - start });
  }
  return mergeRuns(runs);
}

/** Loom length of a stretch, as believed now. */
export function stretchLength(course: Course, { from, to }: Stretch): Mm {
  const piece = pieceAt(course, from);
  return lengthOfPiece(course, piece, to) - lengthOfPiece(course, piece, from);
}

/**
 * The motif a stretch of one piece is: as few blocks as it can be told in, its yarns with the beat
 * they really had. Throws for a stretch without picks.
 */
export function motifOfStretch(
  course: Course,
  stretch: Stretch,
  head: Pick<Motif, 'id' | 'name' | 'madeAt' | 'from'>,
): Motif {
  const { plan } = course;
  const stripes = stripesIn(course, stretch);
  const factor = stretchLength(course, stretch) / plannedLength(course, stretch);
  const worn = new Set([
    ...stripes.map((run) => run.of),
    ...warpRuns(plan.warp.order).map((run) => run.of),
  ]);
  const yarns = plan.yarns
    .filter((yarn) => worn.has(yarn.letter))
    .map(({ onHand, resting, pickSpacing, ...yarn }) => ({
      ...yarn,
      pickSpacing: (pickSpacing ?? plan.weaving.pickSpacing) * factor,
    }));
  return {
    ...head,
    yarns,
    endsPerMm: endsPerMm(plan.loom),
    warp: plan.warp.order,
    blocks: withinLimit(recogniseBlocks(stripes)),
  };
}

/** At the plan's spacing of each yarn, whatever blocks say. */
function plannedLength(course: Course, stretch: Stretch): Mm {
  const spacing = spacingIn(course.plan);
  return stripesIn(course, stretch).reduce((sum, run) => sum + run.count * spacing(run.of), 0);
}

function spacingIn({ yarns, weaving }: Plan): (letter: Letter) => Mm {
  return (letter) =>
    yarns.find((yarn) => yarn.letter === letter)?.pickSpacing ?? weaving.pickSpacing;
}
