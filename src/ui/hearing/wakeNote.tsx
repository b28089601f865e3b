/** Whether the screen stays on, as far as the bench must say so; the settings say it always. */
import { wakeState } from '../device/wakeLock.ts';
import { t } from '../language/t.ts';
import { changeSenses, senses } from '../senses.ts';
import { WAKE_WORDS } from './wakeWords.ts';

export function WakeNote() {
  const state = wakeState.value;
  if (state === 'held') return null;
  if (state !== 'missing') return <p class="wake-sign">{WAKE_WORDS[state].short}</p>;
  if (senses.value?.wakeCard !== 'unread') return null;
  return (
    <section class="wake-card" aria-label={WAKE_WORDS.missing.short}>
      <p>
        <strong>{WAKE_WORDS.missing.short}</strong> <span>{WAKE_WORDS.missing.long}</span>
      </p>
      <button
        type="button"
        class="button strong"
        onClick={() => changeSenses({ wakeCard: 'read' })}
      >
        {t('Understood')}
      </button>
    </section>
  );
}
