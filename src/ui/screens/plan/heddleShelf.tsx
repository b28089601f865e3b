/** Heddles on the shelf: one tap puts one on the loom. */
import type { Plan } from '../../../core/plan/plan.ts';
import { editPlan } from '../../planning.ts';
import { heddleShelf } from '../../shelf.ts';
import type { PartProps } from './part.ts';

export function HeddleShelf({ plan }: PartProps) {
  const heddles = heddleShelf.value;
  if (heddles.length === 0) return null;
  return (
    <fieldset class="choice">
      <legend>From the shelf</legend>
      {heddles.map((heddle) => (
        <button
          type="button"
          key={heddle.id}
          class="button"
          aria-pressed={JSON.stringify(heddle.dents) === JSON.stringify(plan.loom.dents)}
          onClick={() =>
            editPlan((it): Plan => ({ ...it, loom: { ...it.loom, dents: heddle.dents } }))
          }
        >
          {heddle.name}
        </button>
      ))}
    </fieldset>
  );
}
