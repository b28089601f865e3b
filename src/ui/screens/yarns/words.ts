/** The shelf in words and in the proportions of its bars. */

import type { Units } from '../../../core/measure/length.ts';
import type { Grams } from '../../../core/measure/mass.ts';
import type { Dents } from '../../../core/plan/plan.ts';
import {
  dentsPerOther,
  type ShelfHeddle,
  type ShelfYarn,
  type YarnAccount,
} from '../../../core/plan/shelf.ts';
import { inOurNumbers, length, list } from '../../format.ts';
import { t } from '../../language/t.ts';
import { mass } from '../../mass.ts';
import { amountWords } from '../../parts/yarnWords.ts';

/** Less than this is nothing: the scale of a kitchen tells no less. */
const NOTHING: Grams = 0.5;

/** What is left of a yarn: `8 oz, about 1680 yd`. */
export function leftWords(yarn: ShelfYarn, account: YarnAccount, units: Units): string {
  if (account.left === null) return t('Not weighed yet');
  if (account.left < NOTHING) return t('None left, by reckoning');
  return amountWords(account.left, yarn.count, units);
}

/** Where the figure comes from, when it is no longer what the scale said. */
export function sinceWords({ uses, left }: YarnAccount, units: Units): string | null {
  const taken = uses.filter((use) => use.since > NOTHING);
  if (left === null || taken.length === 0) return null;
  const grams = taken.reduce((sum, use) => sum + use.since, 0);
  return t('{mass} taken since it was weighed: {names}', {
    mass: mass(grams, units),
    names: namesOf(taken),
  });
}

/** What the warps still want, and whether there is enough; null when they want nothing. */
export interface PlannedWords {
  readonly wanted: string;
  readonly outcome: string | null;
  readonly short: boolean;
}

export function plannedWords(account: YarnAccount, units: Units): PlannedWords | null {
  const takers = account.uses.filter((use) => use.toCome > NOTHING);
  if (takers.length === 0) return null;
  const wanted = t('{mass} planned: {names}', {
    mass: mass(account.toCome, units),
    names: namesOf(takers),
  });
  const { after } = account;
  if (after === null) return { wanted, outcome: null, short: false };
  const short = after < -NOTHING;
  const outcome = short
    ? t('{mass} short', { mass: mass(-after, units) })
    : t('{mass} will be left over', { mass: mass(Math.max(0, after), units) });
  return { wanted, outcome, short };
}

/** The bar under a yarn: shares of its length in per cent, of the longer of what is there and wanted. */
export interface Gauge {
  readonly planned: string;
  readonly spare: string;
  readonly missing: string;
}

export function gaugeOf({ left, toCome }: YarnAccount): Gauge | null {
  if (left === null || left + toCome < NOTHING) return null;
  const whole = Math.max(left, toCome);
  const share = (grams: Grams) => `${(100 * Math.max(0, grams)) / whole}%`;
  return {
    planned: share(Math.min(left, toCome)),
    spare: share(left - toCome),
    missing: share(toCome - left),
  };
}

/** `12.5 per inch, 12.7 counted`. */
export function dentWords(dents: Dents): string {
  const sold = { count: inOurNumbers(String(dents.count)), per: PER[dents.per] };
  return dents.made === undefined
    ? t('{count} {per}', sold)
    : t('{count} {per}, {made} as counted', { ...sold, made: inOurNumbers(String(dents.made)) });
}

export const PER: Record<Dents['per'], string> = { inch: t('per inch'), '10cm': t('per 10 cm') };

/** The same dents counted the other way, and the width: `49.2 per 10 cm · 24 in wide`. */
export function heddleWords({ dents, width }: ShelfHeddle, units: Units): string {
  const other = Number(dentsPerOther(dents).toPrecision(3));
  const per = PER[dents.per === 'inch' ? '10cm' : 'inch'];
  return t('{count} {per} · {width} wide', {
    count: inOurNumbers(String(other)),
    per,
    width: length(width, units),
  });
}

function namesOf(uses: readonly { readonly name: string }[]): string {
  return list(uses.map((use) => use.name));
}
