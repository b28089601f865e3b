/** What must not be overlooked although the plan could be woven: in sight even where the figures are folded. */

import { t } from '../../language/t.ts';
import { mass } from '../../mass.ts';
import { goodReadings } from './figures.ts';
import type { SumProps } from './sumNeeds.tsx';

export function Alarms({ plan, sheet }: SumProps) {
  const name = (yarn: number) => plan.yarns[yarn]?.name ?? '';
  const short = sheet.yarns.flatMap(({ verdict, yarn, left }) =>
    verdict === 'short' && left !== null
      ? [
          t('{yarn} is short by {mass}', {
            yarn: name(yarn),
            mass: mass(-left.grams, plan.units),
          }),
        ]
      : [],
  );
  const vanishing = goodReadings.value
    .filter(({ verdict }) => verdict === 'vanishes')
    .map(({ yarns: [one, other] }) =>
      t('{one} and {other} will not read apart', { one: name(one), other: name(other) }),
    );
  const alarms = [...short, ...vanishing];
  if (alarms.length === 0) return null;
  return (
    <ul class="alarms">
      {alarms.map((words) => (
        <li key={words}>{words}</li>
      ))}
    </ul>
  );
}
