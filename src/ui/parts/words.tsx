/** The words of the trade, asked for from any screen. */
import { signal } from '@preact/signals';
import { lazily } from './lazily.tsx';

const WordSheet = lazily(async () => (await import('../screens/words/wordSheet.tsx')).WordSheet);

const areAsked = signal(false);

export const askAllWords = (): void => {
  areAsked.value = true;
};

/** Where the explanation stands: once a page, over everything. */
export function WordsAsked() {
  if (!areAsked.value) return null;
  return (
    <WordSheet
      onClose={() => {
        areAsked.value = false;
      }}
    />
  );
}
