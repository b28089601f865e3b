/**
 * The plan being edited. A draft is kept as it is typed, weavable or not; only `checkPlan` says
 * whether it may go on the loom. Every edit can be undone, across the whole plan.
 */
import { computed, signal } from '@preact/signals';
import { checkDraft } from '../core/plan/checkPlan.ts';
import type { Plan } from '../core/plan/plan.ts';
import type { Problem } from '../core/plan/problems.ts';

export interface Draft {
  readonly id: string;
  readonly plan: Plan;
  readonly past: readonly Plan[];
  readonly future: readonly Plan[];
  /** What the last edit was about: edits of one field in a row are one step back. */
  readonly about: string | null;
}

export const draft = signal<Draft | null>(null);

export const checkedDraft = computed(() => {
  const plan = draft.value?.plan;
  return plan === undefined ? null : checkDraft(plan);
});

/** The very same list each time, so that nobody is told of it again. */
const NO_PROBLEMS: readonly Problem[] = [];

export const draftProblems = computed<readonly Problem[]>(() => {
  const checked = checkedDraft.value;
  return checked === null || checked.ok ? NO_PROBLEMS : checked.problem;
});

/** The draft where it can be computed: a checked plan, or one whose only fault is its width. */
const computable = computed<Plan | null>(() => {
  const checked = checkedDraft.value;
  if (checked === null) return null;
  if (checked.ok) return checked.value;
  // By how much it is too wide is just what the weaver wants to know.
  const tooWide = checked.problem.every(({ code }) => code === 'wider-than-loom');
  return tooWide ? (draft.value?.plan ?? null) : null;
});

/** Whether the figures in sight are of an earlier state, because a field is wrong now. */
export const isStale = computed(() => computable.value === null);

/** The last state of the draft that could be computed: its numbers stay in sight while a field is wrong. */
export const goodPlan = computed(lastGood());

function lastGood(): () => Plan | null {
  let good: Plan | null = null;
  let of: string | null = null;
  return () => {
    const now = draft.value;
    if (now === null || now.id !== of) good = null;
    of = now?.id ?? null;
    good = computable.value ?? good;
    return good;
  };
}

/** How many steps back are kept. */
const DEEPEST = 200;

export function edited(now: Draft, plan: Plan, about: string | null): Draft {
  if (plan === now.plan) return now;
  const sameField = about !== null && about === now.about;
  const past = sameField ? now.past : [...now.past, now.plan].slice(-DEEPEST);
  return { ...now, plan, past, future: [], about };
}

export function undone(now: Draft): Draft {
  const plan = now.past[now.past.length - 1];
  if (plan === undefined) return now;
  return {
    ...now,
    plan,
    past: now.past.slice(0, -1),
    future: [now.plan, ...now.future],
    about: null,
  };
}

export function redone(now: Draft): Draft {
  const plan = now.future[0];
  if (plan === undefined) return now;
  return { ...now, plan, past: [...now.past, now.plan], future: now.future.slice(1), about: null };
}
