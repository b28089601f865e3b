/** A refused file: every problem with its place, what is wrong and what would be right. */
import { ProblemList } from '../../parts/problemList.tsx';
import { Sheet } from '../../parts/sheet.tsx';
import { wordsFor } from '../../problemWords.ts';
import { type Refusal, refusal as refusalSignal } from '../../state.ts';

const close = () => {
  refusalSignal.value = null;
};

export function RefusalSheet({ refusal }: { readonly refusal: Refusal }) {
  return (
    <Sheet title="This file was not opened" onClose={close} wide>
      <p>
        Nothing of <strong>{refusal.fileName}</strong> was stored.{' '}
        {refusal.problems.length === 1 ? 'One thing is' : `${refusal.problems.length} things are`}{' '}
        in the way:
      </p>
      <ProblemList problems={refusal.problems} words={wordsFor} />
    </Sheet>
  );
}
