/** A plan that came by a link or a code: looked at first, kept only when the weaver says so. */
import type { Plan } from '../core/plan/plan.ts';
import { addWarp, guarded, showWarps } from './actions.ts';
import { clearFragment } from './device/address.ts';
import { say } from './messages.ts';
import { keepAsDraft } from './planning.ts';
import { arrival, notice } from './state.ts';
import { planFromLink } from './travelling.ts';

/** Offers the plan in a link, or says what is wrong with the link. Stores nothing. */
export async function arrive(link: string): Promise<void> {
  const read = await planFromLink(link);
  arrival.value = read.ok
    ? { kind: 'plan', plan: read.value }
    : { kind: 'refused', problem: read.problem };
}

export function sendAway(): void {
  arrival.value = null;
  clearFragment();
}

/** A warp of its own beside the others, not yet on the loom. */
export async function keepWarp(plan: Plan): Promise<void> {
  if (!(await guarded(addWarp(plan, false)))) return;
  sendAway();
  await showWarps();
  notice.value = say.opened(plan.name);
}

/** Into the planner, to be changed before it goes on the loom. */
export async function keepDraft(plan: Plan): Promise<void> {
  if (await keepAsDraft(plan)) sendAway();
}
