/** Light, size and whether the screen stays on. */
import { DISTANCES } from '../../../../core/measure/viewing.ts';
import { changeSettings } from '../../../actions.ts';
import { isNarrow } from '../../../device/narrow.ts';
import { wakeState } from '../../../device/wakeLock.ts';
import { inOurNumbers } from '../../../format.ts';
import { WAKE_WORDS } from '../../../hearing/wakeWords.ts';
import { t } from '../../../language/t.ts';
import { Choice } from '../../../parts/choice.tsx';
import { settings } from '../../../state.ts';

const THEMES = ['auto', 'light', 'dark', 'contrast'] as const;

export function SightPart() {
  const { theme, distance } = settings.value;
  return (
    <section class="settings-part" aria-label={t('Seeing')}>
      <h3>{t('Seeing')}</h3>
      <Choice
        label={t('Light')}
        chosen={theme}
        onChoose={(it) => changeSettings({ theme: it })}
        options={THEMES.map((value) => ({
          value,
          words: t(
            '{theme, select, auto {As the device} light {Light} dark {Dark} other {High contrast}}',
            { theme: value },
          ),
        }))}
      />
      <Choice
        label={t('The screen stands away')}
        chosen={distance}
        onChoose={(it) => changeSettings({ distance: it })}
        options={DISTANCES.map((cm) => ({
          value: cm,
          words: `${inOurNumbers(String(cm / 100))} m`,
        }))}
      />
      {isNarrow.value ? (
        <p class="hint">{t('On a screen as narrow as this the words are as large as fits.')}</p>
      ) : null}
      <p class="hint">{WAKE_WORDS[wakeState.value].long}</p>
    </section>
  );
}
