/** A way on, and a way out, where the saved data cannot be opened. */

import { useState } from 'preact/hooks';
import { applyUpdate, lookForUpdate } from '../device/updates.ts';
import { t } from '../language/t.ts';
import { say } from '../messages.ts';
import { updateWaiting } from '../state.ts';

export interface TroubleHelpProps {
  /** A newer app wrote the data: what helps is that app; otherwise to try again. */
  readonly helps: 'update' | 'reload';
}

export function TroubleHelp({ helps }: TroubleHelpProps) {
  const [told, setTold] = useState('');
  const look = async () => setTold((await lookForUpdate()) ? say.updateComes : say.noUpdate);
  return (
    <>
      <span class="row">
        {helps === 'reload' ? (
          <button type="button" class="button" onClick={() => location.reload()}>
            {t('Try again')}
          </button>
        ) : updateWaiting.value ? (
          <button type="button" class="button" onClick={applyUpdate}>
            {t('Update now')}
          </button>
        ) : (
          <button type="button" class="button" onClick={() => void look()}>
            {t('Look for an update')}
          </button>
        )}
        <a class="button" href="./rescue.html">
          {say.takeOut}
        </a>
      </span>
      <span role="status">{told}</span>
    </>
  );
}
