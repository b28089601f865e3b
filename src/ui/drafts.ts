/** Drafts on the shelf, as they are kept; who edits them is `planning.ts`, fetched when somebody plans. */
import { signal } from '@preact/signals';
import type { Plan } from '../core/plan/plan.ts';
import { theStore } from './actions.ts';

export const DRAFT_KIND = 'draft' as const;

export interface StoredDraft {
  readonly id: string;
  readonly changedAt: string;
  /** As it was typed: it need not be a plan yet. */
  readonly plan: Plan;
}

/** Those there were when the shelf was last looked at, the one changed last first. */
export const shelved = signal<readonly StoredDraft[]>([]);

/** What is still being written: a shelf is read behind it. */
export const writing: { now: Promise<void> | null } = { now: null };

/** Drafts on the shelf, the one changed last first. */
export async function drafts(): Promise<readonly StoredDraft[]> {
  await writing.now;
  const records = await theStore().records(DRAFT_KIND);
  // Most shelves are empty: what tells a draft from other things is fetched for one.
  if (records.length === 0) return [];
  const { isDraft } = await import('../core/plan/draftShape.ts');
  return records
    .flatMap(({ id, changedAt, body }) => (isDraft(body) ? [{ id, changedAt, plan: body }] : []))
    .sort((a, b) => b.changedAt.localeCompare(a.changedAt));
}

export async function lookAtShelf(): Promise<void> {
  shelved.value = await drafts();
}
