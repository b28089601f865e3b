/** One of the yarns of the plan, by its letter. */
import type { Letter, Plan } from '../../../../core/plan/plan.ts';
import { t } from '../../../language/t.ts';
import { Swatch } from '../../../parts/swatch.tsx';
import '../../../style/byEye.css';

interface ChoiceProps {
  readonly plan: Plan;
  readonly chosen: Letter;
  readonly onChoose: (letter: Letter) => void;
}

export function YarnChoice({ plan, chosen, onChoose }: ChoiceProps) {
  return (
    <fieldset class="choice">
      <legend>{t('Yarn')}</legend>
      {plan.yarns.map((yarn) => (
        <button
          type="button"
          key={yarn.letter}
          class="button eye-choice"
          aria-pressed={chosen === yarn.letter}
          onClick={() => onChoose(yarn.letter)}
        >
          <Swatch yarn={yarn} />
          {yarn.name}
        </button>
      ))}
    </fieldset>
  );
}
