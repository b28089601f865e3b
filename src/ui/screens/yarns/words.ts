/** The shelf in words and in the proportions of its bars. */
import { formatLength, type Units } from '../../../core/measure/length.ts';
import { formatMass, type Grams } from '../../../core/measure/mass.ts';
import type { Dents } from '../../../core/plan/plan.ts';
import {
  dentsPerOther,
  type ShelfHeddle,
  type ShelfYarn,
  type YarnAccount,
} from '../../../core/plan/shelf.ts';
import { list } from '../../format.ts';
import { amountWords } from '../../parts/yarnWords.ts';

/** Less than this is nothing: the scale of a kitchen tells no less. */
const NOTHING: Grams = 0.5;

/** What is left of a yarn: `8 oz, about 1680 yd`. */
export function leftWords(yarn: ShelfYarn, account: YarnAccount, units: Units): string {
  if (account.left === null) return 'Not weighed yet';
  if (account.left < NOTHING) return 'None left, by reckoning';
  return amountWords(account.left, yarn.count, units);
}

/** Where the figure comes from, when it is no longer what the scale said. */
export function sinceWords({ uses, left }: YarnAccount, units: Units): string | null {
  const taken = uses.filter((use) => use.since > NOTHING);
  if (left === null || taken.length === 0) return null;
  const grams = taken.reduce((sum, use) => sum + use.since, 0);
  return `${formatMass(grams, units)} taken since it was weighed: ${namesOf(taken)}`;
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
  const wanted = `${formatMass(account.toCome, units)} planned: ${namesOf(takers)}`;
  const { after } = account;
  if (after === null) return { wanted, outcome: null, short: false };
  const short = after < -NOTHING;
  const outcome = short
    ? `${formatMass(-after, units)} short`
    : `${formatMass(Math.max(0, after), units)} will be left over`;
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
  const made = dents.made === undefined ? '' : `, ${dents.made} as counted`;
  return `${dents.count} ${PER[dents.per]}${made}`;
}

export const PER: Record<Dents['per'], string> = { inch: 'per inch', '10cm': 'per 10 cm' };

/** The same dents counted the other way, and the width: `49.2 per 10 cm · 24 in wide`. */
export function heddleWords({ dents, width }: ShelfHeddle, units: Units): string {
  const other = Number(dentsPerOther(dents).toPrecision(3));
  const per = PER[dents.per === 'inch' ? '10cm' : 'inch'];
  return `${other} ${per} · ${formatLength(width, units)} wide`;
}

function namesOf(uses: readonly { readonly name: string }[]): string {
  return list(uses.map((use) => use.name));
}
