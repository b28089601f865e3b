/** A field with a big button for less and one for more. */

import type { ComponentChildren } from 'preact';
import { t } from '../language/t.ts';

export interface StepsProps {
  readonly label: string;
  /** Absent where there is nothing less, or more. */
  readonly onLess: (() => void) | null;
  readonly onMore: (() => void) | null;
  /** Said after the field, such as `ends`. */
  readonly unit?: string;
  readonly children: ComponentChildren;
}

export function Steps({ label, onLess, onMore, unit, children }: StepsProps) {
  return (
    <span class="steps">
      <button
        type="button"
        class="button step"
        aria-label={t('{label}: less', { label })}
        disabled={onLess === null}
        onClick={() => onLess?.()}
      >
        −
      </button>
      {children}
      <button
        type="button"
        class="button step"
        aria-label={t('{label}: more', { label })}
        disabled={onMore === null}
        onClick={() => onMore?.()}
      >
        +
      </button>
      {unit === undefined ? null : <span class="unit">{unit}</span>}
    </span>
  );
}
