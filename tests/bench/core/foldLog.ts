/** Folding a whole log into progress, against only reading the same log as JSON. */
import { progressOf } from '../../../src/core/bench/progress.ts';
import { wovenUntil } from '../samples.ts';
import { largePlan } from './layPlan.ts';
import type { Pair } from './pair.ts';

export const EVENTS = 100_000;

export const foldLog: Pair = {
  what: `fold of ${EVENTS.toLocaleString('en')} events`,
  against: '`JSON.parse` of the same log',
  unit: 'ms',
  limits: [{ kind: 'ratio', most: 2 }],
  prepare: () => {
    const { plan, log } = wovenUntil(largePlan(), (_, events) => events >= EVENTS);
    const text = JSON.stringify(log);
    return { ours: () => progressOf(plan, log), floor: () => JSON.parse(text), times: 1 };
  },
};
