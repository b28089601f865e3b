/** Yarn needed, on hand, and left over or short; and how many pieces more it would make. */

import { MM_PER_YARD, type Mm } from '../../../core/measure/length.ts';
import type { Plan } from '../../../core/plan/plan.ts';
import type { Amount, FurtherSheet, PlanSheet, YarnSheet } from '../../../core/planner/sheet.ts';
import { length } from '../../format.ts';
import { t } from '../../language/t.ts';
import { mass } from '../../mass.ts';
import { Swatch } from '../../parts/swatch.tsx';

export interface SumProps {
  readonly plan: Plan;
  readonly sheet: PlanSheet;
}

export function NeedsPart({ plan, sheet }: SumProps) {
  return (
    <section aria-label={t('Yarn')}>
      <h3>{t('Yarn')}</h3>
      <ul class="needs">
        {sheet.yarns.map((yarn) => (
          <NeedRow key={yarn.yarn} plan={plan} need={yarn} />
        ))}
      </ul>
      <p>
        {isByEye(plan)
          ? t('Weft of the parts by eye is not counted: keep enough of every yarn for it.')
          : furtherWords(plan, sheet.further[sheet.further.length - 1])}
      </p>
    </section>
  );
}

const isByEye = ({ pieces }: Plan) =>
  pieces.some(({ weft }) => weft.some((block) => block.kind === 'free'));

function NeedRow({ plan, need }: { readonly plan: Plan; readonly need: YarnSheet }) {
  const yarn = plan.yarns[need.yarn];
  if (yarn === undefined) return null;
  return (
    <li class="need" data-verdict={need.verdict}>
      <Swatch yarn={yarn} />
      <p>
        <strong>
          {t('{name}: {words}', { name: yarn.name, words: amountWords(plan, need.total) })}
        </strong>
        <span>{partsWords(plan, need)}</span>
        <span class="verdict">{leftWords(plan, need)}</span>
      </p>
    </li>
  );
}

function partsWords(plan: Plan, { warp, weft }: YarnSheet): string {
  const inWarp = t('warp {length} ({n, plural, one {# end} other {# ends}})', {
    length: long(plan, warp.length),
    n: warp.ends,
  });
  const inWeft = t('weft {length}', { length: long(plan, weft.length) });
  return [warp.ends > 0 ? inWarp : '', weft.length > 0 ? inWeft : '']
    .filter((words) => words !== '')
    .join(', ');
}

/** So many yards or metres and more are told whole: nobody measures yarn finer. */
const WHOLE_FROM = 10;

function long({ units }: Plan, mm: Mm): string {
  const whole = Math.round(mm / (units === 'inch' ? MM_PER_YARD : 1000));
  if (whole < WHOLE_FROM) return length(mm, units, 'long');
  // The number and its unit stay together on a line.
  return `${whole}\u00a0${units === 'inch' ? 'yd' : 'm'}`;
}

function amountWords(plan: Plan, { length: mm, grams }: Amount): string {
  return `${long(plan, mm)} · ${mass(grams, plan.units)}`;
}

function leftWords(plan: Plan, need: YarnSheet): string {
  if (need.verdict === 'unused') return t('not used');
  if (need.left === null) return t('on hand: not said');
  const { grams, length: mm } = need.left;
  const amount = amountWords(plan, { grams: Math.abs(grams), length: Math.abs(mm) });
  return need.verdict === 'short'
    ? t('short by {amount}', { amount })
    : t('{amount} left over', { amount });
}

function furtherWords(plan: Plan, further: FurtherSheet | undefined): string {
  if (further === undefined || further.more === null)
    return t('Say what is on hand to see how many pieces more it makes.');
  const name = plan.pieces[further.piece]?.name ?? '';
  const limit = plan.yarns[further.limitedBy ?? -1];
  const n = further.more;
  return limit === undefined
    ? t(
        '{n, plural, =0 {The yarn makes no piece more like {name}} one {The yarn makes # piece more like {name}, on a longer warp} other {The yarn makes # pieces more like {name}, on a longer warp}}.',
        { n, name },
      )
    : t(
        '{n, plural, =0 {The yarn makes no piece more like {name}} one {The yarn makes # piece more like {name}, on a longer warp} other {The yarn makes # pieces more like {name}, on a longer warp}}; {yarn} sets the limit.',
        { n, name, yarn: limit.name },
      );
}
