/** Heddles on the shelf: one tap puts one on the loom. */
import type { Plan } from '../../../core/plan/plan.ts';
import type { ShelfHeddle } from '../../../core/plan/shelf.ts';
import { t } from '../../language/t.ts';
import { editPlan } from '../../planning.ts';
import { heddleShelf } from '../../shelf.ts';
import type { PartProps } from './part.ts';

export function HeddleShelf({ plan }: PartProps) {
  const heddles = heddleShelf.value;
  if (heddles.length === 0) return null;
  return (
    <fieldset class="choice">
      <legend>{t('From the shelf')}</legend>
      {heddles.map((heddle) => (
        <button
          type="button"
          key={heddle.id}
          class="button"
          aria-pressed={isOnLoom(heddle, plan)}
          onClick={() => editPlan((it) => withHeddle(it, heddle))}
        >
          {heddle.name}
        </button>
      ))}
    </fieldset>
  );
}

function isOnLoom({ dents, width }: ShelfHeddle, { loom }: Plan): boolean {
  return (
    dents.count === loom.dents.count &&
    dents.per === loom.dents.per &&
    dents.made === loom.dents.made &&
    width === loom.weavingWidth
  );
}

/** No warp is wider than the heddle it hangs in. */
function withHeddle(plan: Plan, { dents, width }: ShelfHeddle): Plan {
  return { ...plan, loom: { ...plan.loom, dents, weavingWidth: width } };
}
