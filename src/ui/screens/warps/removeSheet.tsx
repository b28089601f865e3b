/** Asks before something is taken away, and says how it can come back. */
import { useState } from 'preact/hooks';
import type { Things } from '../../keeping/removed.ts';
import { removeSafely } from '../../keeping/removing.ts';
import { t } from '../../language/t.ts';
import { Sheet } from '../../parts/sheet.tsx';

export interface RemoveSheetProps {
  readonly title: string;
  readonly words: string;
  readonly things: Things;
  readonly onClose: () => void;
}

export function RemoveSheet({ title, words, things, onClose }: RemoveSheetProps) {
  const [state, setState] = useState<'asking' | 'removing' | 'cannot-keep'>('asking');
  const remove = async (without?: 'snapshot') => {
    setState('removing');
    if (!(await removeSafely(things, without))) return setState('cannot-keep');
    onClose();
  };
  return (
    <Sheet title={title} onClose={onClose}>
      <p class="remove-words">{words}</p>
      {state === 'cannot-keep' ? (
        <>
          <p role="alert">
            {t(
              'Nothing was removed yet: there is no room to keep a snapshot, so it could not be put back. Save a backup first, or remove it for good.',
            )}
          </p>
          <button type="button" class="button strong" onClick={() => void remove('snapshot')}>
            {t('Remove it for good')}
          </button>
        </>
      ) : (
        <>
          <p>
            {t('A snapshot is kept first. For thirty days it can be put back, under Keep safe.')}
          </p>
          <button
            type="button"
            class="button strong"
            disabled={state === 'removing'}
            onClick={() => void remove()}
          >
            {t('Remove it')}
          </button>
        </>
      )}
    </Sheet>
  );
}
