/** The readings of this piece, each of which can be taken back, and the beat they come to. */
import { beatHere, readingsHere } from '../../../core/bench/asking.ts';
import type { Progress } from '../../../core/bench/progress.ts';
import type { Units } from '../../../core/measure/length.ts';
import { happen } from '../../actions.ts';
import { count, length } from '../../format.ts';
import { beatWords, fromWords } from './measureWords.ts';

interface ReadingListProps {
  readonly progress: Progress;
  readonly units: Units;
}

export function ReadingList({ progress, units }: ReadingListProps) {
  const readings = readingsHere(progress);
  if (readings.length === 0) return null;
  return (
    <section class="readings" aria-label="Readings of this piece">
      <h3>Readings of this piece</h3>
      <p>{beatWords(beatHere(progress), units)}</p>
      <ul>
        {readings.map(({ reading, picks, loomLength }) => (
          <li key={reading.reading}>
            <span>
              <strong>{length(reading.mm, units)}</strong>
              {` ${fromWords(progress, reading)}, after ${count(picks, 'pick')}; now taken to lie at ${length(loomLength, units)}`}
            </span>
            <button
              type="button"
              class="button"
              onClick={() => happen({ kind: 'readingStruck', reading: reading.reading })}
            >
              Take back
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
