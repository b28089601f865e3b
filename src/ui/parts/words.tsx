/** The words of the trade, asked for from any screen: all of them, or one where it stands. */
import { signal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { t } from '../language/t.ts';
import type { TermId } from '../screens/words/terms.ts';
import { lazily } from './lazily.tsx';

const WordSheet = lazily(async () => (await import('../screens/words/wordSheet.tsx')).WordSheet);

const asked = signal<TermId | 'all' | null>(null);

export const askAllWords = (): void => {
  asked.value = 'all';
};

export interface WordProps {
  readonly of: TermId;
  /** As it stands in its sentence, label or heading. */
  readonly children: ComponentChildren;
}

/** A word of the trade that explains itself when tapped. Not inside a label: it would take its control's place. */
export function Word({ of, children }: WordProps) {
  return (
    <button
      type="button"
      class="word"
      aria-haspopup="dialog"
      title={t('What it means')}
      onClick={() => {
        asked.value = of;
      }}
    >
      {children}
    </button>
  );
}

/** The words of a field, where they name one of the trade as that word. */
export function LabelWords({
  label,
  word,
}: {
  readonly label: string;
  readonly word: TermId | undefined;
}) {
  return word === undefined ? label : <Word of={word}>{label}</Word>;
}

/** Where the explanation stands: once a page, over everything. */
export function WordsAsked() {
  const it = asked.value;
  if (it === null) return null;
  return (
    <WordSheet
      first={it === 'all' ? null : it}
      onClose={() => {
        asked.value = null;
      }}
    />
  );
}
