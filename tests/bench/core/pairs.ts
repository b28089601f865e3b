/** Every row of the core. A new one is a file beside this and a line here. */
import { foldLog } from './foldLog.ts';
import { GROWTH } from './growth.ts';
import { layOnly, layPlan, layPlanLetters } from './layPlan.ts';
import { mergeApart, mergeBranch, mergeContinued } from './mergeLogs.ts';
import type { Pair } from './pair.ts';
import { pickFacts } from './pickFacts.ts';

export const PAIRS = {
  layPlan,
  layPlanLetters,
  layOnly,
  pickFacts,
  foldLog,
  mergeBranch,
  mergeApart,
  mergeContinued,
  ...GROWTH,
} as const satisfies Readonly<Record<string, Pair>>;
