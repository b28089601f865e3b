/** Checking and laying out a whole plan, against only reading and writing its picks as JSON. */
import { NO_ADJUSTMENTS } from '../../../src/core/bench/adjustments.ts';
import { type Course, layCourse } from '../../../src/core/bench/course.ts';
import { pickRows } from '../../../src/core/bench/scene.ts';
import { checkPlan } from '../../../src/core/plan/checkPlan.ts';
import { warpRuns } from '../../../src/core/plan/geometry.ts';
import type { Plan } from '../../../src/core/plan/plan.ts';
import { LARGE, type PlanSize, planFile } from '../samples.ts';
import type { Pair } from './pair.ts';

const SIZE = `${LARGE.pieces} pieces × ${LARGE.picks.toLocaleString('en')} picks × ${LARGE.ends} ends`;

/** The plan, checked; throws when it is not what the table says it is. */
export function planOf(size: PlanSize): Plan {
  const checked = checkPlan(planFile(size));
  if (!checked.ok) throw new Error(`planOf: ${JSON.stringify(checked.problem)}`);
  const { picks } = layCourse(checked.value, NO_ADJUSTMENTS);
  if (picks !== size.pieces * size.picks) throw new Error(`planOf: got ${picks} picks`);
  return checked.value;
}

export const largePlan = () => planOf(LARGE);

export const layPlan: Pair = {
  what: `check and lay out a plan of ${SIZE}`,
  against: '`JSON.parse` + `JSON.stringify` of its expanded picks, each {yarn, shed, from}',
  unit: 'ms',
  limits: [{ kind: 'ratio', most: 0.5 }],
  prepare: () => {
    const text = JSON.stringify(expanded(largePlan(), (_, row) => row));
    return { ours: checkAndLay(planFile(LARGE)), floor: there(text), times: 1 };
  },
};

export const layPlanLetters: Pair = {
  ...layPlan,
  what: 'the same',
  against: 'the same, each pick only the letter of its yarn',
  limits: [],
  prepare: () => {
    const text = JSON.stringify(expanded(largePlan(), (letter) => letter));
    return { ours: checkAndLay(planFile(LARGE)), floor: there(text), times: 1 };
  },
};

export const layOnly: Pair = {
  what: 'lay out the checked plan alone',
  against: '',
  unit: 'ms',
  limits: [{ kind: 'median', most: 5 }],
  prepare: () => {
    const plan = largePlan();
    return { ours: () => layCourse(plan, NO_ADJUSTMENTS), times: 1 };
  },
};

export function checkAndLay(file: unknown): () => Course {
  return () => {
    const checked = checkPlan(file);
    if (!checked.ok) throw new Error('checkAndLay: the plan was refused');
    return layCourse(checked.value, NO_ADJUSTMENTS);
  };
}

/** Parsed and written again. */
function there(text: string): () => string {
  return () => JSON.stringify(JSON.parse(text));
}

type PickRow = ReturnType<typeof pickRows>[number];

/** Every end and every pick by itself. */
function expanded<T>(plan: Plan, pickOf: (letter: string, row: PickRow) => T) {
  const course = layCourse(plan, NO_ADJUSTMENTS);
  const letterOf = (row: PickRow) => plan.yarns[row.yarn ?? 0]?.letter ?? '';
  const ends = warpRuns(plan.warp.order).flatMap(({ of, count }) => new Array(count).fill(of));
  const pieces = course.pieces.map((piece) =>
    pickRows(course, piece, piece.firstPick, piece.firstPick + piece.picks).map((row) =>
      pickOf(letterOf(row), row),
    ),
  );
  return { ends, pieces };
}
