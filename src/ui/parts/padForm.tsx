/** Several lengths typed one after another on our own keypad: the row that is lit takes what is typed. */

import { useState } from 'preact/hooks';
import type { Mm, Units } from '../../core/measure/length.ts';
import { length } from '../format.ts';
import { t } from '../language/t.ts';
import '../style/padForm.css';
import { LengthPad } from './lengthPad.tsx';

export interface PadRow {
  readonly key: string;
  readonly label: string;
}

export interface PadFormProps {
  readonly rows: readonly PadRow[];
  readonly units: Units;
  readonly save: string;
  /** Without it every row has to be filled before anything can be saved. */
  readonly partly?: true;
  /** Lengths by the keys of their rows. */
  readonly onSave: (lengths: ReadonlyMap<string, Mm>) => void;
}

export function PadForm({ rows, units, save, partly, onSave }: PadFormProps) {
  const [lengths, setLengths] = useState<ReadonlyMap<string, Mm>>(new Map());
  const [lit, setLit] = useState(rows[0]?.key ?? '');
  const next = rows.find((row) => !lengths.has(row.key) && row.key !== lit);
  const set = (mm: Mm | null) => {
    const others = [...lengths].filter(([key]) => key !== lit);
    setLengths(new Map(mm === null ? others : [...others, [lit, mm]]));
  };
  const ready = partly === true ? lengths.size > 0 : lengths.size === rows.length;
  return (
    <div class="pad-form">
      {rows.length === 1 ? null : (
        <div class="pad-words pad-rows">
          {rows.map(({ key, label }) => (
            <button
              type="button"
              key={key}
              class="button pad-row"
              aria-pressed={key === lit}
              onClick={() => setLit(key)}
            >
              <span>{label}</span>
              <strong>{lengthWords(lengths.get(key), units)}</strong>
            </button>
          ))}
        </div>
      )}
      <div class="pad-typed">
        <LengthPad key={lit} units={units} onLength={set} />
        <div class="pad-save">
          {next !== undefined && lengths.has(lit) ? (
            <button type="button" class="button" onClick={() => setLit(next.key)}>
              {t('Next: {label}', { label: next.label })}
            </button>
          ) : null}
          <button
            type="button"
            class="button strong"
            disabled={!ready}
            onClick={() => onSave(lengths)}
          >
            {save}
          </button>
        </div>
      </div>
    </div>
  );
}

const lengthWords = (mm: Mm | undefined, units: Units) =>
  mm === undefined ? '–' : length(mm, units, 'fine');
