/** The whole order as one line of text: what is typed counts as soon as it reads. */
import { useId, useState } from 'preact/hooks';
import type { Result } from '../../../../core/measure/result.ts';
import type { TextFault } from '../../../../core/plan/text/faults.ts';
import { t } from '../../../language/t.ts';
import { wordsForFault } from '../../../textFaults.ts';

export interface OrderLineProps {
  /** The order as it is printed. */
  readonly text: string;
  readonly hint: string;
  /** Takes what was typed and answers how it is printed, or why it cannot be read. */
  readonly onText: (typed: string) => Result<string, TextFault>;
  readonly onFocus: () => void;
}

interface Typed {
  readonly text: string;
  /** What was printed of it; when the order prints otherwise now, it was changed elsewhere. */
  readonly printed: string;
  readonly fault: TextFault | null;
}

export function OrderLine({ text, hint, onText, onFocus }: OrderLineProps) {
  const [typed, setTyped] = useState<Typed | null>(null);
  const [field, help] = [useId(), useId()];
  const now = typed?.printed === text ? typed : null;
  const shown = now?.text ?? text;
  const type = (next: string) => {
    const read = onText(next);
    if (read.ok) setTyped({ text: next, printed: read.value, fault: null });
    else setTyped({ text: next, printed: text, fault: read.problem });
  };
  return (
    <div class="field order-line">
      <label class="field-label" for={field}>
        {t('In one line')}
      </label>
      <textarea
        id={field}
        aria-describedby={help}
        aria-invalid={now?.fault !== undefined && now.fault !== null}
        autocomplete="off"
        autocapitalize="characters"
        spellcheck={false}
        enterkeyhint="done"
        rows={Math.min(8, Math.max(2, Math.ceil(shown.length / 44)))}
        value={shown}
        onFocus={onFocus}
        onInput={(event) => type(event.currentTarget.value)}
        onKeyDown={(event) => {
          // not for a reader
          if (event.key === 'Enter') event.currentTarget.blur();
        }}
        onBlur={() => {
          if (now?.fault === null) setTyped(null);
        }}
      />
      <div id={help} aria-live="polite">
        {now === null || now.fault === null ? (
          <p class="hint">{hint}</p>
        ) : (
          <Fault text={now.text} fault={now.fault} />
        )}
      </div>
    </div>
  );
}

/** So many characters before and after the fault are shown again. */
const AROUND = 18;

function Fault({ text, fault }: { readonly text: string; readonly fault: TextFault }) {
  const { wrong, right } = wordsForFault(fault);
  const { from, until } = fault;
  const start = Math.max(0, from - AROUND);
  return (
    <p class="problem">
      {text.trim() === '' ? null : (
        <span class="fault-place" aria-hidden="true">
          {start > 0 ? '…' : ''}
          {text.slice(start, from)}
          <mark>{until > from ? text.slice(from, until) : '?'}</mark>
          {text.slice(until, until + AROUND)}
        </span>
      )}
      {wrong} {right}
    </p>
  );
}
