import { t } from '../../language/t.ts';
import { updateWaiting } from '../../state.ts';

const applyUpdate = async () => (await import('../../device/updates.ts')).applyUpdate();

/** Offered where nothing is being woven; never by itself. */
export function UpdateOffer() {
  if (!updateWaiting.value) return null;
  return (
    <div class="offer">
      <p>{t('A new version of Fellmark is ready. Your place and your plans stay as they are.')}</p>
      <button type="button" class="button" onClick={() => void applyUpdate()}>
        {t('Update now')}
      </button>
    </div>
  );
}
