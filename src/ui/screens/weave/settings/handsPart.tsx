/** The hand the controls lie under, gloves, and what counts as a second tap. */
import { changeSettings } from '../../../actions.ts';
import { t } from '../../../language/t.ts';
import { Choice } from '../../../parts/choice.tsx';
import { DEFAULT_SETTINGS, settings } from '../../../state.ts';

/** A glove leaves the glass later than a finger (ours). */
const GLOVES_BOUNCE_MS = 500;

/** Larger controls, and a longer guard against bounces; taking them off brings the usual guard back. */
function setGloves(gloves: 'off' | 'on'): void {
  const { bounceMs } = settings.peek();
  if (gloves === 'on') {
    changeSettings({ gloves, bounceMs: Math.max(bounceMs, GLOVES_BOUNCE_MS) });
    return;
  }
  const isOurs = bounceMs === GLOVES_BOUNCE_MS;
  changeSettings({ gloves, bounceMs: isOurs ? DEFAULT_SETTINGS.bounceMs : bounceMs });
}

export function HandsPart() {
  const { hand, gloves, bounceMs } = settings.value;
  return (
    <section class="settings-part" aria-label={t('Touching')}>
      <h3>{t('Touching')}</h3>
      <Choice
        label={t('Controls under')}
        chosen={hand}
        onChoose={(it) => changeSettings({ hand: it })}
        options={[
          { value: 'plan', words: t('As planned') },
          { value: 'left', words: t('Left hand') },
          { value: 'right', words: t('Right hand') },
        ]}
      />
      <Choice
        label={t('Gloves or wet hands')}
        chosen={gloves}
        onChoose={setGloves}
        options={[
          { value: 'off', words: t('Bare hands') },
          { value: 'on', words: t('Large controls') },
        ]}
      />
      <Choice
        label={t('A second tap counts after')}
        chosen={bounceMs}
        onChoose={(it) => changeSettings({ bounceMs: it })}
        options={[
          { value: 0, words: t('at once') },
          { value: 250, words: '¼ s' },
          { value: 500, words: '½ s' },
          { value: 1000, words: '1 s' },
        ]}
      />
    </section>
  );
}
