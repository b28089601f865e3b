/** Teaching a pedal: whatever key it sends, pressed once. */
import { useLayoutEffect, useState } from 'preact/hooks';
import type { Senses } from '../../../../core/bench/hearing/senses.ts';
import { t } from '../../../language/t.ts';
import { changeSenses, senses } from '../../../senses.ts';

type Taught = 'throwKey' | 'undoKey' | 'againKey';

const PEDALS: readonly { readonly key: Taught; readonly words: string }[] = [
  { key: 'throwKey', words: t('Throws the pick') },
  { key: 'undoKey', words: t('Undoes') },
  { key: 'againKey', words: t('Says the call again') },
];

export function PedalsPart() {
  const now = senses.value;
  const [learning, setLearning] = useState<Taught | null>(null);
  useLearning(learning, setLearning);
  if (now === null) return null;
  return (
    <section class="settings-part" aria-label={t('Pedals')}>
      <h3>{t('Pedals')}</h3>
      <p class="hint">
        {t(
          'A pedal that sends Page down, an arrow, Space or Enter works as it is. Any other can be taught here.',
        )}
      </p>
      <ul class="pedals">
        {PEDALS.map(({ key, words }) => (
          <Pedal
            key={key}
            does={key}
            words={words}
            taught={now[key]}
            isLearning={learning === key}
            onLearn={() => setLearning(learning === key ? null : key)}
            onForget={() => changeSenses({ [key]: '' })}
          />
        ))}
      </ul>
    </section>
  );
}

interface PedalProps {
  readonly does: Taught;
  readonly words: string;
  readonly taught: string;
  readonly isLearning: boolean;
  readonly onLearn: () => void;
  readonly onForget: () => void;
}

function Pedal({ does, words, taught, isLearning, onLearn, onForget }: PedalProps) {
  return (
    <li>
      <span>
        <strong>{words}</strong>{' '}
        <span role="status">
          {isLearning ? t('Press your pedal now …') : taught === '' ? '' : keyWords(taught)}
        </span>
      </span>
      <button
        type="button"
        class="button"
        aria-pressed={isLearning}
        aria-label={t(
          '{now, select, learning {Stop} other {Teach}} the pedal that {does, select, throwKey {throws the pick} undoKey {undoes} other {says the call again}}',
          { now: isLearning ? 'learning' : '', does },
        )}
        onClick={onLearn}
      >
        {isLearning ? t('Stop') : t('Teach')}
      </button>
      {taught === '' ? null : (
        <button
          type="button"
          class="button quiet"
          aria-label={t(
            'Forget the pedal that {does, select, throwKey {throws the pick} undoKey {undoes} other {says the call again}}',
            { does },
          )}
          onClick={onForget}
        >
          {t('Forget')}
        </button>
      )}
    </li>
  );
}

const keyWords = (key: string) =>
  key === ' ' ? t('Space') : key.replace(/(?<=[a-z])(?=[A-Z])/g, ' ');

/** Left to the keyboard: the sheet is closed and walked through with these. Keys are not for a reader. */
const KEPT: ReadonlySet<string> = new Set(['Tab', 'Escape', 'Shift', 'Control', 'Alt', 'Meta']);

/** The next key pressed is that of the pedal, and does nothing else. */
function useLearning(learning: Taught | null, onDone: (none: null) => void): void {
  useLayoutEffect(() => {
    if (learning === null) return;
    let taken = '';
    const onKey = (event: KeyboardEvent) => {
      const isEscape = event.key === 'Escape'; // not for a reader
      if (isEscape) onDone(null);
      if (isEscape || event.key === taken) event.preventDefault();
      if (KEPT.has(event.key) || event.repeat || taken !== '') return;
      event.preventDefault();
      event.stopPropagation();
      taken = event.key;
      changeSenses(withKey(learning, event.key));
    };
    // Only with its going up is the press over: a button in focus would be clicked by it.
    const onKeyUp = (event: KeyboardEvent) => {
      if (event.key !== taken) return;
      event.preventDefault();
      onDone(null);
    };
    addEventListener('keydown', onKey, { capture: true });
    addEventListener('keyup', onKeyUp, { capture: true });
    return () => {
      removeEventListener('keydown', onKey, { capture: true });
      removeEventListener('keyup', onKeyUp, { capture: true });
    };
  }, [learning]);
}

/** One key does one thing. */
function withKey(learning: Taught, key: string): Partial<Senses> {
  const now = senses.peek();
  const others = PEDALS.filter((it) => it.key !== learning && now?.[it.key] === key);
  return { ...Object.fromEntries(others.map((it) => [it.key, ''])), [learning]: key };
}
