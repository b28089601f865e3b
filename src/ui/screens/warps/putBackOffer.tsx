/** What was just removed, and the one tap that brings it back. */
import { putBack, removed } from '../../keeping/removing.ts';
import { t } from '../../language/t.ts';

export function PutBackOffer() {
  const it = removed.value;
  return (
    <div role="status">
      {it === null ? null : (
        <div class="offer">
          <p>{t('“{name}” is removed.', { name: it.name })}</p>
          <button type="button" class="button" onClick={() => void putBack(it)}>
            {t('Put it back')}
          </button>
        </div>
      )}
    </div>
  );
}
