/** The picture in words. */

import type { ClothPlan } from '../../../core/planner/clothPlan.ts';
import { BARE, type ClothRows } from '../../../core/planner/clothRows.ts';
import { t } from '../../language/t.ts';

/** What the picture shows, for those who do not see it. */
export function clothWords({ plan, state, parts, ends }: ClothPlan): string {
  const pieces = new Set(parts.flatMap(({ bands }) => bands.map(({ piece }) => piece)));
  const [only] = pieces;
  const name =
    pieces.size === 1 && only !== undefined ? plan.pieces[only]?.name : `${pieces.size} pieces`;
  const picks = parts.reduce((sum, { rows }) => sum + picksOf(rows), 0);
  const as = state === 'loom' ? t('on the loom') : 'washed';
  return `The cloth of ${name ?? plan.name} ${as}: ${ends.length} ends, ${picks} picks`;
}

const picksOf = ({ sheds }: ClothRows) =>
  sheds.reduce((picks, shed) => picks + (shed === BARE ? 0 : 1), 0);
