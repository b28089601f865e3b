import { type Mm, printedStep, type Units } from '../../../core/measure/length.ts';
import { length } from '../../format.ts';
import { t } from '../../language/t.ts';

/** How far a size is from the wish: `⅜ in over`, `2 cm under`; `as wished` where no digit would show it. */
export function missWords(miss: Mm, units: Units): string {
  if (isAsWished(miss, units)) return t('as wished');
  const much = length(Math.abs(miss), units);
  return miss > 0 ? t('{much} over', { much }) : t('{much} under', { much });
}

/** The same where nothing before it says what it is over or under. */
export function wishWords(miss: Mm, units: Units): string {
  if (isAsWished(miss, units)) return t('as wished');
  const much = length(Math.abs(miss), units);
  return miss > 0 ? t('{much} over the wish', { much }) : t('{much} under the wish', { much });
}

const isAsWished = (miss: Mm, units: Units) => 2 * Math.abs(miss) < printedStep(units);
