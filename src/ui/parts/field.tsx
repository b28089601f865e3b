/** A labelled control with its problems beside it. */
import type { ComponentChildren } from 'preact';
import type { TermId } from '../screens/words/terms.ts';
import { ProblemsAt } from './problemsAt.tsx';
import '../style/fields.css';
import { LabelWords } from './words.tsx';

export interface FieldProps {
  readonly label: string;
  /** Where the value stands in the plan, such as `loom.weavingWidth`. */
  readonly path?: string;
  readonly hint?: string;
  /** What is wrong with what was typed, before it ever reaches the plan. */
  readonly wrong?: string | null;
  /** More controls than one, each with a name of its own: a label would belong to the first alone. */
  readonly many?: true;
  /** The word of the trade its label is, to be explained there; the control has a name of its own. */
  readonly word?: TermId | undefined;
  readonly children: ComponentChildren;
}

export function Field({ label, path, hint, wrong, many, word, children }: FieldProps) {
  return (
    <div class="field">
      {many === true || word !== undefined ? (
        <>
          <span class="field-label">
            <LabelWords label={label} word={word} />
          </span>
          {children}
        </>
      ) : (
        // biome-ignore lint/a11y/noLabelWithoutControl: the control is the child
        <label>
          <span class="field-label">{label}</span>
          {children}
        </label>
      )}
      {hint === undefined || hint === '' ? null : <p class="hint">{hint}</p>}
      {wrong === undefined || wrong === null ? null : (
        <p class="problem" role="alert">
          {wrong}
        </p>
      )}
      {path === undefined ? null : <ProblemsAt path={path} />}
    </div>
  );
}
