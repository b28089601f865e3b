/** A number with big steppers, which can also be typed. */
import { useState } from 'preact/hooks';
import { ProblemsAt } from './problemsAt.tsx';

export interface NumberFieldProps {
  readonly label: string;
  readonly value: number;
  readonly onValue: (value: number) => void;
  readonly least: number;
  readonly most: number;
  readonly step?: number;
  /** Said after the number, such as `ends`. */
  readonly unit?: string;
  readonly path?: string;
  readonly hint?: string;
}

export function NumberField(props: NumberFieldProps) {
  const { label, value, onValue, least, most, step = 1, unit, path, hint } = props;
  const [typed, setTyped] = useState<string | null>(null);
  const within = (next: number) => Math.max(least, Math.min(most, next));
  const type = (text: string) => {
    setTyped(text);
    const read = Number(text.replace(',', '.'));
    if (text.trim() !== '' && Number.isFinite(read)) onValue(read);
  };
  return (
    <div class="field">
      <span class="field-label">{label}</span>
      <span class="steps">
        <button
          type="button"
          class="button step"
          aria-label={`${label}: less`}
          disabled={value <= least}
          onClick={() => onValue(within(value - step))}
        >
          −
        </button>
        <input
          type="text"
          inputMode="decimal"
          autocomplete="off"
          aria-label={label}
          value={typed ?? String(value)}
          onFocus={(event) => event.currentTarget.select()}
          onInput={(event) => type(event.currentTarget.value)}
          onBlur={() => setTyped(null)}
        />
        <button
          type="button"
          class="button step"
          aria-label={`${label}: more`}
          disabled={value >= most}
          onClick={() => onValue(within(value + step))}
        >
          +
        </button>
        {unit === undefined ? null : <span class="unit">{unit}</span>}
      </span>
      {hint === undefined ? null : <p class="hint">{hint}</p>}
      {path === undefined ? null : <ProblemsAt path={path} />}
    </div>
  );
}
