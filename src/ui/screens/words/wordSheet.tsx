/** All words of the trade, or one explained, over whatever screen it stands on. */

import { useState } from 'preact/hooks';
import { t } from '../../language/t.ts';
import '../../style/words.css';
import { Sheet } from '../../parts/sheet.tsx';
import { Drawing } from './drawings.tsx';
import { TERM_IDS, TERMS, type TermId } from './terms.ts';

export interface WordSheetProps {
  /** The word asked for; null shows them all. */
  readonly first: TermId | null;
  readonly onClose: () => void;
}

export function WordSheet({ first, onClose }: WordSheetProps) {
  const [shown, setShown] = useState(first);
  return (
    <Sheet title={shown === null ? t('Words') : TERMS[shown].word} onClose={onClose} wide>
      {shown === null ? (
        <AllWords onChoose={setShown} />
      ) : (
        <OneWord term={shown} onChoose={setShown} />
      )}
    </Sheet>
  );
}

interface ChooseProps {
  readonly onChoose: (term: TermId | null) => void;
}

function AllWords({ onChoose }: ChooseProps) {
  return (
    <ul class="all-words">
      {TERM_IDS.map((id) => (
        <li key={id}>
          <WordButton term={id} onChoose={onChoose} />
        </li>
      ))}
    </ul>
  );
}

function OneWord({ term, onChoose }: ChooseProps & { readonly term: TermId }) {
  const { says, see = [] } = TERMS[term];
  return (
    <div class="one-word">
      <p>{says}</p>
      <Drawing term={term} />
      <p class="row">
        {see.map((id) => (
          <WordButton key={id} term={id} onChoose={onChoose} />
        ))}
        <button type="button" class="button" onClick={() => onChoose(null)}>
          {t('All words')}
        </button>
      </p>
    </div>
  );
}

function WordButton({ term, onChoose }: ChooseProps & { readonly term: TermId }) {
  return (
    <button type="button" class="button" onClick={() => onChoose(term)}>
      {TERMS[term].word}
    </button>
  );
}
