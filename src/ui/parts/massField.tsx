/** A mass that can be typed in any unit; kept when it reads, and says why when it does not. */

import { useState } from 'preact/hooks';
import type { Units } from '../../core/measure/length.ts';
import { formatMass, type Grams, type MassProblem, parseMass } from '../../core/measure/mass.ts';
import { inOurNumbers } from '../format.ts';
import { t } from '../language/t.ts';
import { Field } from './field.tsx';
import { inPoints } from './inPoints.ts';
import { useUnread } from './unread.ts';

export interface MassFieldProps {
  readonly label: string;
  /** Null: not known, an empty field. */
  readonly grams: Grams | null;
  readonly units: Units;
  readonly onGrams: (grams: Grams | null) => void;
  /** Where the value stands in the plan, so that its problems appear here. */
  readonly path?: string;
  readonly hint?: string;
  /** What is wrong with the mass although it reads. */
  readonly wrong?: string | null;
  /** Whether a form with it may not be saved while it is empty. */
  readonly required?: true;
}

const WORDS: Record<Exclude<MassProblem, 'empty'>, string> = {
  negative: t('A weight cannot be less than nothing.'),
  'ambiguous-comma': t('Is the comma a decimal? Write 6,5 or leave it out.'),
  'not-a-mass': t('Not a weight: 100 g, 3.5 oz, 1 lb 4 oz are.'),
  'too-heavy': t('More than a tonne.'),
};

export function MassField(props: MassFieldProps) {
  const { label, grams, units, onGrams, path, hint, wrong, required } = props;
  const [typed, setTyped] = useState<string | null>(null);
  const read = typed === null || typed.trim() === '' ? null : parseMass(inPoints(typed), units);
  const unread = read === null || read.ok || read.problem === 'empty' ? null : WORDS[read.problem];
  useUnread(unread !== null);
  const type = (text: string) => {
    setTyped(text);
    const now = parseMass(inPoints(text), units);
    // What does not read is not known either: an old figure must not be saved in its place.
    onGrams(now.ok ? now.value : null);
  };
  return (
    <Field
      label={label}
      {...(path === undefined ? {} : { path })}
      hint={hint ?? ''}
      wrong={unread ?? wrong ?? null}
    >
      <input
        ref={(input) => input?.setCustomValidity(unread ?? wrong ?? '')}
        required={required}
        type="text"
        inputMode="text"
        autocomplete="off"
        placeholder={units === 'inch' ? 'oz' : 'g'}
        value={typed ?? (grams === null ? '' : inOurNumbers(formatMass(grams, units)))}
        onFocus={(event) => event.currentTarget.select()}
        onInput={(event) => type(event.currentTarget.value)}
        onBlur={() => {
          if (unread === null) setTyped(null);
        }}
      />
    </Field>
  );
}
