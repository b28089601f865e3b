/** A plan from outside becomes a warp: a demo, or a file. */
import type { PlanResult } from '../core/plan/checkPlan.ts';
import { LIMITS } from '../core/plan/limits.ts';
import { addWarp, checker, guarded, showWarps, weave } from './actions.ts';
import { say } from './messages.ts';
import { notice, refusal } from './state.ts';

export async function openDemo(plan: unknown): Promise<void> {
  const checked = (await checker()).checkPlan(plan);
  if (!checked.ok)
    throw new Error(`openDemo: the demo is not a plan: ${JSON.stringify(checked.problem)}`);
  await guarded(addWarp(checked.value, true).then((warp) => weave(warp.id)));
}

/** Opens a plan file: saved as a new warp, or refused with all its problems and nothing stored. */
export async function openPlanFile(file: File): Promise<void> {
  refusal.value = null;
  const read =
    file.size > LIMITS.fileBytes ? tooLarge() : (await checker()).readPlanText(await file.text());
  if (!read.ok) {
    refusal.value = { fileName: file.name, problems: read.problem };
    return;
  }
  const kept = await guarded(addWarp(read.value, false));
  await showWarps();
  if (kept) notice.value = say.opened(read.value.name);
}

function tooLarge(): PlanResult {
  return { ok: false, problem: [{ path: '', code: 'too-large', right: '2 MB' }] };
}
