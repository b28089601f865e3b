/** One end drawn out of the cloth: what the warp gave to the bends of weaving. */
import type { PieceReadings, Ravelled } from '../../../core/learn/readings.ts';
import type { Units } from '../../../core/measure/length.ts';
import { readEnd } from '../../clothReading.ts';
import { length } from '../../format.ts';
import { t } from '../../language/t.ts';
import { PadForm } from '../../parts/padForm.tsx';
import { Sheet } from '../../parts/sheet.tsx';
import { ReadList } from './readingSheet.tsx';

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
        <ReadList label={t('Ends')} reads={readings.ravelled} words={words} />
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
