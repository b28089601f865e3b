/** Everything gives way to a file: behind a word that has to be typed. */

import { useState } from 'preact/hooks';
import { type Incoming, replaceAll, working } from '../../keeping/comingIn.ts';
import { t } from '../../language/t.ts';
import { Field } from '../../parts/field.tsx';

const WORD = t('replace');

export function ReplaceAll({ incoming }: { readonly incoming: Incoming }) {
  const [typed, setTyped] = useState('');
  return (
    <details class="keep-replace">
      <summary>{t('Replace everything instead')}</summary>
      <p>
        {t(
          'All warps, drafts, yarns and photos on this device give way to this file. What is here now is kept as a snapshot for thirty days.',
        )}
      </p>
      <Field label={t('Type “{word}” to go on', { word: WORD })}>
        <input
          type="text"
          autocomplete="off"
          autocapitalize="off"
          spellcheck={false}
          onInput={(event) => setTyped(event.currentTarget.value)}
        />
      </Field>
      <button
        type="button"
        class="button"
        disabled={typed.trim().toLowerCase() !== WORD || working.value}
        onClick={() => void replaceAll(incoming)}
      >
        {t('Replace everything')}
      </button>
    </details>
  );
}
