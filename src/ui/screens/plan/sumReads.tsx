/** Whether two colours that take turns can be told apart, before they are woven. */

import { t } from '../../language/t.ts';
import { goodReadings } from './figures.ts';
import type { PartProps } from './part.ts';

export function ReadsPart({ plan }: PartProps) {
  const readings = goodReadings.value;
  if (readings.length === 0) return null;
  const name = (yarn: number) => plan.yarns[yarn]?.name ?? '';
  return (
    <section aria-label={t('Will it read')}>
      <h3>{t('Will it read?')}</h3>
      <ul class="plain">
        {readings.map((it) => (
          <li key={it.yarns.join()} class={it.verdict === 'vanishes' ? 'wrong' : ''}>
            {t(
              '{one} and {other} {verdict, select, clear {read clearly} soft {read softly: from across the room they blend} other {will vanish into one colour}} (lightness {lightness} apart, ΔE₀₀ {difference}).',
              {
                one: name(it.yarns[0]),
                other: name(it.yarns[1]),
                verdict: it.verdict,
                lightness: Math.round(it.lightness),
                difference: Math.round(it.difference),
              },
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}
