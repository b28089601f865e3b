/** The few settings wanted at the bench. */
import { changeSettings } from '../../actions.ts';
import { type WakeState, wakeState } from '../../device/wakeLock.ts';
import { Choice } from '../../parts/choice.tsx';
import { settings } from '../../state.ts';

const WAKE: Record<WakeState, string> = {
  held: 'The screen stays on while you weave.',
  off: 'The screen may go dark; tap once to keep it on.',
  refused: 'The device refused to keep the screen on: it may be saving its battery.',
  missing:
    'This browser cannot keep the screen on: set a longer auto-lock in the device’s settings.',
};

export function BenchSettings() {
  const { theme, hand, bounceMs } = settings.value;
  return (
    <div class="form">
      <Choice
        label="Light"
        chosen={theme}
        onChoose={(it) => changeSettings({ theme: it })}
        options={[
          { value: 'auto', words: 'As the device' },
          { value: 'light', words: 'Light' },
          { value: 'dark', words: 'Dark' },
        ]}
      />
      <Choice
        label="Controls under"
        chosen={hand}
        onChoose={(it) => changeSettings({ hand: it })}
        options={[
          { value: 'plan', words: 'As planned' },
          { value: 'left', words: 'Left hand' },
          { value: 'right', words: 'Right hand' },
        ]}
      />
      <Choice
        label="A second tap counts after"
        chosen={bounceMs}
        onChoose={(it) => changeSettings({ bounceMs: it })}
        options={[
          { value: 0, words: 'at once' },
          { value: 250, words: '¼ s' },
          { value: 500, words: '½ s' },
          { value: 1000, words: '1 s' },
        ]}
      />
      <p class="hint">{WAKE[wakeState.value]}</p>
    </div>
  );
}
