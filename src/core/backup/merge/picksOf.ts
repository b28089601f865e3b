import { progressOf } from '../../bench/progress.ts';
import { checkPlan } from '../../plan/checkPlan.ts';
import type { WarpContents } from '../contents.ts';

/** Picks in the cloth; null when this version cannot read the plan. Folds the whole log. */
export function picksOf({ plans, log }: WarpContents): number | null {
  const plan = checkPlan(plans.at(-1)?.plan);
  return plan.ok ? progressOf(plan.value, log).pick : null;
}
