/** A file the weaver chose, of whatever kind, and the demos. */
import { BACKUP_FORMAT } from '../core/backup/file/backupFile.ts';
import { formatOf } from '../core/backup/file/formatOf.ts';
import type { PlanResult } from '../core/plan/checkPlan.ts';
import { LIMITS } from '../core/plan/limits.ts';
import { PLAN_FORMAT, type Plan } from '../core/plan/plan.ts';
import { addWarp, guarded, showKeepSafe, showWarps, weave } from './actions.ts';
import { checker } from './loading.ts';
import { say } from './messages.ts';
import { notice, refusal } from './state.ts';

/** What the rescue page saves; its reader is loaded when it is used. */
const RESCUE_FORMAT = 'fellmark-rescue';

/** Bytes that are enough to tell what a file is. */
const HEAD = 16_384;

/** A demo's plan becomes a warp, with the names it is given. */
export async function openDemo(plan: unknown, named: (plan: Plan) => Plan): Promise<void> {
  const checked = (await checker()).checkPlan(plan);
  if (!checked.ok)
    throw new Error(`openDemo: the demo is not a plan: ${JSON.stringify(checked.problem)}`);
  await guarded(addWarp(named(checked.value), true).then((warp) => weave(warp.id)));
}

/**
 * A plan becomes a warp; a backup is looked at first, wherever the file was chosen. What does not say
 * what it is is taken for what was asked for there.
 */
export async function openFile(file: File, wanted: 'plan' | 'backup'): Promise<void> {
  const format = formatOf(await file.slice(0, HEAD).text());
  const isOurs = format === BACKUP_FORMAT || format === RESCUE_FORMAT;
  const is = isOurs ? 'backup' : format === PLAN_FORMAT ? 'plan' : wanted;
  if (is === 'plan') return openPlanFile(file);
  const { lookAtFile } = await import('./keeping/comingIn.ts');
  await lookAtFile(file);
  showKeepSafe();
}

/** Opens a plan file: saved as a new warp, or refused with all its problems and nothing stored. */
async function openPlanFile(file: File): Promise<void> {
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
