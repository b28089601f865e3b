/** How the wishes were met: wished, forecast and real, side by side. */

import type { Mm, Units } from '../../../core/measure/length.ts';
import type { Plan } from '../../../core/plan/plan.ts';
import type { PieceMet, SizeMet } from '../../../core/planner/wishesMet.ts';
import { length } from '../../format.ts';
import { t } from '../../language/t.ts';
import { SizesHead } from '../../parts/sizesHead.tsx';
import { missWords, wishWords } from '../plan/missWords.ts';

export interface WishesProps {
  readonly plan: Plan;
  readonly met: readonly PieceMet[];
}

export function Wishes({ plan, met }: WishesProps) {
  const { units } = plan;
  return (
    <section class="wishes" aria-label={t('How the wishes were met')}>
      <h2>{t('How the wishes were met')}</h2>
      <table class="wishes-table">
        <SizesHead />
        {met.map((it) => (
          <tbody key={it.piece}>
            <SizeRow
              name={t(
                '{piece}, length {state, select, loom {on the loom} off {off the loom} washed {washed} other {finished}}',
                { piece: plan.pieces[it.piece]?.name ?? '', state: it.state },
              )}
              size={it.length}
              units={units}
            />
            <SizeRow name={t('Width washed')} size={it.width} units={units} />
            {it.fringe === null ? null : (
              <SizeRow name={t('Fringe')} size={it.fringe} units={units} />
            )}
          </tbody>
        ))}
      </table>
    </section>
  );
}

interface SizeRowProps {
  readonly name: string;
  readonly size: SizeMet;
  readonly units: Units;
}

function SizeRow({ name, size, units }: SizeRowProps) {
  const { wished, forecast, range, real } = size;
  const short = (mm: number) => length(mm, units);
  return (
    <tr>
      <th scope="row">{name}</th>
      <td data-of={t('Wished')}>{wished === null ? '–' : short(wished)}</td>
      <td data-of={t('Forecast')}>
        {short(forecast)}
        {range === null ? null : (
          <small>{t('{from} to {to}', { from: short(range.from), to: short(range.to) })}</small>
        )}
      </td>
      <td data-of={t('Real')}>
        {real === null ? t('not read') : <strong>{short(real)}</strong>}
        {real === null ? null : <small>{againstWords(real, size, units)}</small>}
      </td>
    </tr>
  );
}

function againstWords(real: Mm, { wished, forecast }: SizeMet, units: Units): string {
  const told = forecastWords(real - forecast, units);
  return wished === null ? told : `${wishWords(real - wished, units)}, ${told}`;
}

function forecastWords(miss: Mm, units: Units): string {
  if (missWords(miss, units) === missWords(0, units)) return t('as forecast');
  return miss > 0
    ? t('{length} over the forecast', { length: length(miss, units) })
    : t('{length} under the forecast', { length: length(-miss, units) });
}
