/** A yarn in words: how its label counts it, and how far it goes. */

import { MM_PER_YARD, type Mm, type Units } from '../../core/measure/length.ts';
import type { Grams } from '../../core/measure/mass.ts';
import type { Fibre } from '../../core/measure/sett.ts';
import {
  type CountProblem,
  type CountSystem,
  formatYarnCount,
  lengthOf,
  mPer100g,
  texOf,
  type YarnCount,
  ydPerLb,
} from '../../core/measure/yarnCount.ts';
import { inOurNumbers } from '../format.ts';
import { t } from '../language/t.ts';
import { mass } from '../mass.ts';

export const SYSTEM_WORDS: Record<CountSystem, string> = {
  ydPerLb: t('yards per pound'),
  mPer100g: t('metres per 100 g'),
  cottonCount: t('cotton count'),
  linenLea: t('linen lea'),
  worsted: t('worsted count'),
  woollenRun: t('woollen run'),
  woollenCut: t('woollen cut'),
  metric: t('metric count (Nm)'),
  tex: 'tex',
  dtex: 'dtex',
  denier: 'denier',
  mPerKg: t('metres per kg'),
};

/** What a label of each system looks like, as an example to type by. */
export const COUNT_EXAMPLES: Record<CountSystem, string> = {
  ydPerLb: '3360',
  mPer100g: '680',
  cottonCount: t('8/2 or 20'),
  linenLea: t('16/2 or 12'),
  worsted: t('12/2 or 18'),
  woollenRun: t('2 or 4/2'),
  woollenCut: t('12 or 12/2'),
  metric: t('2/8 or 16'),
  tex: t('150 or 74×2'),
  dtex: '1500',
  denier: '1350',
  mPerKg: '6800',
};

export const COUNT_WRONG: Record<CountProblem, string> = {
  empty: t('Give the count from the label.'),
  negative: t('A count is above nothing.'),
  'ambiguous-comma': t('Is the comma a decimal? Write 6,5 or leave it out.'),
  'not-a-count': t('Not a count of this kind.'),
  'too-fine': t('Finer than any yarn: is it another system?'),
  'too-thick': t('Thicker than any yarn: is it another system?'),
  'too-many-plies': t('More plies than any yarn has.'),
};

export const FIBRE_WORDS: Record<Fibre, string> = {
  cotton: t('Cotton'),
  cottolin: t('Cottolin'),
  linen: t('Linen'),
  wool: t('Wool'),
  silk: t('Silk'),
  hemp: t('Hemp'),
  other: t('Other'),
};

/** The count as its label has it: `8/2 cotton count`, `3360 yards per pound`. */
export function countWords(count: YarnCount): string {
  return t('{count} {system}', {
    count: inOurNumbers(formatYarnCount(count)),
    system: SYSTEM_WORDS[count.system],
  });
}

/** What it is: `Cotton, 8/2 cotton count`; a label's own figure is left to `yardageWords`. */
export function yarnKindWords(count: YarnCount, fibre: Fibre | undefined): string {
  const ofFibre = fibre === undefined || fibre === 'other' ? [] : [FIBRE_WORDS[fibre]];
  // not for a reader
  const saysItself = count.system === 'ydPerLb' || count.system === 'mPer100g';
  return [...ofFibre, ...(saysItself ? [] : [countWords(count)])].join(', ');
}

/** How far it goes, both ways of saying it: `3360 yd/lb · 677 m/100 g`. */
export function yardageWords(count: YarnCount): string {
  const tex = texOf(count);
  // Units, not for a reader's language.
  return `${grouped(ydPerLb(tex))}\u00a0yd/lb · ${grouped(mPer100g(tex))}\u00a0m/100\u00a0g`;
}

/** A mass of it and how long that is, to three figures: `8 oz, about 1680 yd`. */
export function amountWords(grams: Grams, count: YarnCount, units: Units): string {
  return t('{mass}, about {length}', {
    mass: mass(grams, units),
    length: aboutLength(lengthOf(grams, texOf(count)), units),
  });
}

/** A yarn's length is never known to the yard: three figures say what there is to say. */
function aboutLength(mm: Mm, units: Units): string {
  const inUnit = mm / (units === 'inch' ? MM_PER_YARD : 1000);
  return `${grouped(Number(inUnit.toPrecision(3)))} ${units === 'inch' ? 'yd' : 'm'}`;
}

/** Thin spaces from five digits on; a comma would be a decimal to some. */
function grouped(n: number): string {
  const whole = n < 10 ? inOurNumbers(String(Number(n.toPrecision(2)))) : String(Math.round(n));
  return whole.length < 5 ? whole : whole.replace(/\B(?=(?:\d{3})+$)/g, '\u202f');
}
