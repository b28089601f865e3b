/** The whole cloth, large: to pan and to zoom, on the loom or washed. */
import type { Plan } from '../../../core/plan/plan.ts';
import { t } from '../../language/t.ts';
import { ClothViewer } from '../../parts/clothViewer.tsx';
import { Sheet } from '../../parts/sheet.tsx';

export function PictureSheet({
  plan,
  onClose,
}: {
  readonly plan: Plan;
  readonly onClose: () => void;
}) {
  return (
    <Sheet title={t('The cloth')} onClose={onClose} wide>
      <div class="picture-room">
        <ClothViewer plan={plan} />
      </div>
    </Sheet>
  );
}
