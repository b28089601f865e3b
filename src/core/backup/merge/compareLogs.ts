/** How two copies of one log lie to each other. */
import type { EventId, LogEvent } from '../../bench/events.ts';

type Log = readonly LogEvent[];

/**
 * - `same`: both hold the same events.
 * - `ahead`: the first holds all of the second and more.
 * - `behind`: the second goes on where the first ends; `more` is what it adds, in its order.
 * - `apart`: each holds what the other has not. `from` is the first event only the second has,
 *   `common` the number of events both have.
 */
export type LogRelation =
  | { readonly kind: 'same' }
  | { readonly kind: 'ahead' }
  | { readonly kind: 'behind'; readonly more: Log }
  | { readonly kind: 'apart'; readonly common: number; readonly from: EventId };

/** Compares by ids: an id is one event wherever it lies. Takes time in proportion to both. */
export function compareLogs(here: Log, there: Log): LogRelation {
  const common = commonStart(here, there);
  if (common === there.length) return common === here.length ? SAME : AHEAD;
  if (common === here.length) return { kind: 'behind', more: there.slice(common) };
  return compareRest(here.slice(common), there.slice(common), common);
}

const SAME = { kind: 'same' } as const;
const AHEAD = { kind: 'ahead' } as const;

/** Copies of one log begin alike, so mostly this is all there is to compare. */
function commonStart(here: Log, there: Log): number {
  const most = Math.min(here.length, there.length);
  for (let n = 0; n < most; n++) if (here[n]?.id !== there[n]?.id) return n;
  return most;
}

function compareRest(here: Log, there: Log, before: number): LogRelation {
  const ours = new Set(here.map(({ id }) => id));
  const more = there.filter(({ id }) => !ours.has(id));
  const shared = there.length - more.length;
  const first = more[0];
  if (shared === here.length) return first === undefined ? SAME : { kind: 'behind', more };
  if (first === undefined) return AHEAD;
  return { kind: 'apart', common: before + shared, from: first.id };
}
