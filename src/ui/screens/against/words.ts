/** Planned against woven, in words. */

import type {
  Amount,
  BlockAgainstPlan,
  Change,
  PieceAgainstPlan,
} from '../../../core/journal/againstPlan/againstPlan.ts';
import type { Mm, Units } from '../../../core/measure/length.ts';
import { length } from '../../format.ts';
import { t } from '../../language/t.ts';

const PLAIN: Readonly<Record<Exclude<Change, 'longer' | 'shorter'>, string>> = {
  asPlanned: t('As planned'),
  other: t('As many picks, but others'),
  byEye: t('Woven by eye'),
  leftOut: t('Left out'),
  added: t('Not in the plan'),
  here: t('Being woven'),
  toCome: t('To come'),
};

/** `4 picks more, 1 cm longer` */
export function changeWords(row: BlockAgainstPlan, units: Units): string {
  const { change, planned, woven } = row;
  if (change !== 'longer' && change !== 'shorter' && change !== 'asPlanned') return PLAIN[change];
  if (planned === null || woven === null) return '';
  const off = differenceWords(planned, woven, units);
  return off === ''
    ? PLAIN.asPlanned
    : change === 'asPlanned'
      ? t('As planned, {off}', { off })
      : off;
}

/** Empty where both are the same to the eye of a ruler. */
export function differenceWords(planned: Amount, woven: Amount, units: Units): string {
  const picks = woven.picks - planned.picks;
  const words = [
    ...(picks === 0 ? [] : [morePicks(picks)]),
    ...lengthOff(woven.loomLength - planned.loomLength, units),
  ];
  return words.join(', ');
}

function morePicks(off: number): string {
  const n = Math.abs(off);
  return off > 0
    ? t('{n, plural, one {# pick} other {# picks}} more', { n })
    : t('{n, plural, one {# pick} other {# picks}} fewer', { n });
}

function lengthOff(mm: Mm, units: Units): readonly string[] {
  const words = length(Math.abs(mm), units);
  if (words === length(0, units)) return [];
  return [mm > 0 ? t('{far} longer', { far: words }) : t('{far} shorter', { far: words })];
}

export function amountWords({ picks, loomLength }: Amount, units: Units): string {
  return t('{n, plural, one {# pick} other {# picks}}, {long}', {
    n: picks,
    long: length(loomLength, units),
  });
}

const STATES: Readonly<Record<PieceAgainstPlan['state'], string>> = {
  done: t('Woven'),
  begun: t('On the loom'),
  toCome: t('Not begun'),
  dropped: t('Left out of the plan'),
};

/** How the whole piece came out, in a line or two. */
export function pieceWords(piece: PieceAgainstPlan, units: Units): readonly string[] {
  const { planned, woven, state, takenOut } = piece;
  const off = planned === null || state !== 'done' ? '' : differenceWords(planned, woven, units);
  const same = planned !== null && state === 'done' ? t('as planned') : '';
  const result = off === '' ? same : off;
  return [
    result === '' ? `${STATES[state]}.` : t('{state}: {result}.', { state: STATES[state], result }),
    ...(planned === null ? [t('It was not in the plan.')] : []),
    ...(takenOut === 0
      ? []
      : [
          t('{n, plural, one {# pick was} other {# picks were}} taken out on the way.', {
            n: takenOut,
          }),
        ]),
  ];
}

/** What a block is beside the weft; empty for the weft itself. */
export function roleWords({ role }: BlockAgainstPlan): string {
  if (role === 'hem') return t('Hem');
  return role === 'zigzag' || role === 'plain' ? t('Seam allowance') : '';
}
