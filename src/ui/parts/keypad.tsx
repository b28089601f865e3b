/** Our own keypad: a paired pedal hides the on-screen keyboard, and wet fingers want big keys. */
import { t } from '../language/t.ts';
export interface KeypadProps {
  readonly typed: string;
  /** What the display says of it. */
  readonly shown: string;
  /** Null where only whole numbers are asked for. */
  readonly decimal: string | null;
  readonly fractions: readonly string[];
  readonly onType: (typed: string) => void;
}

const DIGITS = ['1', '2', '3', '4', '5', '6', '7', '8', '9'] as const;
const ANY_FRACTION = /[⅛¼⅜½⅝¾⅞]/gu;
const LONGEST = 8;

export function Keypad({ typed, shown, decimal, fractions, onType }: KeypadProps) {
  const add = (text: string) => onType(typed.length < LONGEST ? typed + text : typed);
  const whole = typed.replace(ANY_FRACTION, '').replace(/[.,]/, '');
  const key = (text: string, press: () => void) => (
    <button type="button" key={text} class="button key" onClick={press}>
      {text}
    </button>
  );
  return (
    <div class="pad">
      <output class="pad-shown" aria-live="polite">
        {shown}
      </output>
      <div class="pad-keys">
        {DIGITS.map((text) => key(text, () => add(text)))}
        {decimal === null ? <span /> : key(decimal, () => add(decimal))}
        {key('0', () => add('0'))}
        <button
          type="button"
          class="button key"
          aria-label={t('delete')}
          onClick={() => onType(typed.slice(0, -1))}
        >
          ⌫
        </button>
      </div>
      {fractions.length === 0 ? null : (
        <div class={fractions.length > 3 ? 'pad-fractions' : 'pad-keys'}>
          {fractions.map((text) => key(text, () => onType(whole + text)))}
        </div>
      )}
    </div>
  );
}
