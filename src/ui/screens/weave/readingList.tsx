/** The readings of this piece, each of which can be taken back, and the beat they come to. */
import { beatHere, readingsHere } from '../../../core/bench/asking.ts';
import type { Progress } from '../../../core/bench/progress.ts';
import type { Units } from '../../../core/measure/length.ts';
import { happen } from '../../actions.ts';
import { length } from '../../format.ts';
import { t, tParts } from '../../language/t.ts';
import { Word } from '../../parts/words.tsx';
import { beatWords, fromWords } from './measureWords.ts';

interface ReadingListProps {
  readonly progress: Progress;
  readonly units: Units;
}

export function ReadingList({ progress, units }: ReadingListProps) {
  const readings = readingsHere(progress);
  if (readings.length === 0) return null;
  return (
    <section class="readings" aria-label={t('Readings of this piece')}>
      <h3>
        <Word of="reading">{t('Readings of this piece')}</Word>
      </h3>
      <p>{beatWords(beatHere(progress), units)}</p>
      <ul>
        {readings.map(({ reading, picks, loomLength }) => (
          <li key={reading.reading}>
            <span>
              {tParts('{length} {from}, after {picks}; now taken to lie at {place}', {
                length: <strong>{length(reading.mm, units)}</strong>,
                from: fromWords(progress, reading),
                picks: t('{n, plural, one {# pick} other {# picks}}', { n: picks }),
                place: length(loomLength, units),
              })}
            </span>
            <button
              type="button"
              class="button"
              onClick={() => happen({ kind: 'readingStruck', reading: reading.reading })}
            >
              {t('Take back')}
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
