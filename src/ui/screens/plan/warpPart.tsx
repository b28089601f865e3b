/** The warp: its order, how it lies in the heddle, and the ways to a wished width. */
import { useMemo, useState } from 'preact/hooks';
import type { Mm } from '../../../core/measure/length.ts';
import type { Plan, Warp } from '../../../core/plan/plan.ts';
import { fitWidth } from '../../../core/planner/fits.ts';
import { checkedDraft } from '../../draft.ts';
import { t } from '../../language/t.ts';
import { Choice } from '../../parts/choice.tsx';
import { LengthField } from '../../parts/lengthField.tsx';
import { ProblemsAt } from '../../parts/problemsAt.tsx';
import { editPlan } from '../../planning.ts';
import { goodSheet } from './figures.ts';
import { FitList } from './fitList.tsx';
import { Fold } from './fold.tsx';
import type { PartProps } from './part.ts';
import { StripesEditor } from './stripesEditor.tsx';

export function WarpPart({ plan }: PartProps) {
  const { warp, yarns } = plan;
  const set = (change: Partial<Warp>, about: string | null) =>
    editPlan((it) => ({ ...it, warp: { ...it.warp, ...change } }), about);
  return (
    <div class="part-fields">
      <ProblemsAt path="warp.order" />
      <StripesEditor
        stripes={warp.order}
        yarns={yarns}
        path="warp.order"
        onChange={(order, about) => set({ order }, about)}
      />
      <WidthFit plan={plan} />
      {plan.loom.kind === 'rigid-heddle' ? (
        <>
          <Choice
            label={t('The first end lies in a')}
            chosen={warp.firstEnd ?? null}
            onChoose={(firstEnd) => set({ firstEnd }, null)}
            options={[
              { value: 'slot', words: t('slot') },
              { value: 'hole', words: t('hole') },
            ]}
          />
          <ProblemsAt path="warp.firstEnd" />
        </>
      ) : null}
      <Choice
        label={t('The order reads left to right, seen from the')}
        chosen={warp.viewpoint}
        onChoose={(viewpoint) => set({ viewpoint }, null)}
        options={[
          { value: 'front', words: t('front') },
          { value: 'back', words: t('back') },
        ]}
      />
      <FloatingChoice plan={plan} />
    </div>
  );
}

function FloatingChoice({ plan }: PartProps) {
  const choose = (letter: string) =>
    editPlan((it) => {
      const { floatingSelvedges: _none, ...warp } = it.warp;
      return {
        ...it,
        warp: letter === '' ? warp : { ...warp, floatingSelvedges: { yarn: letter } },
      };
    });
  return (
    <div class="field">
      <Choice
        label={t('Floating selvedges')}
        word="floating"
        chosen={plan.warp.floatingSelvedges?.yarn ?? ''}
        onChoose={choose}
        options={[
          { value: '', words: t('none') },
          ...plan.yarns.map(({ letter, name }) => ({ value: letter, words: `${letter} ${name}` })),
        ]}
      />
      <ProblemsAt path="warp.floatingSelvedges" inside />
    </div>
  );
}

/** The washed width one would like, and the ways to it: one tap takes one. */
function WidthFit({ plan }: PartProps) {
  const [wish, setWish] = useState<Mm | null>(null);
  const checked = checkedDraft.value;
  const base: Plan | null = checked?.ok ? checked.value : null;
  const fits = useMemo(
    () => (wish === null || base === null ? [] : fitWidth(base, wish)),
    [wish, base],
  );
  const reached = goodSheet.value?.widths.washed ?? 0;
  return (
    <Fold words={t('Fit to a washed width')}>
      <LengthField
        label={t('Washed width wished')}
        mm={wish ?? reached}
        units={plan.units}
        onLength={(mm) => setWish(mm > 0 ? mm : null)}
      />
      {wish === null ? null : (
        <FitList
          fits={fits}
          units={plan.units}
          reached={reached}
          miss={reached - wish}
          onTake={(fit) => editPlan(() => fit.plan)}
        />
      )}
    </Fold>
  );
}
