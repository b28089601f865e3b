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
import { formatMass, type Grams } from '../../../../core/measure/mass.ts';
import type { Plan } from '../../../../core/plan/plan.ts';
import { count, length, spread } from '../../../format.ts';

/** `61¼ in ± ½ in`; long lengths to the centimetre or quarter yard would be too coarse here. */
export function lengthLeft(
  { mm, low, high }: { readonly mm: Mm; readonly low: Mm; readonly high: Mm },
  units: Units,
): string {
  return `${length(Math.max(0, mm), units)} ${spread({ low, high }, units)}`;
}

export function gramsLeft({ grams, low, high }: BelievedGrams, units: Units): string {
  const half = Math.max((high - low) / 2, units === 'inch' ? 7 : 1);
  return `${formatMass(Math.max(0, grams), units)} ± ${formatMass(half, units)}`;
}

/** Null as long as there is enough for certain, or nobody can know. */
export function shortWords(reach: Reach | null, pick: number): string | null {
  if (reach === null || reach.kind === 'yes') return null;
  const least = count(reach.picks, 'pick');
  const likely = reach.likely === null ? '' : `, likely in ${Math.max(0, reach.likely - pick)}`;
  return reach.kind === 'no' ? `ends in ${least} or more${likely}` : `may end in ${least}`;
}

export function warpWords(
  { left, wanted, spare, reach }: WarpLeft,
  pick: number,
  units: Units,
): string {
  const rest = `The plan still wants ${length(wanted.mm, units)}.`;
  const short = shortWords(reach, pick);
  if (short !== null) return `${rest} The warp ${short}.`;
  return left.mm <= 0 ? rest : `${rest} ${lengthLeft(spare, units)} will be left over.`;
}

/** Where some is to be woven by eye only what is meant is known. */
export function openWarpWords({ wanted }: WarpLeft, course: Course, units: Units): string {
  // What the last piece is still meant to have lies beyond the last pick.
  const meant = wanted.mm + (course.pieces[course.pieces.length - 1]?.unseen ?? 0);
  if (meant < printedStep(units)) return 'How much of it is used is up to you.';
  return `About ${length(meant, units)} of it are meant to be woven.`;
}

export const OPEN_FURTHER = 'How many more there can be shows once the parts by eye are woven.';

/** How far a yarn goes that may be thrown at any time. */
export function openYarnWords({ left, perPick, misfit }: YarnLeft, units: Units): string {
  const odd = misfit === null ? '' : misfitWords(misfit, units);
  if (left === null || perPick.grams <= 0)
    return `Weighed, it would say here for how many picks it lasts.${odd}`;
  const picks = Math.floor(Math.max(0, left.grams.low) / perPick.grams);
  return `Enough for at least ${count(picks, 'pick')}.${odd}`;
}

function misfitWords(misfit: Grams, units: Units): string {
  return ` The last weighing was ${formatMass(Math.abs(misfit), units)} ${misfit > 0 ? 'more' : 'less'} than weaving explains: was yarn added or taken away?`;
}

export function yarnWords(
  { wanted, spare, reach, misfit }: YarnLeft,
  pick: number,
  units: Units,
): string {
  const rest = `To the end of the warp it takes ${formatMass(wanted.warp.grams.grams, units)}`;
  const short = shortWords(reach, pick);
  const over =
    spare === null ? '.' : short === null ? `; ${gramsLeft(spare, units)} stay.` : `; it ${short}.`;
  const odd = misfit === null ? '' : misfitWords(misfit, units);
  return `${rest}${over}${odd}`;
}

export function furtherWords(plan: Plan, { more, sure, limitedBy, unweighed }: FurtherPieces) {
  if (more === null) return 'Nothing known limits further pieces.';
  const by = limitedBy.kind === 'warp' ? 'the warp' : (plan.yarns[limitedBy.yarn]?.name ?? '');
  if (more === 0) return `No more piece like this one after the last: ${by} is used up.`;
  const lots = count(more, 'more piece', 'more pieces');
  const first = `${lots} like this one after the last, then ${by} runs out.`;
  const certain = sure === null || sure === more ? '' : ` For certain: ${sure}.`;
  const open =
    unweighed.length === 0
      ? ''
      : ` Not weighed: ${unweighed.map((yarn) => plan.yarns[yarn]?.name ?? '').join(', ')}.`;
  return `${first}${certain}${open}`;
}

export function windWords(wind: WindFor, units: Units): string {
  const { length: far, grams, bobbins } = wind;
  const weight = formatMass(grams.high, units);
  const light = weight === formatMass(0, units) ? '' : ` or ${weight}`;
  const much = `${length(far.high, units, 'long')}${light}`;
  return bobbins === null
    ? much
    : `${much}: ${count(bobbins.count, 'bobbin')} of ${count(bobbins.picks, 'pick')}`;
}
