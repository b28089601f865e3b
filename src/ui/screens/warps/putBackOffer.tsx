/** What was just removed, and the one tap that brings it back. */
import { type Removed, removed } from '../../keeping/removed.ts';
import { t } from '../../language/t.ts';

const putBack = async (it: Removed) => (await import('../../keeping/removing.ts')).putBack(it);

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
