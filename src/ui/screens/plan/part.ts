import type { Plan } from '../../../core/plan/plan.ts';

/** Every part of the Plan screen shows the plan as it stands and changes it through `editPlan`. */
export interface PartProps {
  readonly plan: Plan;
}
