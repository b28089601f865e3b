/** What the tape is printed of and how, and what this printer makes of 100 mm. */

import type { Plan } from '../../../core/plan/plan.ts';
import { inOurNumbers } from '../../format.ts';
import { t } from '../../language/t.ts';
import { Choice } from '../../parts/choice.tsx';
import { Steps } from '../../parts/steps.tsx';
import type { TapeLook } from './tape/strip.tsx';

export interface TapeSettings {
  /** Index of a piece. */
  readonly piece: number | 'all';
  readonly ink: TapeLook['ink'];
  /** What the check bar of 100 mm measures once printed, mm. */
  readonly measured: number;
}

export interface TapeChoicesProps {
  readonly plan: Plan;
  readonly settings: TapeSettings;
  readonly onChange: (settings: TapeSettings) => void;
}

export function TapeChoices({ plan, settings, onChange }: TapeChoicesProps) {
  const pieces = plan.pieces.map((piece, value) => ({ value, words: piece.name }));
  return (
    <>
      <Choice
        label={t('In')}
        options={[
          { value: 'black', words: t('Black and white') },
          { value: 'colour', words: t('Colour') },
        ]}
        chosen={settings.ink}
        onChoose={(ink) => onChange({ ...settings, ink })}
      />
      {pieces.length > 1 ? (
        <label class="paper-piece">
          {t('Pieces')}
          <select
            value={String(settings.piece)}
            onChange={(event) => {
              const { value } = event.currentTarget;
              onChange({ ...settings, piece: value === 'all' ? 'all' : Number(value) });
            }}
          >
            <option value="all">{t('All pieces')}</option>
            {pieces.map(({ value, words }) => (
              <option key={value} value={String(value)}>
                {words}
              </option>
            ))}
          </select>
        </label>
      ) : null}
      <CheckField settings={settings} onChange={onChange} />
    </>
  );
}

/** A printer strays by a few per cent, not by more. */
const LEAST = 90;
const MOST = 110;
const STEP = 0.5;

function CheckField({ settings, onChange }: Omit<TapeChoicesProps, 'plan'>) {
  const { measured } = settings;
  const set = (value: number) => {
    if (value >= LEAST && value <= MOST) onChange({ ...settings, measured: value });
  };
  return (
    <div class="paper-check">
      <span>{t('Printed, the bar of 100 mm measures')}</span>
      <Steps
        label={t('Measured')}
        unit="mm"
        onLess={measured > LEAST ? () => set(measured - STEP) : null}
        onMore={measured < MOST ? () => set(measured + STEP) : null}
      >
        <input
          type="text"
          inputMode="decimal"
          aria-label={t('Measured length of the bar of 100 mm')}
          value={inOurNumbers(String(measured))}
          onChange={(event) => {
            const value = Number(event.currentTarget.value.replace(',', '.'));
            set(value);
            if (!(value >= LEAST && value <= MOST))
              event.currentTarget.value = inOurNumbers(String(measured));
          }}
        />
      </Steps>
    </div>
  );
}
