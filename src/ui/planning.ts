/** What the Plan screen does: every edit is kept at once, weavable or not. */

import { batch } from '@preact/signals';
import { checkDraft } from '../core/plan/checkPlan.ts';
import { isDraft } from '../core/plan/draftShape.ts';
import type { Plan } from '../core/plan/plan.ts';
import { type OnShelf, planForShelf, withOnHand } from '../core/planner/forShelf.ts';
import { newPlan } from '../core/planner/newPlan.ts';
import { addWarp, guarded, newId, now, openWarping, showWarps, theStore } from './actions.ts';
import { nextTask } from './device/nextTask.ts';
import { checkedDraft, type Draft, draft, edited, redone, undone } from './draft.ts';
import { DRAFT_KIND, writing } from './drafts.ts';
import { freshPlan, freshSample } from './givenNames.ts';
import { t } from './language/t.ts';
import { loadLearnt, withLearnt } from './learning.ts';
import { gramsLeft, heddleShelf, loadShelf, yarnShelf } from './shelf.ts';
import { notice, screen, settings } from './state.ts';

/** A plan to begin with, for what lies on the shelf and by what was learnt, if these can be read. */
export async function beginPlanning(): Promise<void> {
  await Promise.all([loadLearnt().catch(() => undefined), loadShelf()]);
  startDraft();
}

/** Kept from the first edit on: who only looks leaves nothing behind. */
export function startDraft(plan?: Plan): void {
  show({ id: newId(), plan: plan ?? startingPlan(), past: [], future: [], about: null });
}

/** Its sizes are worked out with what was learnt of its cloth, if anything was. */
function startingPlan(): Plan {
  const { units } = settings.peek();
  const usual = forShelf(newPlan(units, 'rigid-heddle'));
  const plan = newPlan(units, 'rigid-heddle', withLearnt(usual).allowances);
  return forShelf(freshPlan(plan));
}

const forShelf = (plan: Plan): Plan => planForShelf(plan, heddleShelf.peek(), onShelf());

const onShelf = (): readonly OnShelf[] =>
  yarnShelf.peek().map((yarn) => ({ yarn, left: gramsLeft(yarn) }));

/** A plan from elsewhere becomes a draft at once: unlike an empty one it would be missed. */
export async function keepAsDraft(plan: Plan): Promise<boolean> {
  const id = newId();
  const kept = await guarded(
    theStore().putRecord({ kind: DRAFT_KIND, id, changedAt: now(), body: plan }),
  );
  if (kept) show({ id, plan, past: [], future: [], about: null });
  return kept;
}

/** Planning from a warp already there: its plan as it stands, under a name of its own, with what is left of its yarns. */
export async function planAnother(warp: string): Promise<void> {
  const [revisions] = await Promise.all([theStore().revisionsOf(warp), loadShelf()]);
  const plan = revisions[revisions.length - 1]?.plan as unknown;
  if (!isDraft(plan)) return;
  startDraft(withOnHand({ ...plan, name: t('{name}, again', { name: plan.name }) }, onShelf()));
}

/** A small warp of the same cloth, to be washed and measured first; the plan itself is kept. */
export function planSample(): void {
  const at = draft.peek();
  if (at === null || !checkDraft(at.plan).ok) return;
  save();
  startDraft(freshSample(at.plan));
}

export async function openDraft(id: string): Promise<void> {
  await writing.now;
  const record = await theStore().record(DRAFT_KIND, id);
  if (record !== undefined && isDraft(record.body)) {
    show({ id, plan: record.body, past: [], future: [], about: null });
  }
}

function show(next: Draft): void {
  batch(() => {
    draft.value = next;
    screen.value = { kind: 'plan' };
    notice.value = null;
  });
  void loadLearnt().then(() => startFromLearnt(next));
}

/** What was learnt stands in a plan from its first sight on; it is no edit, and nothing to undo. */
function startFromLearnt(shown: Draft): void {
  const at = draft.peek();
  if (at?.id === shown.id && at.past.length === 0)
    draft.value = { ...at, plan: withLearnt(at.plan) };
}

/** Changes the plan; edits with the same `about` in a row are one step to undo. */
export function editPlan(change: (plan: Plan) => Plan, about: string | null = null): void {
  const at = draft.peek();
  if (at === null) return;
  draft.value = edited(at, withLearnt(change(at.plan)), about);
  save();
}

export function undoEdit(): void {
  const at = draft.peek();
  if (at === null) return;
  draft.value = undone(at);
  save();
}

export function redoEdit(): void {
  const at = draft.peek();
  if (at === null) return;
  draft.value = redone(at);
  save();
}

/** States not yet written, by draft; of what is typed while a write is under way only the latest. */
const unsaved = new Map<string, Draft>();

function save(): void {
  const at = draft.peek();
  if (at === null) return;
  unsaved.set(at.id, at);
  writing.now ??= writeAll();
}

/** After the edit is shown: copying a large plan for the store takes as long as laying it. */
async function writeAll(): Promise<void> {
  await nextTask();
  for (let at = firstUnsaved(); at !== undefined; at = firstUnsaved()) {
    unsaved.delete(at.id);
    const record = { kind: DRAFT_KIND, id: at.id, changedAt: now(), body: at.plan };
    await guarded(theStore().putRecord(record));
  }
  writing.now = null;
}

const firstUnsaved = () => unsaved.values().next().value;

export async function removeDraft(id: string): Promise<void> {
  await forget(id);
  await showWarps();
}

/** A write still on its way would bring a removed draft back. */
async function forget(id: string): Promise<void> {
  unsaved.delete(id);
  await writing.now;
  await guarded(theStore().removeRecord(DRAFT_KIND, id));
}

let isPutting = false;

/**
 * A draft that is a plan becomes a warp of its own, once however often the button is tapped; the
 * draft has then done its work. Next comes the warping list. Where the warp cannot be kept the draft stays.
 */
export async function putOnLoom(): Promise<void> {
  const at = draft.peek();
  const checked = checkedDraft.peek();
  if (isPutting || at === null || checked === null || !checked.ok) return;
  isPutting = true;
  try {
    const adding = addWarp(checked.value, false);
    if (!(await guarded(adding))) return;
    await forget(at.id);
    await openWarping((await adding).id);
    draft.value = null;
  } finally {
    isPutting = false;
  }
}
