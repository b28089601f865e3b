/** A number with big steppers, which can also be typed. */

import { useState } from 'preact/hooks';
import { clean } from '../../core/measure/steps.ts';
import { inOurNumbers } from '../format.ts';
import type { TermId } from '../screens/words/terms.ts';
import { ProblemsAt } from './problemsAt.tsx';
import '../style/fields.css';
import { Steps } from './steps.tsx';
import { LabelWords } from './words.tsx';

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
  /** The word of the trade its label is, to be explained there. */
  readonly word?: TermId | undefined;
}

export function NumberField(props: NumberFieldProps) {
  const { label, value, onValue, least, most, step = 1, unit, path, hint, word } = props;
  const [typed, setTyped] = useState<string | null>(null);
  const type = (text: string) => {
    setTyped(text);
    const read = Number(text.replace(',', '.'));
    if (text.trim() !== '' && Number.isFinite(read)) onValue(read);
  };
  const go = (next: number) => {
    // A tapped button need not take the focus, so what was typed must make way by itself.
    setTyped(null);
    onValue(Math.max(least, Math.min(most, clean(next))));
  };
  return (
    <div class="field">
      <span class="field-label">
        <LabelWords label={label} word={word} />
      </span>
      <Steps
        label={label}
        onLess={value <= least ? null : () => go(value - step)}
        onMore={value >= most ? null : () => go(value + step)}
        {...(unit === undefined ? {} : { unit })}
      >
        <input
          type="text"
          inputMode="decimal"
          autocomplete="off"
          aria-label={label}
          value={typed ?? inOurNumbers(String(value))}
          onFocus={(event) => event.currentTarget.select()}
          onInput={(event) => type(event.currentTarget.value)}
          onBlur={() => setTyped(null)}
        />
      </Steps>
      {hint === undefined || hint === '' ? null : <p class="hint">{hint}</p>}
      {path === undefined ? null : <ProblemsAt path={path} />}
    </div>
  );
}
