/** Names of yarns, and of what will be due, as the bench says them. */
import type { Due } from '../../../core/bench/dues.ts';
import { MM_PER_INCH, type Mm } from '../../../core/measure/length.ts';
import type { Plan } from '../../../core/plan/plan.ts';
import { length, list } from '../../format.ts';
import { t } from '../../language/t.ts';

export const nameOf = (plan: Plan, yarn: number | null) =>
  yarn === null ? '' : (plan.yarns[yarn]?.name ?? '');
export const names = (plan: Plan, yarns: readonly number[]) =>
  list(yarns.map((yarn) => nameOf(plan, yarn)));

export const far = (plan: Plan, mm: number) => length(mm, plan.units, mm > 900 ? 'long' : 'short');

/** Nobody cuts a tail to the millimetre: rounded up to whole inches or 5 cm, lest it be too short. */
function tailOf({ units }: Plan, mm: Mm): Mm {
  const step = units === 'inch' ? MM_PER_INCH : 50;
  // A hair is no step: 56 in must not become 57.
  return Math.ceil(mm / step - 1e-6) * step;
}

/** A due in a few words. */
export function dueTitle(plan: Plan, due: Due): string {
  switch (due.kind) {
    case 'tail':
    case 'endTail':
      return t('Leave a tail of {length}', {
        length: length(tailOf(plan, due.length), plan.units),
      });
    case 'hemstitch':
      return t('Hemstitch the {edge, select, beginning {beginning} other {ending}}', {
        edge: due.edge,
      });
    case 'hemBegins':
      return t('Hem in {yarn}', { yarn: nameOf(plan, due.yarn) });
    case 'hemEnds':
      return t('The hem is woven');
    case 'lockEdge':
      return t('The edge end is not caught');
    case 'cutYarns':
      return t('Cut the yarns');
    case 'gap':
      return t('Leave a gap of {length}', { length: far(plan, due.length) });
    case 'cutOff':
      return t('All pieces are woven');
  }
}
