/** A number with a big button on either side; no keyboard needed. */
import { t } from '../language/t.ts';
export interface StepperProps {
  readonly label: string;
  readonly value: number;
  readonly least: number;
  readonly most: number;
  readonly onChange: (value: number) => void;
}

export function Stepper({ label, value, least, most, onChange }: StepperProps) {
  const step = (by: number) => onChange(Math.max(least, Math.min(most, value + by)));
  return (
    <fieldset class="stepper">
      <legend class="stepper-label">{label}</legend>
      <button
        type="button"
        class="button"
        disabled={value <= least}
        onClick={() => step(-1)}
        aria-label={t('{label}: one less', { label })}
      >
        −
      </button>
      <output class="stepper-value">{value}</output>
      <button
        type="button"
        class="button"
        disabled={value >= most}
        onClick={() => step(1)}
        aria-label={t('{label}: one more', { label })}
      >
        +
      </button>
    </fieldset>
  );
}
