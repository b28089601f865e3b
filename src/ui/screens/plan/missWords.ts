import { type Mm, printedStep, type Units } from '../../../core/measure/length.ts';
import { length } from '../../format.ts';

/** How far a size is from the wish: `⅜ in over`, `2 cm under`; `as wished` where no digit would show it. */
export function missWords(miss: Mm, units: Units): string {
  if (2 * Math.abs(miss) < printedStep(units)) return 'as wished';
  return miss > 0 ? `${length(miss, units)} over` : `${length(-miss, units)} under`;
}

/** The same where nothing before it says what it is over or under. */
export function wishWords(miss: Mm, units: Units): string {
  const words = missWords(miss, units);
  return words === 'as wished' ? words : `${words} the wish`;
}
