/** What is left, in words. */
import type { Course } from '../../../../core/bench/course.ts';
import type {
  BelievedGrams,
  FurtherPieces,
  Reach,
  WarpLeft,
  WindFor,
  YarnLeft,
} from '../../../../core/bench/left/left.ts';
import { type Mm, printedStep, type Units } from '../../../../core/measure/length.ts';
import type { Grams } from '../../../../core/measure/mass.ts';
import type { Plan } from '../../../../core/plan/plan.ts';
import { length, spread } from '../../../format.ts';
import { t } from '../../../language/t.ts';
import { mass } from '../../../mass.ts';

/** `61¼ in ± ½ in`; long lengths to the centimetre or quarter yard would be too coarse here. */
export function lengthLeft(
  { mm, low, high }: { readonly mm: Mm; readonly low: Mm; readonly high: Mm },
  units: Units,
): string {
  return `${length(Math.max(0, mm), units)} ${spread({ low, high }, units)}`;
}

export function gramsLeft({ grams, low, high }: BelievedGrams, units: Units): string {
  const half = Math.max((high - low) / 2, units === 'inch' ? 7 : 1);
  return `${mass(Math.max(0, grams), units)} ± ${mass(half, units)}`;
}

/** Null as long as there is enough for certain, or nobody can know. */
export function shortWords(reach: Reach | null, pick: number): string | null {
  const values = shortValues(reach, pick);
  return values === null
    ? null
    : t(
        '{kind, select, no {ends in {n, plural, one {# pick} other {# picks}} or more} likely {ends in {n, plural, one {# pick} other {# picks}} or more, likely in {likely}} now {may end at any pick} other {may end in {n, plural, one {# pick} other {# picks}}}}',
        values,
      );
}

function shortValues(reach: Reach | null, pick: number) {
  if (reach === null || reach.kind === 'yes') return null;
  const likely = reach.likely === null ? '' : Math.max(0, reach.likely - pick);
  const kind = reach.kind === 'no' && likely !== '' ? 'likely' : reach.kind;
  return { kind: kind === 'maybe' && reach.picks === 0 ? 'now' : kind, n: reach.picks, likely };
}

export function warpWords(
  { left, wanted, spare, reach }: WarpLeft,
  pick: number,
  units: Units,
): string {
  const rest = t('The plan still wants {length}.', { length: length(wanted.mm, units) });
  const short = shortWords(reach, pick);
  if (short !== null) return `${rest} ${t('The warp {ends}.', { ends: short })}`;
  const over = t('{length} will be left over.', { length: lengthLeft(spare, units) });
  return left.mm <= 0 ? rest : `${rest} ${over}`;
}

/** Where some is to be woven by eye only what is meant is known. */
export function openWarpWords({ wanted }: WarpLeft, course: Course, units: Units): string {
  // What the last piece is still meant to have lies beyond the last pick.
  const meant = wanted.mm + (course.pieces[course.pieces.length - 1]?.unseen ?? 0);
  if (meant < printedStep(units)) return t('How much of it is used is up to you.');
  return t('About {length} of it are meant to be woven.', { length: length(meant, units) });
}

export const OPEN_FURTHER = t('How many more there can be shows once the parts by eye are woven.');

/** How far a yarn goes that may be thrown at any time. */
export function openYarnWords({ left, perPick, misfit }: YarnLeft, units: Units): string {
  return `${lastsWords({ left, perPick })}${misfitWords(misfit, units)}`;
}

function lastsWords({ left, perPick }: Pick<YarnLeft, 'left' | 'perPick'>): string {
  if (left === null || perPick.grams <= 0)
    return t('Weighed, it would say here for how many picks it lasts.');
  const n = Math.floor(Math.max(0, left.grams.low) / perPick.grams);
  return t('Enough for at least {n, plural, one {# pick} other {# picks}}.', { n });
}

/** A sentence more, or nothing. */
function misfitWords(misfit: Grams | null, units: Units): string {
  if (misfit === null) return '';
  const values = { weight: mass(Math.abs(misfit), units), way: misfit > 0 ? 'more' : 'less' };
  return ` ${t('The last weighing was {weight} {way, select, more {more} other {less}} than weaving explains: was yarn added or taken away?', values)}`;
}

export function yarnWords(
  { wanted, spare, reach, misfit }: YarnLeft,
  pick: number,
  units: Units,
): string {
  const words = t(
    'To the end of the warp it takes {weight}{spare, select, known {; {stays} stay} short {; it {ends}} other {}}.',
    {
      weight: mass(wanted.warp.grams.grams, units),
      ...spareValues(spare, shortWords(reach, pick), units),
    },
  );
  return `${words}${misfitWords(misfit, units)}`;
}

function spareValues(spare: BelievedGrams | null, ends: string | null, units: Units) {
  if (spare === null) return { spare: '', stays: '', ends: '' };
  const stays = gramsLeft(spare, units);
  return ends === null ? { spare: 'known', stays, ends: '' } : { spare: 'short', stays, ends };
}

export function furtherWords(plan: Plan, { more, sure, limitedBy, unweighed }: FurtherPieces) {
  if (more === null) return t('Nothing known limits further pieces.');
  const nameOf = (yarn: number) => plan.yarns[yarn]?.name ?? '';
  const by = limitedBy.kind === 'warp' ? t('the warp') : nameOf(limitedBy.yarn);
  if (more === 0) return t('No more piece like this one after the last: {by} is used up.', { by });
  const sentences = [
    t(
      '{n, plural, one {# more piece} other {# more pieces}} like this one after the last, then {by} runs out.',
      { n: more, by },
    ),
    ...(sure === null || sure === more ? [] : [t('For certain: {n}.', { n: sure })]),
    ...(unweighed.length === 0
      ? []
      : [t('Not weighed: {yarns}.', { yarns: unweighed.map(nameOf).join(', ') })]),
  ];
  return sentences.join(' ');
}

export function windWords(wind: WindFor, units: Units): string {
  const { length: far, grams, bobbins } = wind;
  const weight = mass(grams.high, units);
  const values = { length: length(far.high, units, 'long'), weight };
  const much = weight === mass(0, units) ? values.length : t('{length} or {weight}', values);
  return bobbins === null
    ? much
    : t(
        '{much}: {count, plural, one {# bobbin} other {# bobbins}} of {picks, plural, one {# pick} other {# picks}}',
        { much, ...bobbins },
      );
}
