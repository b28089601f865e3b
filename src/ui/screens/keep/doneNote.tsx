/** What was done last, and the one tap that undoes it. */

import { now } from '../../actions.ts';
import { done, undoLast, working } from '../../keeping/comingIn.ts';
import { t } from '../../language/t.ts';
import { doneWords } from './words.ts';

export function DoneNote() {
  const last = done.value;
  return (
    <div role="status">
      {last === null ? null : (
        <div class="offer">
          <p>{doneWords(last, new Date(now()))}</p>
          {last.undo === null ? null : (
            <button
              type="button"
              class="button"
              disabled={working.value}
              onClick={() => void undoLast()}
            >
              {t('Undo')}
            </button>
          )}
        </div>
      )}
    </div>
  );
}
