/** Yarn weighed at the loom: everything of it that is not in the cloth. */
import { useState } from 'preact/hooks';
import type { Grams } from '../../../../core/measure/mass.ts';
import { t } from '../../../language/t.ts';
import { weighYarn } from '../../../measuring.ts';
import { Choice } from '../../../parts/choice.tsx';
import { MassPad } from '../../../parts/massPad.tsx';
import type { Session } from '../../../state.ts';

interface WeighFormProps {
  readonly now: Session;
  readonly yarn: number;
  readonly onDone: () => void;
}

const STEPS = ['all', 'empty'] as const;
type Step = (typeof STEPS)[number];

export function WeighForm({ now, yarn, onDone }: WeighFormProps) {
  const [step, setStep] = useState<Step>('all');
  const [read, setRead] = useState<{ readonly [step in Step]: Grams | null }>({
    all: null,
    empty: null,
  });
  const it = now.plan.yarns[yarn];
  if (it === undefined) return null;
  const tare = read.empty ?? 0;
  const heavy = read.all !== null && tare > read.all;
  const save = () => {
    if (read.all === null || heavy) return;
    weighYarn(it, read.all, tare);
    onDone();
  };
  return (
    <div class="form">
      <p>
        {t(
          'Lay everything of {yarn} that is not in the cloth on the scale: the cone and every shuttle with it. Then say what the empty cone and shuttles weigh.',
          { yarn: it.name },
        )}
      </p>
      <Choice
        label={t('On the scale')}
        chosen={step}
        onChoose={setStep}
        options={[
          { value: 'all', words: t('Cone, shuttles and yarn') },
          { value: 'empty', words: t('Of that empty cone and shuttles') },
        ]}
      />
      <MassPad
        key={step}
        units={now.plan.units}
        grams={read[step]}
        onGrams={(grams) => setRead({ ...read, [step]: grams })}
      />
      {heavy ? (
        <p role="alert">{t('Cone and shuttles cannot be heavier than all together.')}</p>
      ) : null}
      <button
        type="button"
        class="button strong"
        disabled={read.all === null || heavy}
        onClick={save}
      >
        {t('Keep this weight')}
      </button>
    </div>
  );
}
