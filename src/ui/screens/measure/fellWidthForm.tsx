/** The width at the fell, read at the bench once or twice: only from it draw-in is learnt. */
import { pieceAt } from '../../../core/bench/pickAt.ts';
import type { Mm } from '../../../core/measure/length.ts';
import { readCloth } from '../../clothReading.ts';
import { length } from '../../format.ts';
import { t } from '../../language/t.ts';
import { PadForm } from '../../parts/padForm.tsx';
import { notice, type Session } from '../../state.ts';
import { HOW } from './words.ts';

export interface FellWidthFormProps {
  readonly now: Session;
  readonly onDone: () => void;
}

export function FellWidthForm({ now, onDone }: FellWidthFormProps) {
  const { course, pick } = now.progress;
  const piece = pieceAt(course, Math.max(0, pick - 1)).index;
  const keep = (width: Mm) => {
    readCloth(piece, 'loom', { widths: [width] });
    notice.value = t('{width} wide at the fell.', { width: length(width, now.plan.units) });
  };
  return (
    <div class="form">
      <p>{HOW.width.loom}</p>
      <PadForm
        rows={[{ key: 'width', label: t('Width at the fell') }]}
        units={now.plan.units}
        save={t('Keep this width')}
        onSave={(lengths) => {
          const width = lengths.get('width');
          if (width !== undefined) keep(width);
          onDone();
        }}
      />
    </div>
  );
}
