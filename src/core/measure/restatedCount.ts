import { type CountSystem, countIn, texOf, type YarnCount } from './yarnCount.ts';

/** As many figures as a label prints: 3 360 yd/lb, 19.7 cotton. */
const FIGURES = 4;

/**
 * The same yarn counted in another system, unplied and rounded to four figures: cotton 8/2 → 3360
 * yd/lb, 677.3 m per 100 g. In its own system a count stays as it is.
 */
export function restatedCount(count: YarnCount, system: CountSystem): YarnCount {
  if (count.system === system) return count;
  const number = Number(countIn(system, texOf(count)).toPrecision(FIGURES));
  return { system, number, plies: 1 };
}
