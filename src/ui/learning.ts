/**
 * What measured warps taught: read from the store when it is first wanted, kept anew whenever a
 * reading changes, and the allowances of every plan that is edited.
 */
import { signal } from '@preact/signals';
import { clothKindOf } from '../core/learn/clothKind.ts';
import { allowancesFrom, type Knowledge, knowledgeOf } from '../core/learn/knowledge.ts';
import type { LearntWarp } from '../core/learn/learntWarp.ts';
import { decodeLearntWarp } from '../core/learn/learntWarp.ts';
import { checkDraft } from '../core/plan/checkPlan.ts';
import type { Allowance, AllowanceName, Plan } from '../core/plan/plan.ts';
import { USUAL_ALLOWANCES } from '../core/planner/newPlan.ts';
import { guarded, now, theStore } from './actions.ts';

const KIND = 'learnt' as const;

/** Null until they were read. */
export const learntWarps = signal<readonly LearntWarp[] | null>(null);

let writing: Promise<unknown> = Promise.resolve();

/** Reads what is kept; what cannot be read is left where it is. */
export async function loadLearnt(): Promise<void> {
  await writing;
  const records = await theStore().records(KIND);
  learntWarps.value = records.flatMap(({ body }) => {
    const read = decodeLearntWarp(body);
    return read.ok ? [read.value] : [];
  });
}

/** Keeps what a warp taught in place of what was kept of it; null where it teaches nothing any more. */
export function keepLearnt(warp: string, learnt: LearntWarp | null): void {
  const others = learntWarps.peek()?.filter((it) => it.warp !== warp) ?? null;
  if (others !== null) learntWarps.value = learnt === null ? others : [...others, learnt];
  const work =
    learnt === null
      ? theStore().removeRecord(KIND, warp)
      : theStore().putRecord({ kind: KIND, id: warp, changedAt: now(), body: learnt });
  writing = guarded(work);
}

/** What is known of the cloth of a plan; null where nothing is, or it is no plan yet. */
export function knownOf(plan: Plan): Knowledge | null {
  const warps = learntWarps.value ?? [];
  if (warps.length === 0 || !checkDraft(plan).ok) return null;
  return knowledgeOf(clothKindOf(plan), warps);
}

/** The plan with the allowances its cloth is known to want; itself where they are those already. */
export function withLearnt(plan: Plan): Plan {
  const warps = learntWarps.peek();
  const isLearnt = Object.values(plan.allowances).some((it) => it.from.kind === 'washed');
  // Until they are read nothing is known to be unknown.
  if (warps === null || (warps.length === 0 && !isLearnt) || !checkDraft(plan).ok) return plan;
  const known = knowledgeOf(clothKindOf(plan), warps);
  const allowances = allowancesFrom(known, plan.allowances, USUAL_ALLOWANCES);
  const same = JSON.stringify(allowances) === JSON.stringify(plan.allowances);
  return same ? plan : { ...plan, allowances };
}

/** What is learnt of one share of a plan, whatever the plan has typed there; null where nothing is. */
export function learntAllowance(plan: Plan, name: AllowanceName): Allowance | null {
  const known = knownOf(plan);
  if (known === null) return null;
  const open = { ...plan.allowances, [name]: USUAL_ALLOWANCES[name] };
  const it = allowancesFrom(known, open, USUAL_ALLOWANCES)[name];
  return it.from.kind === 'washed' ? it : null;
}
