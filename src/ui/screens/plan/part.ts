import type { Plan } from '../../../core/plan/plan.ts';
import { draftProblems } from '../../draft.ts';

/** Every part of the Plan screen shows the plan as it stands and changes it through `editPlan`. */
export interface PartProps {
  readonly plan: Plan;
}

/** How many problems of the draft lie at or below one of these paths. */
export function problemsUnder(paths: readonly string[]): number {
  return draftProblems.value.filter(({ path }) =>
    paths.some((it) => path === it || path.startsWith(`${it}.`) || path.startsWith(`${it}[`)),
  ).length;
}
