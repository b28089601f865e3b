/** What the endings are told in tests: a beat that is off by a factor, warp and yarn as one likes. */
import type { Course } from '../../../../src/core/bench/course.ts';
import type { EndingContext, Interval } from '../../../../src/core/bench/endings/context.ts';
import { layPiece } from '../../../../src/core/bench/layPiece.ts';
import { fringeOnLoom } from '../../../../src/core/plan/geometry.ts';
import type { Edge, Plan } from '../../../../src/core/plan/plan.ts';
import { lengthsByHand } from './byHand.ts';

/** Exactly so much. */
export const exactly = (mm: number) => ({ mm, low: mm, high: mm });

export interface Beat {
  /** Loom length of the piece at the fell, and how far from it the truth may lie. */
  readonly fell: number;
  readonly fellDoubt: number;
  /** Real over planned spacing from the fell on, and how far from it the truth may lie. */
  readonly factor: number;
  readonly factorDoubt: number;
}

/** Beliefs of a weaver at the fell: what is ahead is as planned, times the factor. */
export function beliefAt(course: Course, piece: number, pick: number, beat: Beat) {
  const believed = (planned: number): Interval => {
    const mm = beat.fell + beat.factor * planned;
    const half = Math.hypot(beat.fellDoubt, beat.factorDoubt * planned);
    return { mm, low: mm - half, high: mm + half };
  };
  const lengths = lengthsByHand(course, piece);
  const first = course.pieces[piece]?.firstPick ?? 0;
  const upTo = (to: number) => lengths[to - first] ?? Number.NaN;
  return {
    believe: (to: number) => believed(upTo(to) - upTo(pick)),
    believeAhead: (planned: readonly number[]) =>
      believed(planned.reduce((sum, mm) => sum + mm, 0)),
  };
}

/** The picks of a hem as a plan lays it beside a yarn, from a plan that has nothing else. */
export function hemPicksOf(plan: Plan) {
  return (edge: Edge, neighbour: number): number => {
    const letter = plan.yarns[neighbour]?.letter ?? '';
    const weft = [{ kind: 'solid', yarn: letter, extent: { kind: 'picks', picks: 1 } }] as const;
    const beginning = { kind: 'plain', washedAllowance: 0 } as const;
    const piece = { name: 'Hem', startShed: 'up', beginning, ending: edge, weft } as const;
    const [, hem] = layPiece({ ...plan, pieces: [piece] }, 0);
    return hem === undefined ? 0 : (hem.period.picks[0] ?? 0);
  };
}

/** A context in which everything goes as planned and there is plenty of all. */
export function contextAt(
  course: Course,
  pick: number,
  changes: Partial<EndingContext> & { readonly beat?: Partial<Beat> } = {},
): EndingContext {
  const { beat = {}, ...rest } = changes;
  const piece = changes.piece ?? 0;
  const first = course.pieces[piece]?.firstPick ?? 0;
  const fell = lengthsByHand(course, piece)[pick - first] ?? Number.NaN;
  const plain = { fell, fellDoubt: 0, factor: 1, factorDoubt: 0 };
  return {
    piece,
    ...beliefAt(course, piece, pick, { ...plain, ...beat }),
    warpLeft: exactly(2000),
    yarnLeft: () => null,
    gramsPerPick: () => 0.1,
    picksPerMinute: null,
    hemPicks: hemPicksOf(course.plan),
    fringeAfter: (edge) => fringeOnLoom(course.plan, edge),
    ...rest,
  };
}
