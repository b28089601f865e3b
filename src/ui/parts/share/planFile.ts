/** A plan as the file that every Fellmark opens. */
import type { Plan } from '../../../core/plan/plan.ts';
import { fileName } from '../fileOffer.tsx';

export function planFile(plan: Plan): File {
  const text = `${JSON.stringify(plan, null, 2)}\n`;
  return new File([text], `${fileName(plan.name, 'plan')}.json`, { type: 'application/json' });
}
