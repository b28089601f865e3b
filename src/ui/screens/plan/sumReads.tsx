/** Whether two colours that take turns can be told apart, before they are woven. */
import { goodReadings } from './figures.ts';
import type { PartProps } from './part.ts';

const VERDICTS = {
  clear: 'read clearly',
  soft: 'read softly: from across the room they blend',
  vanishes: 'will vanish into one colour',
} as const;

export function ReadsPart({ plan }: PartProps) {
  const readings = goodReadings.value;
  if (readings.length === 0) return null;
  const name = (yarn: number) => plan.yarns[yarn]?.name ?? '';
  return (
    <section aria-label="Will it read">
      <h3>Will it read?</h3>
      <ul class="plain">
        {readings.map((it) => (
          <li key={it.yarns.join()} class={it.verdict === 'vanishes' ? 'wrong' : ''}>
            {name(it.yarns[0])} and {name(it.yarns[1])} {VERDICTS[it.verdict]} (lightness{' '}
            {Math.round(it.lightness)} apart, ΔE₀₀ {Math.round(it.difference)}).
          </li>
        ))}
      </ul>
    </section>
  );
}
