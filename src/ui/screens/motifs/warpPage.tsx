/** From a motif to planning: a warp of its own, or a plan that is on the drawing board. */

import { useEffect, useState } from 'preact/hooks';
import type { Motif } from '../../../core/plan/motif.ts';
import type { LoomKind } from '../../../core/plan/plan.ts';
import { planFromMotif } from '../../../core/planner/motif/repeats.ts';
import { drafts, type StoredDraft } from '../../drafts.ts';
import { t } from '../../language/t.ts';
import { motifForPlan } from '../../motifPages.ts';
import { Choice } from '../../parts/choice.tsx';
import { keepAsDraft, openDraft, startDraft } from '../../planning.ts';
import { session, settings } from '../../state.ts';
import { MotifPicture } from './motifPicture.tsx';

export function WarpPage({ motif }: { readonly motif: Motif }) {
  const [kind, setKind] = useState<LoomKind>(session.peek()?.plan.loom.kind ?? 'rigid-heddle');
  return (
    <div class="form">
      <MotifPicture motif={motif} />
      <p>
        {t(
          'A plan of one piece with the motif all through it, on the warp it was woven on: the same order, sett and beat. Everything can be changed before it goes on the loom.',
        )}
      </p>
      <Choice
        label={t('Loom')}
        chosen={kind}
        onChoose={setKind}
        options={[
          { value: 'rigid-heddle', words: t('Rigid heddle') },
          { value: 'shaft', words: t('Shaft loom') },
        ]}
      />
      <button
        type="button"
        class="button strong"
        onClick={() => void keepAsDraft(planFromMotif(motif, settings.peek().units, kind))}
      >
        {t('Plan it')}
      </button>
    </div>
  );
}

/** Plans on the drawing board; the planner then puts the motif in. */
export function PlansPage({ motif }: { readonly motif: Motif }) {
  const [all, setAll] = useState<readonly StoredDraft[] | null>(null);
  useEffect(() => {
    void drafts().then(setAll);
  }, []);
  if (all === null) return null;
  const put = (open: () => void) => {
    motifForPlan.value = motif.id;
    open();
  };
  return (
    <div class="form">
      <p>
        {t(
          'Into which plan? In the planner it goes among the blocks of a piece, or all through it.',
        )}
      </p>
      {all.map(({ id, plan }) => (
        <button type="button" key={id} class="button" onClick={() => put(() => void openDraft(id))}>
          {plan.name === '' ? t('Without a name') : plan.name}
        </button>
      ))}
      <button
        type="button"
        class={all.length === 0 ? 'button strong' : 'button'}
        onClick={() => put(startDraft)}
      >
        {t('A new plan')}
      </button>
    </div>
  );
}
