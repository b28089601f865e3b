/** What is computed of the draft, once for all who show it. */
import { computed } from '@preact/signals';
import { type Reading, readingsOf } from '../../../core/planner/reads.ts';
import { type PlanSheet, sheetOf } from '../../../core/planner/sheet.ts';
import { goodPlan } from '../../draft.ts';

/** Of the last state that could be computed; null before there was one. */
export const goodSheet = computed<PlanSheet | null>(() => {
  const plan = goodPlan.value;
  return plan === null ? null : sheetOf(plan);
});

/** How the colours that take turns read, one entry a pair of yarns: where it reads worst. */
export const goodReadings = computed<readonly Reading[]>(() => {
  const plan = goodPlan.value;
  return plan === null ? [] : worstOfPairs(readingsOf(plan));
});

const ORDER = ['vanishes', 'soft', 'clear'] as const;

function worstOfPairs(readings: readonly Reading[]): readonly Reading[] {
  const worst = new Map<string, Reading>();
  for (const it of readings) {
    const known = worst.get(it.yarns.join());
    if (known === undefined || ORDER.indexOf(it.verdict) < ORDER.indexOf(known.verdict)) {
      worst.set(it.yarns.join(), it);
    }
  }
  return [...worst.values()];
}
