/** Numbers as the weaver reads them. */

import type { Shed } from '../core/bench/course.ts';
import {
  formatLength,
  type LengthStyle,
  type Mm,
  printedStep,
  type Units,
} from '../core/measure/length.ts';
import type { LoomKind, Side } from '../core/plan/plan.ts';
import { LANGUAGES } from './language/languages.ts';
import { language, t } from './language/t.ts';

/** The decimal mark of the reader's language. */
export const DECIMAL = LANGUAGES.find(({ code }) => code === language)?.decimal ?? '.';

/** Digits as the core writes them, with the decimal mark of the reader's language: `6.5` → `6,5`. */
export const inOurNumbers = (words: string) =>
  DECIMAL === '.' ? words : words.replace(/(\d)\.(?=\d)/g, `$1${DECIMAL}`);

export const length = (mm: Mm, units: Units, style: LengthStyle = 'short') =>
  inOurNumbers(formatLength(mm, units, style));

/** Half of a 90 % interval, never printed as nothing: `± ⅛ in`. */
export const spread = (
  { low, high }: { readonly low: Mm; readonly high: Mm },
  units: Units,
  style: LengthStyle = 'short',
) => `± ${length(Math.max((high - low) / 2, printedStep(units, style)), units, style)}`;

const SHEDS: Record<LoomKind, readonly string[]> = {
  'rigid-heddle': [t('up'), t('down')],
  shaft: [t('odd'), t('even')],
};

export const shedWord = (kind: LoomKind, shed: Shed) => SHEDS[kind][shed] ?? String(shed);

export const SIDE_WORDS: Record<Side, string> = { left: t('left'), right: t('right') };

export const list = (words: readonly string[]) =>
  words.length < 2
    ? words.join('')
    : t('{most} and {last}', {
        most: words.slice(0, -1).join(', '),
        last: words[words.length - 1] ?? '',
      });
