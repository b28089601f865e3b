/** How the wishes were met: wished, forecast and real, side by side. */
import type { Mm, Units } from '../../../core/measure/length.ts';
import type { Plan } from '../../../core/plan/plan.ts';
import type { PieceMet, SizeMet } from '../../../core/planner/wishesMet.ts';
import { length } from '../../format.ts';
import { missWords, wishWords } from '../plan/missWords.ts';
import { WISH_WORDS } from './words.ts';

export interface WishesProps {
  readonly plan: Plan;
  readonly met: readonly PieceMet[];
}

export function Wishes({ plan, met }: WishesProps) {
  const { units } = plan;
  return (
    <section class="wishes" aria-label="How the wishes were met">
      <h2>How the wishes were met</h2>
      <table class="wishes-table">
        <thead>
          <tr>
            <td />
            <th scope="col">Wished</th>
            <th scope="col">Forecast</th>
            <th scope="col">Real</th>
          </tr>
        </thead>
        {met.map((it) => (
          <tbody key={it.piece}>
            <SizeRow
              name={`${plan.pieces[it.piece]?.name ?? ''}, length ${WISH_WORDS[it.state]}`}
              size={it.length}
              units={units}
            />
            <SizeRow name="Width washed" size={it.width} units={units} />
            {it.fringe === null ? null : <SizeRow name="Fringe" size={it.fringe} units={units} />}
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
      <td data-of="Wished">{wished === null ? '–' : short(wished)}</td>
      <td data-of="Forecast">
        {short(forecast)}
        {range === null ? null : <small>{`${short(range.from)} to ${short(range.to)}`}</small>}
      </td>
      <td data-of="Real">
        {real === null ? 'not read' : <strong>{short(real)}</strong>}
        {real === null ? null : <small>{againstWords(real, size, units)}</small>}
      </td>
    </tr>
  );
}

function againstWords(real: Mm, { wished, forecast }: SizeMet, units: Units): string {
  const against = missWords(real - forecast, units);
  const told = against === 'as wished' ? 'as forecast' : `${against} the forecast`;
  return wished === null ? told : `${wishWords(real - wished, units)}, ${told}`;
}
