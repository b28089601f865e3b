/** The hand the controls lie under, gloves, and what counts as a second tap. */
import { changeSettings } from '../../../actions.ts';
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
    <section class="settings-part" aria-label="Touching">
      <h3>Touching</h3>
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
        label="Gloves or wet hands"
        chosen={gloves}
        onChoose={setGloves}
        options={[
          { value: 'off', words: 'Bare hands' },
          { value: 'on', words: 'Large controls' },
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
    </section>
  );
}
