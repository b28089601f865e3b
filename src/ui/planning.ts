/** What the Plan screen does: every edit is kept at once, weavable or not. */
import { batch } from '@preact/signals';
import type { Plan } from '../core/plan/plan.ts';
import { newPlan } from '../core/planner/newPlan.ts';
import { addWarp, guarded, newId, now, showWarps, theStore, weave } from './actions.ts';
import { checkedDraft, type Draft, draft, edited, redone, undone } from './draft.ts';
import { screen, settings } from './state.ts';

const KIND = 'draft' as const;

export interface StoredDraft {
  readonly id: string;
  readonly changedAt: string;
  /** As it was typed: it need not be a plan yet. */
  readonly plan: Plan;
}

/** Drafts on the shelf, the one changed last first. */
export async function drafts(): Promise<readonly StoredDraft[]> {
  const records = await theStore().records(KIND);
  return records
    .map(({ id, changedAt, body }) => ({ id, changedAt, plan: body as Plan }))
    .sort((a, b) => b.changedAt.localeCompare(a.changedAt));
}

export function startDraft(plan?: Plan): void {
  const from = plan ?? newPlan(settings.peek().units, 'rigid-heddle');
  show({ id: newId(), plan: from, past: [], future: [], about: null });
  save();
}

/** Planning from a warp already there: its plan as it stands, under a name of its own. */
export async function planAnother(warp: string): Promise<void> {
  const revisions = await theStore().revisionsOf(warp);
  const plan = revisions[revisions.length - 1]?.plan as Plan | undefined;
  if (plan !== undefined) startDraft({ ...plan, name: `${plan.name}, again` });
}

export async function openDraft(id: string): Promise<void> {
  const record = await theStore().record(KIND, id);
  if (record !== undefined) {
    show({ id, plan: record.body as Plan, past: [], future: [], about: null });
  }
}

function show(next: Draft): void {
  batch(() => {
    draft.value = next;
    screen.value = { kind: 'plan' };
  });
}

/** Changes the plan; edits with the same `about` in a row are one step to undo. */
export function editPlan(change: (plan: Plan) => Plan, about: string | null = null): void {
  const at = draft.peek();
  if (at === null) return;
  draft.value = edited(at, change(at.plan), about);
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

/** Writes follow each other: while one is on its way only the latest state waits behind it. */
let writing = false;
let waiting = false;

function save(): void {
  if (writing) {
    waiting = true;
    return;
  }
  const at = draft.peek();
  if (at === null) return;
  writing = true;
  const record = { kind: KIND, id: at.id, changedAt: now(), body: at.plan };
  void guarded(theStore().putRecord(record)).finally(() => {
    writing = false;
    if (waiting) {
      waiting = false;
      save();
    }
  });
}

export async function removeDraft(id: string): Promise<void> {
  await guarded(theStore().removeRecord(KIND, id));
  await showWarps();
}

/** A draft that is a plan becomes a warp of its own; the draft has done its work. */
export async function putOnLoom(): Promise<void> {
  const at = draft.peek();
  const checked = checkedDraft.peek();
  if (at === null || checked === null || !checked.ok) return;
  const warp = await addWarp(checked.value, false);
  await guarded(theStore().removeRecord(KIND, at.id));
  draft.value = null;
  await weave(warp.id);
}
