import type { Plan } from '../../plan/plan.ts';
import type { Revision } from './ending.ts';

/** The plan with a revision adopted; not checked. */
export function planWith(plan: Plan, { from, pieces }: Revision): Plan {
  return { ...plan, pieces: [...plan.pieces.slice(0, from), ...pieces] };
}
