/** The picture in words. */

import type { ClothPlan } from '../../../core/planner/clothPlan.ts';
import { BARE, type ClothRows } from '../../../core/planner/clothRows.ts';
import { t } from '../../language/t.ts';

/** What the picture shows, for those who do not see it. */
export function clothWords({ plan, state, parts, ends }: ClothPlan): string {
  const pieces = new Set(parts.flatMap(({ bands }) => bands.map(({ piece }) => piece)));
  const [only] = pieces;
  const name =
    pieces.size === 1 && only !== undefined
      ? plan.pieces[only]?.name
      : t('{n} pieces', { n: pieces.size });
  const picks = parts.reduce((sum, { rows }) => sum + picksOf(rows), 0);
  return t(
    'The cloth of {name} {state, select, loom {on the loom} other {washed}}: {ends} ends, {picks} picks',
    { name: name ?? plan.name, state, ends: ends.length, picks },
  );
}

const picksOf = ({ sheds }: ClothRows) =>
  sheds.reduce((picks, shed) => picks + (shed === BARE ? 0 : 1), 0);
