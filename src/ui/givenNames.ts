/** Names the app gives by itself to what is new, in the reader's language. They are stored as they were given. */

import { LIMITS } from '../core/plan/limits.ts';
import type { Letter, Plan, Yarn } from '../core/plan/plan.ts';
import { anotherYarn } from '../core/planner/nextYarn.ts';
import { samplePlan } from '../core/planner/samplePlan.ts';
import { t } from './language/t.ts';

const YARNS: Readonly<Record<string, string>> = {
  natural: t('natural'),
  chalk: t('chalk'),
  moss: t('moss'),
  rust: t('rust'),
  ink: t('ink'),
  ochre: t('ochre'),
  slate: t('slate'),
};

const named = (yarn: Yarn): Yarn => ({ ...yarn, name: YARNS[yarn.name] ?? yarn.name });

/** The yarns a plan begins with. */
export const namedYarns = (yarns: readonly Yarn[]): readonly Yarn[] => yarns.map(named);

/** Another yarn for these, as `anotherYarn` finds it. */
export const freshYarn = (yarns: readonly Yarn[], letter: Letter): Yarn =>
  named(anotherYarn(yarns, letter));

/** A plan to begin with, as `newPlan` makes it. */
export const freshPlan = (plan: Plan): Plan => ({
  ...plan,
  name: t('New warp'),
  yarns: namedYarns(plan.yarns),
  pieces: plan.pieces.map((piece, i) => ({ ...piece, name: t('Piece {n}', { n: i + 1 }) })),
});

/** The small warp to be washed first, as `samplePlan` makes it. */
export function freshSample(plan: Plan): Plan {
  const sample = samplePlan(plan);
  return {
    ...sample,
    name: t('{name}, sample', { name: plan.name.slice(0, LIMITS.name - SPARE) }),
    pieces: sample.pieces.map((piece) => ({ ...piece, name: t('Sample') })),
  };
}

/** Room for what is put behind the name of a plan. */
const SPARE = 16;
