/** The same heddle counted over an inch or over 10 cm. */
import type { Dents } from '../plan/plan.ts';

/**
 * The counts a form begins with, per inch and per 10 cm: the trade sells a 10 per inch as 40 per
 * 10 cm and a 12.5 as 50 (common practice, no source).
 */
const BEGUN_WITH = [
  { inch: 10, '10cm': 40 },
  { inch: 12.5, '10cm': 50 },
] as const;

/**
 * Dents counted over the other width. A number somebody typed stays, for it may have been typed
 * before the width was chosen; the one the form began with becomes its counterpart: 40 per 10 cm →
 * 10 per inch, not 40.
 */
export function countedPer({ count, per, made }: Dents, next: Dents['per']): Dents {
  const pair = made === undefined ? BEGUN_WITH.find((it) => it[per] === count) : undefined;
  const counted = { count: pair?.[next] ?? count, per: next };
  return made === undefined ? counted : { ...counted, made };
}
