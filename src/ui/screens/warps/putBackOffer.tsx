/** What was just removed, and the one tap that brings it back. */
import { putBack, removed } from '../../keeping/removing.ts';

export function PutBackOffer() {
  const it = removed.value;
  return (
    <div role="status">
      {it === null ? null : (
        <div class="offer">
          <p>“{it.name}” is removed.</p>
          <button type="button" class="button" onClick={() => void putBack(it)}>
            Put it back
          </button>
        </div>
      )}
    </div>
  );
}
