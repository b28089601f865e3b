// What the bench must show, worked out here in Node by the core alone.
import { readFileSync } from 'node:fs';
import { NO_ADJUSTMENTS } from '../../src/core/bench/adjustments.ts';
import { type Course, layCourse } from '../../src/core/bench/course.ts';
import type { ParkedShuttle } from '../../src/core/bench/parked.ts';
import { pickAt } from '../../src/core/bench/pickAt.ts';
import { checkPlan } from '../../src/core/plan/checkPlan.ts';
import { type Plan, SHED_WORDS } from '../../src/core/plan/plan.ts';
import type { DemoName, ShownCall } from './bench.ts';

export type ExpectedCall = Omit<ShownCall, 'spoken'>;

export function demoText(name: DemoName): string {
  return readFileSync(new URL(`../../src/demos/${name}.json`, import.meta.url), 'utf8');
}

export function demoPlan(name: DemoName): Plan {
  const checked = checkPlan(JSON.parse(demoText(name)));
  if (!checked.ok) throw new Error(`${name} is no plan: ${JSON.stringify(checked.problem)}`);
  return checked.value;
}

export function courseOf(plan: Plan): Course {
  return layCourse(plan, NO_ADJUSTMENTS);
}

/** The call before pick `pick` (from 0) of a course. */
export function expectedCall(course: Course, pick: number): ExpectedCall {
  const facts = pickAt(course, pick);
  if (facts === null) throw new Error(`got pick ${pick} of a course of ${course.picks}`);
  const { yarns, loom } = course.plan;
  const yarn = yarns[facts.yarn];
  const queue = (lying: readonly ParkedShuttle[]) =>
    lying.map((it) => `${yarns[it.yarn]?.letter}${it.state === 'working' ? '*' : ''}`).join(' ');
  return {
    letter: yarn?.letter ?? '',
    name: yarn?.name ?? '',
    pick: facts.stripe.done + 1,
    of: facts.stripe.picks,
    shed: SHED_WORDS[loom.kind][facts.shed] ?? '',
    from: facts.from,
    left: queue(facts.parked.left),
    right: queue(facts.parked.right),
  };
}
