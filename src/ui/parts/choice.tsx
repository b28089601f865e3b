/** One of a few: big buttons side by side, the chosen one pressed in. */
export interface ChoiceProps<T> {
  readonly label: string;
  readonly options: readonly { readonly value: T; readonly words: string }[];
  readonly chosen: T | null;
  readonly onChoose: (value: T) => void;
}

export function Choice<T extends string | number>({
  label,
  options,
  chosen,
  onChoose,
}: ChoiceProps<T>) {
  return (
    <fieldset class="choice">
      <legend>{label}</legend>
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
