/** Our own keypad for lengths: a paired pedal hides the on-screen keyboard, and wet fingers want big keys. */
import { useState } from 'preact/hooks';
import { type Mm, parseLength, type Units } from '../../core/measure/length.ts';
import { length } from '../format.ts';

export interface LengthPadProps {
  readonly units: Units;
  readonly onLength: (mm: Mm | null) => void;
}

const FRACTIONS = ['⅛', '¼', '⅜', '½', '⅝', '¾', '⅞'] as const;
const DIGITS = ['1', '2', '3', '4', '5', '6', '7', '8', '9'] as const;

export function LengthPad({ units, onLength }: LengthPadProps) {
  const [typed, setTyped] = useState('');
  const type = (next: string) => {
    setTyped(next);
    const read = parseLength(next, units);
    onLength(read.ok && read.value > 0 ? read.value : null);
  };
  const whole = typed.replace(/[⅛¼⅜½⅝¾⅞]/gu, '');
  const key = (text: string) => (
    <button
      type="button"
      key={text}
      class="button key"
      onClick={() => type(typed.length < 8 ? typed + text : typed)}
    >
      {text}
    </button>
  );
  return (
    <div class="pad">
      <output class="pad-shown" aria-live="polite">
        {shown(typed, units)}
      </output>
      <div class="pad-keys">
        {DIGITS.map(key)}
        {units === 'metric' ? key(',') : key('.')}
        {key('0')}
        <button
          type="button"
          class="button key"
          aria-label="delete"
          onClick={() => type(typed.slice(0, -1))}
        >
          ⌫
        </button>
      </div>
      {units === 'inch' ? (
        <div class="pad-fractions">
          {FRACTIONS.map((text) => (
            <button
              type="button"
              key={text}
              class="button key"
              onClick={() => type(whole.replace('.', '') + text)}
            >
              {text}
            </button>
          ))}
        </div>
      ) : null}
    </div>
  );
}

function shown(typed: string, units: Units): string {
  const unit = units === 'inch' ? 'in' : 'cm';
  if (typed === '') return `– ${unit}`;
  const read = parseLength(typed, units);
  return read.ok && !/[.,]$/.test(typed)
    ? `${typed} ${unit} = ${length(read.value, units === 'inch' ? 'metric' : 'inch')}`
    : `${typed} ${unit}`;
}
