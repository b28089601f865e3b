/** Light, size and whether the screen stays on. */
import { DISTANCES } from '../../../../core/measure/viewing.ts';
import { changeSettings } from '../../../actions.ts';
import { isNarrow } from '../../../device/narrow.ts';
import { wakeState } from '../../../device/wakeLock.ts';
import { WAKE_WORDS } from '../../../hearing/wakeWords.ts';
import { Choice } from '../../../parts/choice.tsx';
import { settings } from '../../../state.ts';

export function SightPart() {
  const { theme, distance } = settings.value;
  return (
    <section class="settings-part" aria-label="Seeing">
      <h3>Seeing</h3>
      <Choice
        label="Light"
        chosen={theme}
        onChoose={(it) => changeSettings({ theme: it })}
        options={[
          { value: 'auto', words: 'As the device' },
          { value: 'light', words: 'Light' },
          { value: 'dark', words: 'Dark' },
          { value: 'contrast', words: 'High contrast' },
        ]}
      />
      <Choice
        label="The screen stands away"
        chosen={distance}
        onChoose={(it) => changeSettings({ distance: it })}
        options={DISTANCES.map((cm) => ({ value: cm, words: `${cm / 100} m` }))}
      />
      {isNarrow.value ? (
        <p class="hint">On a screen as narrow as this the words are as large as fits.</p>
      ) : null}
      <p class="hint">{WAKE_WORDS[wakeState.value].long}</p>
    </section>
  );
}
