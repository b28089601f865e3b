/** A word of the trade that tells what it means when it is tapped. */
import { signal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import type { TermId } from '../screens/words/terms.ts';
import { lazily } from './lazily.tsx';

const WordSheet = lazily(async () => (await import('../screens/words/wordSheet.tsx')).WordSheet);

/** What is asked for: a word, `all` of them, or nothing. */
const asked = signal<TermId | 'all' | null>(null);

/** Opens the words from a button of a screen's own. */
export const askAllWords = (): void => {
  asked.value = 'all';
};

export interface WordProps {
  readonly term: TermId;
  readonly children: ComponentChildren;
}

export function Word({ term, children }: WordProps) {
  return (
    <button
      type="button"
      class="word"
      aria-haspopup="dialog"
      onClick={() => {
        asked.value = term;
      }}
    >
      {children}
    </button>
  );
}

/** Where the explanation stands: once a page, over everything. */
export function WordAsked() {
  const term = asked.value;
  if (term === null) return null;
  return (
    <WordSheet
      key={term}
      term={term === 'all' ? null : term}
      onClose={() => {
        asked.value = null;
      }}
    />
  );
}
