/** A length that can be typed in any unit; it is kept when it reads, and says why when it does not. */

import { useState } from 'preact/hooks';
import type { Mm, Units } from '../../core/measure/length.ts';
import { type LengthProblem, parseLength } from '../../core/measure/lengthText.ts';
import { stepDown, stepUp } from '../../core/measure/steps.ts';
import { length } from '../format.ts';
import { t } from '../language/t.ts';
import type { TermId } from '../screens/words/terms.ts';
import { Field } from './field.tsx';
import { inPoints } from './inPoints.ts';
import { Steps } from './steps.tsx';
import { useUnread } from './unread.ts';

export interface LengthFieldProps {
  readonly label: string;
  readonly mm: Mm;
  readonly units: Units;
  readonly onLength: (mm: Mm) => void;
  /** Where the value stands in the plan, so that its problems appear here. */
  readonly path?: string;
  readonly hint?: string;
  /** With a step there are buttons for less and more; they go from one whole step to the next. */
  readonly step?: Mm;
  /** The word of the trade its label is, to be explained there. */
  readonly word?: TermId | undefined;
}

const WORDS: Record<LengthProblem, string> = {
  empty: t('Give a length, such as 2 1/2 in or 6 cm.'),
  negative: t('A length cannot be less than nothing.'),
  'ambiguous-comma': t('Is the comma a decimal? Write 6,5 or leave it out.'),
  'not-a-length': t('Not a length: 2 1/2, 2.5 in, 6 cm, 1 yd 4 in are.'),
  'too-long': t('Longer than a kilometre.'),
};

export function LengthField(props: LengthFieldProps) {
  const { label, mm, units, onLength, path, hint, step, word } = props;
  const [typed, setTyped] = useState<string | null>(null);
  const read = typed === null ? null : parseLength(inPoints(typed), units);
  const wrong = read === null || read.ok ? null : WORDS[read.problem];
  useUnread(wrong !== null);
  const input = (
    <input
      type="text"
      inputMode="text"
      autocomplete="off"
      {...(step === undefined && word === undefined ? {} : { 'aria-label': label })}
      value={typed ?? length(mm, units)}
      onFocus={(event) => event.currentTarget.select()}
      onInput={(event) => {
        const text = event.currentTarget.value;
        setTyped(text);
        const now = parseLength(inPoints(text), units);
        if (now.ok) onLength(now.value);
      }}
      onBlur={() => {
        if (read === null || read.ok) setTyped(null);
      }}
    />
  );
  const field = { label, word, hint: hint ?? '', wrong, ...(path === undefined ? {} : { path }) };
  if (step === undefined) return <Field {...field}>{input}</Field>;
  const go = (next: Mm) => {
    setTyped(null);
    onLength(next);
  };
  return (
    <Field {...field} many>
      <Steps
        label={label}
        onLess={mm <= step ? null : () => go(stepDown(mm, step))}
        onMore={() => go(stepUp(mm, step))}
      >
        {input}
      </Steps>
    </Field>
  );
}
