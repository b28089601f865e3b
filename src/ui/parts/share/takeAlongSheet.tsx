/** What can be taken away from the screen: the plan to another device, the cards and the tape on paper. */

import { useState } from 'preact/hooks';
import type { Plan } from '../../../core/plan/plan.ts';
import type { WarpRecord } from '../../../store/store.ts';
import { t } from '../../language/t.ts';
import { Sheet } from '../sheet.tsx';
import { SharePlan } from './sharePlan.tsx';

export interface TakeAlongSheetProps {
  /** Null while the plan has something to mend. */
  readonly plan: Plan | null;
  /** Where it is the plan of a warp. */
  readonly warp?: WarpRecord;
  readonly onPrint: () => void;
  readonly onClose: () => void;
}

export function TakeAlongSheet({ plan, warp, onPrint, onClose }: TakeAlongSheetProps) {
  const [sharing, setSharing] = useState(false);
  return (
    <Sheet title={sharing ? t('Share this plan') : t('Share or print')} onClose={onClose} wide>
      {plan === null ? (
        <p>{t('Something in the plan is still to mend: what is marked red comes first.')}</p>
      ) : sharing ? (
        <SharePlan plan={plan} {...(warp === undefined ? {} : { warp })} />
      ) : (
        <div class="menu">
          <button type="button" class="button menu-button" onClick={() => setSharing(true)}>
            <strong>{t('Share this plan')}</strong>
            <span>{t('As a file, a link or a code')}</span>
          </button>
          <button type="button" class="button menu-button" onClick={onPrint}>
            <strong>{t('On paper')}</strong>
            <span>{t('Cards, tape at true size, a code')}</span>
          </button>
        </div>
      )}
    </Sheet>
  );
}
