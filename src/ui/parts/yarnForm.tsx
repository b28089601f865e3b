/** What a yarn is: name, fibre, count and colour. For a yarn of a plan and for one of the shelf. */
import type { ComponentChildren } from 'preact';
import type { Hex } from '../../core/measure/colour.ts';
import { FIBRES, type Fibre } from '../../core/measure/sett.ts';
import type { YarnCount } from '../../core/measure/yarnCount.ts';
import { Choice } from './choice.tsx';
import { ColourPick } from './colourPick.tsx';
import { CountField } from './countField.tsx';
import { Field } from './field.tsx';
import { FIBRE_WORDS } from './yarnWords.ts';
import '../style/yarnForm.css';
import { t } from '../language/t.ts';

/** The part of a yarn that the form edits; a yarn of a plan and one of the shelf both have it. */
export interface YarnDraft {
  readonly name: string;
  readonly colour: Hex;
  readonly fibre?: Fibre;
  readonly count: YarnCount;
}

export interface YarnFormProps {
  readonly draft: YarnDraft;
  /** Called with what changed, and nothing else. */
  readonly onChange: (change: Partial<YarnDraft>) => void;
  /** Where the yarn stands in the plan, such as `yarns[0]`, so that its problems appear here. */
  readonly path?: string;
  /** What is wrong with the name, where no plan says so. */
  readonly wrongName?: string | null;
  /** What belongs to the cone rather than to its looks; stands before the colours, which fill a screen. */
  readonly children?: ComponentChildren;
}

/** `key` the form by the yarn: what was half typed for one must not appear at the next. */
export function YarnForm({ draft, onChange, path, wrongName, children }: YarnFormProps) {
  const at = (field: keyof YarnDraft) => (path === undefined ? {} : { path: `${path}.${field}` });
  return (
    <div class="yarn-form">
      <Field label={t('Name')} {...at('name')} wrong={wrongName ?? null}>
        <input
          type="text"
          required
          pattern=".*\S.*"
          autocomplete="off"
          autocapitalize="words"
          enterkeyhint="done"
          maxLength={120}
          value={draft.name}
          onFocus={(event) => event.currentTarget.select()}
          onInput={(event) => onChange({ name: event.currentTarget.value })}
        />
      </Field>
      <CountField count={draft.count} onCount={(count) => onChange({ count })} {...at('count')} />
      <Choice
        label={t('Fibre')}
        chosen={draft.fibre ?? null}
        onChoose={(fibre) => onChange({ fibre })}
        options={FIBRES.map((value) => ({ value, words: FIBRE_WORDS[value] }))}
      />
      {children}
      <ColourPick colour={draft.colour} onColour={(colour) => onChange({ colour })} />
    </div>
  );
}
