/** Teaching a pedal: whatever key it sends, pressed once. */
import { useLayoutEffect, useState } from 'preact/hooks';
import type { Senses } from '../../../../core/bench/hearing/senses.ts';
import { changeSenses, senses } from '../../../senses.ts';

type Taught = 'throwKey' | 'undoKey' | 'againKey';

const PEDALS: readonly { readonly key: Taught; readonly words: string }[] = [
  { key: 'throwKey', words: 'Throws the pick' },
  { key: 'undoKey', words: 'Undoes' },
  { key: 'againKey', words: 'Says the call again' },
];

export function PedalsPart() {
  const now = senses.value;
  const [learning, setLearning] = useState<Taught | null>(null);
  useLearning(learning, setLearning);
  if (now === null) return null;
  return (
    <section class="settings-part" aria-label="Pedals">
      <h3>Pedals</h3>
      <p class="hint">
        A pedal that sends Page down, an arrow, Space or Enter works as it is. Any other can be
        taught here.
      </p>
      <ul class="pedals">
        {PEDALS.map(({ key, words }) => (
          <Pedal
            key={key}
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
  readonly words: string;
  readonly taught: string;
  readonly isLearning: boolean;
  readonly onLearn: () => void;
  readonly onForget: () => void;
}

function Pedal({ words, taught, isLearning, onLearn, onForget }: PedalProps) {
  return (
    <li>
      <span>
        <strong>{words}</strong>{' '}
        <span role="status">
          {isLearning ? 'Press your pedal now …' : taught === '' ? '' : keyWords(taught)}
        </span>
      </span>
      <button type="button" class="button" aria-pressed={isLearning} onClick={onLearn}>
        {isLearning ? 'Stop' : 'Teach'}
        <span class="unseen"> the pedal that {words.toLowerCase()}</span>
      </button>
      {taught === '' ? null : (
        <button type="button" class="button quiet" onClick={onForget}>
          Forget<span class="unseen"> the pedal that {words.toLowerCase()}</span>
        </button>
      )}
    </li>
  );
}

const keyWords = (key: string) =>
  key === ' ' ? 'Space' : key.replace(/(?<=[a-z])(?=[A-Z])/g, ' ');

/** Left to the keyboard: the sheet is closed and walked through with these. */
const KEPT: ReadonlySet<string> = new Set(['Tab', 'Escape', 'Shift', 'Control', 'Alt', 'Meta']);

/** The next key pressed is that of the pedal, and does nothing else. */
function useLearning(learning: Taught | null, onDone: (none: null) => void): void {
  useLayoutEffect(() => {
    if (learning === null) return;
    let taken = '';
    const onKey = (event: KeyboardEvent) => {
      if (event.key === 'Escape') onDone(null);
      if (event.key === 'Escape' || event.key === taken) event.preventDefault();
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
