/** How the yarns of a step come and go, in words; yarns that do the same share a sentence. */

import type { Letter } from '../../../core/plan/plan.ts';
import type { YarnJoin } from '../../../core/plan/warping/list.ts';
import { list as sentence } from '../../format.ts';
import { t } from '../../language/t.ts';

type NameOf = (letter: Letter) => string;

export function joinWords(joins: readonly YarnJoin[], name: NameOf): readonly string[] {
  return [...begins(joins, name), ...ends(joins, name)];
}

function begins(joins: readonly YarnJoin[], name: NameOf): readonly string[] {
  const tied = joins.filter((join) => join.begins.kind === 'tie-on').map((join) => name(join.yarn));
  const picked = joins.flatMap(({ yarn, begins }) =>
    begins.kind === 'pick-up'
      ? [t('Pick {yarn} up again behind slot {slot}.', { yarn: name(yarn), slot: begins.from + 1 })]
      : [],
  );
  return [
    ...(tied.length === 0 ? [] : [t('Tie {yarns} to the back beam.', { yarns: sentence(tied) })]),
    ...picked,
  ];
}

function ends(joins: readonly YarnJoin[], name: NameOf): readonly string[] {
  const dropped = joins.flatMap(({ yarn, ends }) =>
    ends.kind === 'drop'
      ? [
          t('Then drop {yarn}, wanted again at slot {slot}.', {
            yarn: name(yarn),
            slot: ends.until + 1,
          }),
        ]
      : [],
  );
  const cut = joins.filter((join) => join.ends.kind === 'cut').map((join) => name(join.yarn));
  return [
    ...dropped,
    ...(cut.length === 0
      ? []
      : [t('Then cut {yarns} and tie to the back beam.', { yarns: sentence(cut) })]),
  ];
}
