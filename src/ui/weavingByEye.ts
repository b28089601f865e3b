/** A warp without a plan: on the loom at once, to be woven by eye. */
import { checkPlan } from '../core/plan/checkPlan.ts';
import type { Plan } from '../core/plan/plan.ts';
import type { Problem } from '../core/plan/problems.ts';
import { type ByEyeWarp, byEyePlan } from '../core/planner/byEye/byEyePlan.ts';
import { addWarp, guarded, weave } from './actions.ts';
import { withLearnt } from './learning.ts';

/** Its plan, worked out with what was learnt of its cloth, if anything was. */
export function planByEye(warp: ByEyeWarp): Plan {
  return byEyePlan(warp, withLearnt(byEyePlan(warp)).allowances);
}

let isPutting = false;

/** Puts it on the loom and on the bench, once however often the button is tapped; answers what is wrong with it. */
export async function weaveByEye(warp: ByEyeWarp): Promise<readonly Problem[]> {
  const checked = checkPlan(planByEye(warp));
  if (!checked.ok) return checked.problem;
  if (isPutting) return [];
  isPutting = true;
  try {
    const adding = addWarp(checked.value, false);
    if (await guarded(adding)) await weave((await adding).id);
  } finally {
    isPutting = false;
  }
  return [];
}
