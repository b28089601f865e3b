/** A refused file: every problem with its place, what is wrong and what would be right. */

import { t, tParts } from '../../language/t.ts';
import { ProblemList } from '../../parts/problemList.tsx';
import { Sheet } from '../../parts/sheet.tsx';
import { wordsFor } from '../../problemWords.ts';
import { type Refusal, refusal as refusalSignal } from '../../state.ts';

const close = () => {
  refusalSignal.value = null;
};

export function RefusalSheet({ refusal }: { readonly refusal: Refusal }) {
  return (
    <Sheet title={t('This file was not opened')} onClose={close} wide>
      <p>
        {tParts('Nothing of {file} was stored.', {
          file: <strong key="file">{refusal.fileName}</strong>,
        })}{' '}
        {t('{n, plural, one {One thing is} other {# things are}} in the way:', {
          n: refusal.problems.length,
        })}
      </p>
      <ProblemList problems={refusal.problems} words={wordsFor} />
    </Sheet>
  );
}
