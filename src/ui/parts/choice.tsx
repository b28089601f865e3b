/** One of a few: big buttons side by side, the chosen one pressed in. */
import type { TermId } from '../screens/words/terms.ts';
import { LabelWords } from './words.tsx';

export interface ChoiceProps<T> {
  readonly label: string;
  /** The word of the trade its label is, to be explained there. */
  readonly word?: TermId | undefined;
  readonly options: readonly { readonly value: T; readonly words: string }[];
  readonly chosen: T | null;
  readonly onChoose: (value: T) => void;
}

export function Choice<T extends string | number>({
  label,
  word,
  options,
  chosen,
  onChoose,
}: ChoiceProps<T>) {
  return (
    <fieldset class="choice">
      <legend>
        <LabelWords label={label} word={word} />
      </legend>
      {options.map(({ value, words }) => (
        <button
          type="button"
          key={value}
          class="button"
          aria-pressed={chosen === value}
          onClick={() => onChoose(value)}
        >
          {words}
        </button>
      ))}
    </fieldset>
  );
}
