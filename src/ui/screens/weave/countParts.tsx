/** Asking how many picks or what length, and counting it with one tap: as planned and by eye alike. */
import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import type { Mm, Units } from '../../../core/measure/length.ts';
import { t } from '../../language/t.ts';
import { LengthPad } from '../../parts/lengthPad.tsx';
import { Stepper } from '../../parts/stepper.tsx';
import '../../style/padForm.css';

export interface CountPicksProps {
  readonly most: number;
  /** Offered at one tap. */
  readonly quick: readonly number[];
  readonly onCount: (picks: number) => void;
  readonly children?: ComponentChildren;
}

export function CountPicks({ most, quick, onCount, children }: CountPicksProps) {
  const [picks, setPicks] = useState(Math.min(2, most));
  return (
    <div class="form">
      {children}
      <Stepper label={t('Picks thrown')} value={picks} least={1} most={most} onChange={setPicks} />
      <div class="row">
        {quick.map((it) => (
          <button type="button" key={it} class="button" onClick={() => setPicks(it)}>
            {it}
          </button>
        ))}
      </div>
      <button type="button" class="button strong" onClick={() => onCount(picks)}>
        {t('Count {picks}', { picks })}
      </button>
    </div>
  );
}

export interface CountLengthProps {
  readonly units: Units;
  readonly onCount: (loomLength: Mm) => void;
  /** What is asked for, and what else must be chosen. */
  readonly children: ComponentChildren;
}

export function CountLength({ units, onCount, children }: CountLengthProps) {
  const [loomLength, setLength] = useState<Mm | null>(null);
  const count = () => {
    if (loomLength !== null) onCount(loomLength);
  };
  return (
    <div class="form">
      {children}
      <LengthPad units={units} onLength={setLength} />
      <div class="pad-save">
        <button type="button" class="button strong" disabled={loomLength === null} onClick={count}>
          {t('Count this length')}
        </button>
      </div>
    </div>
  );
}
