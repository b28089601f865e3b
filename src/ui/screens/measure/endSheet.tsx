/** One end drawn out of the cloth: what the warp gave to the bends of weaving. */
import type { PieceReadings, Ravelled } from '../../../core/learn/readings.ts';
import type { Units } from '../../../core/measure/length.ts';
import { readEnd, strike } from '../../clothReading.ts';
import { length } from '../../format.ts';
import { t } from '../../language/t.ts';
import { PadForm } from '../../parts/padForm.tsx';
import { Sheet } from '../../parts/sheet.tsx';

export interface EndSheetProps {
  readonly piece: number;
  readonly name: string;
  readonly readings: PieceReadings;
  readonly units: Units;
  readonly onClose: () => void;
}

const ROWS = [
  { key: 'inCloth', label: t('In the cloth') },
  { key: 'straightened', label: t('Pulled straight') },
];

export function EndSheet({ piece, name, readings, units, onClose }: EndSheetProps) {
  const words = ({ inCloth, straightened }: Ravelled) =>
    t('{from} pulled to {to}', {
      from: length(inCloth, units),
      to: length(straightened, units),
    });
  return (
    <Sheet title={t('{name}: one end drawn out', { name })} onClose={onClose} wide>
      <div class="form">
        <p>
          {t(
            'Mark a length on the cloth along one end, draw the end out, pull it just straight, and measure between the marks again.',
          )}
        </p>
        {readings.ravelled.length === 0 ? null : (
          <ul class="reads" aria-label={t('Ends')}>
            {readings.ravelled.map(({ reading, value }) => (
              <li key={reading}>
                <strong>{words(value)}</strong>
                <button
                  type="button"
                  class="button quiet"
                  aria-label={t('Take out {what}', { what: words(value) })}
                  onClick={() => strike(reading)}
                >
                  ✕
                </button>
              </li>
            ))}
          </ul>
        )}
        <PadForm
          key={readings.ravelled.length}
          rows={ROWS}
          units={units}
          save={t('Add this end')}
          onSave={(lengths) =>
            readEnd({
              piece,
              inCloth: lengths.get('inCloth') ?? 0,
              straightened: lengths.get('straightened') ?? 0,
            })
          }
        />
      </div>
    </Sheet>
  );
}
