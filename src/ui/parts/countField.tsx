/** The count of a yarn as its label states it: the system chosen, the count typed. */

import { useState } from 'preact/hooks';
import { restatedCount } from '../../core/measure/restatedCount.ts';
import {
  COUNT_SYSTEMS,
  type CountSystem,
  formatYarnCount,
  parseYarnCount,
  type YarnCount,
} from '../../core/measure/yarnCount.ts';
import { inOurNumbers } from '../format.ts';
import { t } from '../language/t.ts';
import { Field } from './field.tsx';
import { inPoints } from './inPoints.ts';
import { COUNT_EXAMPLES, COUNT_WRONG, SYSTEM_WORDS, yardageWords } from './yarnWords.ts';

export interface CountFieldProps {
  readonly count: YarnCount;
  readonly onCount: (count: YarnCount) => void;
  /** Where the value stands in the plan, such as `yarns[0].count`. */
  readonly path?: string;
}

/** The two of the label first: most cones say how far they go. */
const LISTED = Object.keys(SYSTEM_WORDS).filter(isSystem);

export function CountField({ count, onCount, path }: CountFieldProps) {
  const [typed, setTyped] = useState<string | null>(null);
  const read = typed === null ? null : parseYarnCount(inPoints(typed), count.system);
  const wrong =
    read === null || read.ok
      ? null
      : t('{wrong} Such as {example}.', {
          wrong: COUNT_WRONG[read.problem],
          example: COUNT_EXAMPLES[count.system],
        });
  const at = path === undefined ? {} : { path };
  return (
    <div class="count-field">
      <Field label={t('Counted in')}>
        <select
          value={count.system}
          onChange={(event) => {
            const system = event.currentTarget.value;
            setTyped(null);
            if (isSystem(system)) onCount(restatedCount(count, system));
          }}
        >
          {LISTED.map((system) => (
            <option key={system} value={system}>
              {SYSTEM_WORDS[system]}
            </option>
          ))}
        </select>
      </Field>
      <Field label={t('Count')} {...at} wrong={wrong} hint={wrong === null ? hintOf(count) : ''}>
        <input
          ref={(input) => input?.setCustomValidity(wrong ?? '')}
          type="text"
          inputMode="text"
          autocomplete="off"
          value={typed ?? inOurNumbers(formatYarnCount(count))}
          onFocus={(event) => event.currentTarget.select()}
          onInput={(event) => {
            const text = event.currentTarget.value;
            setTyped(text);
            const now = parseYarnCount(inPoints(text), count.system);
            if (now.ok) onCount(now.value);
          }}
          onBlur={() => {
            if (wrong === null) setTyped(null);
          }}
        />
      </Field>
    </div>
  );
}

/** Plies are said apart, because each system writes them in its own order. */
function hintOf(count: YarnCount): string {
  const yardage = yardageWords(count);
  return count.plies === 1
    ? yardage
    : t('{plies} plies of {number}: {yardage}', {
        plies: count.plies,
        number: inOurNumbers(String(count.number)),
        yardage,
      });
}

function isSystem(text: string): text is CountSystem {
  return COUNT_SYSTEMS.some((system) => system === text);
}
