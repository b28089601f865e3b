/** Whether two colours that take turns can be told apart, before they are woven. */
import { useMemo } from 'preact/hooks';
import { type Reading, readingsOf } from '../../../core/planner/reads.ts';
import type { PartProps } from './part.ts';

const VERDICTS = {
  clear: 'read clearly',
  soft: 'read softly: from across the room they blend',
  vanishes: 'will vanish into one colour',
} as const;

export function ReadsPart({ plan }: PartProps) {
  const readings = useMemo(() => worstOfPairs(readingsOf(plan)), [plan]);
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

const ORDER = ['vanishes', 'soft', 'clear'] as const;

/** One line a pair of yarns: where it reads worst. */
function worstOfPairs(readings: readonly Reading[]): readonly Reading[] {
  const worst = new Map<string, Reading>();
  for (const it of readings) {
    const known = worst.get(it.yarns.join());
    if (known === undefined || ORDER.indexOf(it.verdict) < ORDER.indexOf(known.verdict)) {
      worst.set(it.yarns.join(), it);
    }
  }
  return [...worst.values()];
}
