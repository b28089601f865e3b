/** A name, typed, and the button that takes it. */

import { useState } from 'preact/hooks';
import { LIMITS } from '../../../core/plan/limits.ts';
import { t } from '../../language/t.ts';
import { Field } from '../../parts/field.tsx';

export interface NamePageProps {
  readonly name: string;
  /** What the button says. */
  readonly words: string;
  readonly onName: (name: string) => void;
}

export function NamePage({ name, words, onName }: NamePageProps) {
  const [typed, setTyped] = useState(name);
  const [wrong, setWrong] = useState(false);
  const take = () => {
    if (typed.trim() === '') setWrong(true);
    else onName(typed.trim());
  };
  return (
    <form
      class="form"
      onSubmit={(event) => {
        event.preventDefault();
        take();
      }}
    >
      <Field
        label={t('Name')}
        wrong={wrong && typed.trim() === '' ? t('Give it a name, such as Border.') : null}
      >
        <input
          type="text"
          autocomplete="off"
          maxLength={LIMITS.name}
          value={typed}
          onFocus={(event) => event.currentTarget.select()}
          onInput={(event) => setTyped(event.currentTarget.value)}
        />
      </Field>
      <button type="submit" class="button strong">
        {words}
      </button>
    </form>
  );
}
