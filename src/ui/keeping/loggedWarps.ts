/** The warps whose log can be told in words. */
import type { LogEvent } from '../../core/bench/events.ts';
import { checkPlan } from '../../core/plan/checkPlan.ts';
import type { Plan } from '../../core/plan/plan.ts';
import { theStore } from '../actions.ts';

export interface LoggedWarp {
  readonly id: string;
  readonly name: string;
  readonly plan: Plan;
  readonly log: () => Promise<readonly LogEvent[]>;
}

export async function loggedWarps(): Promise<readonly LoggedWarp[]> {
  const store = theStore();
  const all = await Promise.all(
    (await store.warps()).map(async ({ id, name }): Promise<readonly LoggedWarp[]> => {
      const plan = checkPlan((await store.revisionsOf(id)).at(-1)?.plan);
      return plan.ok ? [{ id, name, plan: plan.value, log: () => store.eventsOf(id) }] : [];
    }),
  );
  return all.flat();
}
