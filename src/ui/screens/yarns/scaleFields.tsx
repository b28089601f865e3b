/** What the scale says, and what of it is the empty cone. */
import type { Units } from '../../../core/measure/length.ts';
import type { Grams } from '../../../core/measure/mass.ts';
import type { YarnCount } from '../../../core/measure/yarnCount.ts';
import { netOf } from '../../../core/plan/shelf.ts';
import { t } from '../../language/t.ts';
import { MassField } from '../../parts/massField.tsx';
import { amountWords } from '../../parts/yarnWords.ts';
import type { Reading } from '../../shelf.ts';

/** As far as it is typed. */
export interface ScaleRead {
  readonly grams: Grams | null;
  readonly tare: Grams | null;
}

export const NOTHING_READ: ScaleRead = { grams: null, tare: null };

/** A whole reading; null without what the scale said. */
export function readingOf({ grams, tare }: ScaleRead): Reading | null {
  if (grams === null) return null;
  return tare === null || tare === 0 ? { grams } : { grams, tare };
}

export interface ScaleFieldsProps {
  readonly scale: ScaleRead;
  readonly count: YarnCount;
  readonly units: Units;
  readonly onScale: (scale: ScaleRead) => void;
  /** Where the total must not be missing: whether that is said yet. */
  readonly total?: 'needed' | 'missing';
}

export function ScaleFields({ scale, count, units, onScale, total }: ScaleFieldsProps) {
  const reading = readingOf(scale);
  const heavy = reading !== null && netOf(reading) < 0;
  return (
    <fieldset class="scale">
      <legend>{t('On the scale')}</legend>
      <div class="fields">
        <MassField
          label={t('Cone and yarn together')}
          grams={scale.grams}
          units={units}
          onGrams={(grams) => onScale({ ...scale, grams })}
          {...(total === undefined ? {} : { required: true })}
          wrong={total === 'missing' ? t('What does the scale say?') : null}
        />
        <MassField
          label={t('Of that the empty cone')}
          grams={scale.tare}
          units={units}
          onGrams={(tare) => onScale({ ...scale, tare })}
          wrong={heavy ? t('Heavier than cone and yarn together.') : null}
        />
      </div>
      <output class="scale-net">
        {reading === null || heavy
          ? t('Yarn alone: –')
          : t('Yarn alone: {amount}', { amount: amountWords(netOf(reading), count, units) })}
      </output>
    </fieldset>
  );
}
