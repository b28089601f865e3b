/** A cone weighed again: what the scale says corrects what was reckoned. */

import { useState } from 'preact/hooks';
import type { Units } from '../../../core/measure/length.ts';
import type { Grams } from '../../../core/measure/mass.ts';
import { netOf, type ShelfYarn } from '../../../core/plan/shelf.ts';
import { t } from '../../language/t.ts';
import { mass } from '../../mass.ts';
import { Sheet } from '../../parts/sheet.tsx';
import { gramsLeft, weigh } from '../../shelf.ts';
import { settings } from '../../state.ts';
import { NOTHING_READ, readingOf, ScaleFields, type ScaleRead } from './scaleFields.tsx';
import { ShelfForm } from './shelfForm.tsx';

export interface WeighSheetProps {
  readonly yarn: ShelfYarn;
  readonly onClose: () => void;
}

export function WeighSheet({ yarn, onClose }: WeighSheetProps) {
  const { units } = settings.value;
  const tare = yarn.weighed.at(-1)?.tare ?? null;
  const [scale, setScale] = useState<ScaleRead>({ ...NOTHING_READ, tare });
  const reading = readingOf(scale);
  const reckoned = gramsLeft(yarn);
  const save = () => {
    if (reading === null) return;
    weigh(yarn, reading);
    onClose();
  };
  return (
    <Sheet title={t('Weigh {name}', { name: yarn.name })} onClose={onClose}>
      <ShelfForm save={t('Keep this weight')} onSave={save}>
        {(tried) => (
          <>
            {reckoned === null ? null : (
              <p>
                {t('By reckoning, {mass} of it should be left.', { mass: mass(reckoned, units) })}
              </p>
            )}
            <ScaleFields
              scale={scale}
              count={yarn.count}
              units={units}
              onScale={setScale}
              total={tried && reading === null ? 'missing' : 'needed'}
            />
            {reading === null || reckoned === null ? null : (
              <p class="hint">{differenceWords(netOf(reading) - reckoned, units)}</p>
            )}
          </>
        )}
      </ShelfForm>
    </Sheet>
  );
}

function differenceWords(grams: Grams, units: Units): string {
  const by = mass(Math.abs(grams), units);
  if (by === mass(0, units)) return t('Just as reckoned.');
  return grams > 0
    ? t('{mass} more than reckoned: the scale is believed.', { mass: by })
    : t('{mass} less than reckoned: the scale is believed.', { mass: by });
}
