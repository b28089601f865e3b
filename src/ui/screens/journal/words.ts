/** The story of a warp in words. */

import type { Entry, Sitting, Told, Work } from '../../../core/journal/journal.ts';
import type { Units } from '../../../core/measure/length.ts';
import { formatMass } from '../../../core/measure/mass.ts';
import type { Plan } from '../../../core/plan/plan.ts';
import { count, length, list } from '../../format.ts';
import { t } from '../../language/t.ts';
import { dueTitle } from '../weave/words.ts';

const DAY = new Intl.DateTimeFormat(undefined, {
  weekday: 'short',
  day: 'numeric',
  month: 'long',
  year: 'numeric',
});
const STAMP = new Intl.DateTimeFormat(undefined, {
  day: 'numeric',
  month: 'short',
  year: 'numeric',
  hour: '2-digit',
  minute: '2-digit',
});
const CLOCK = new Intl.DateTimeFormat(undefined, { hour: '2-digit', minute: '2-digit' });

export const dayWords = (at: string) => DAY.format(Date.parse(at));
export const clockWords = (at: string) => CLOCK.format(Date.parse(at));

/** Day and time, as short as a page wants it. */
export const stampWords = (at: string) => STAMP.format(Date.parse(at));

/** From when to when, the day told twice only where it is another one. */
export function spanWords(from: string, to: string): string {
  const day = dayWords(from);
  const start = `${day}, ${clockWords(from)}`;
  if (clockWords(from) === clockWords(to) && day === dayWords(to)) return start;
  return dayWords(to) === day
    ? `${start} – ${clockWords(to)}`
    : `${start} – ${dayWords(to)}, ${clockWords(to)}`;
}

export function timeWords(minutes: number): string {
  const whole = Math.round(minutes);
  if (whole < 60) return `${whole} min`;
  const rest = whole % 60;
  return `${Math.floor(whole / 60)} h${rest === 0 ? '' : ` ${rest} min`}`;
}

export function workWords({ picks, minutes }: Work): string {
  const woven = picks === 0 ? [] : [count(picks, 'pick')];
  const time = minutes < 1 ? [] : [timeWords(minutes)];
  return [...woven, ...time].join(' · ');
}

export function sittingWords(plan: Plan, sitting: Sitting): string {
  const { pace, pieces, advances } = sitting;
  const names = pieces.map((piece) => plan.pieces[piece]?.name ?? '');
  const work = workWords(sitting);
  return [
    ...(work === '' ? [] : [work]),
    ...(pace === null ? [] : [`${Math.round(pace)} picks an hour`]),
    ...(names.length === 0 ? [] : [list(names)]),
    ...(advances === 0 ? [] : [`warp advanced ${count(advances, 'time')}`]),
  ].join(' · ');
}

/** Which piece, and how far it was. */
export function placeWords(plan: Plan, { piece, pick, what }: Entry): string {
  const name = plan.pieces[piece]?.name ?? '';
  switch (what.kind) {
    case 'warped':
    case 'cutOff':
    case 'warpRead':
      return '';
    case 'clothRead':
    case 'endRavelled':
      return name;
    case 'noted':
    case 'photographed':
      // Told of the whole warp it names no piece.
      return what.piece === undefined ? '' : name;
    default:
      return pick === 0 ? name : `${name}, ${count(pick, 'pick')}`;
  }
}

export function toldWords(plan: Plan, what: Told): string {
  const { units } = plan;
  switch (what.kind) {
    case 'pieceWoven':
      return t('Woven to its end');
    case 'due': {
      const title = dueTitle(plan, what.due);
      return what.outcome === 'done' ? title : `Put off: ${title}`;
    }
    case 'takenOut':
      return `${count(what.picks, 'pick')} taken out`;
    case 'woveLength':
      return `${length(what.loomLength, units)} woven, worked out as ${count(what.picks, 'pick')}`;
    case 'warped':
      return `Warping: ${count(what.steps, 'step')} done`;
    case 'noted':
      return what.text;
    case 'photographed':
      return what.text ?? t('Photo');
    case 'clothRead':
    case 'warpRead':
    case 'endRavelled':
    case 'measured':
    case 'readingStruck':
      return readWords(what, units);
    default:
      return changeWords(plan, what);
  }
}

export type Readings = Extract<
  Told,
  { kind: 'clothRead' | 'warpRead' | 'endRavelled' | 'measured' | 'readingStruck' }
>;

const STATES = { loom: t('on the loom'), off: t('off the loom'), washed: 'washed' } as const;

/** What was read off cloth, warp or fell. */
export function readWords(what: Readings, units: Units): string {
  const short = (mm: number) => length(mm, units);
  switch (what.kind) {
    case 'clothRead': {
      const sizes = [
        ...(what.lengths ?? []).map((mm) => `${short(mm)} long`),
        ...(what.widths ?? []).map((mm) => `${short(mm)} wide`),
        ...(what.fringe === undefined ? [] : [`fringe ${short(what.fringe)}`]),
        ...(what.mass === undefined ? [] : [formatMass(what.mass, units)]),
      ];
      return `Measured ${STATES[what.state]}: ${list(sizes)}`;
    }
    case 'warpRead': {
      const parts = [
        ...(what.tiedOn === undefined ? [] : [`${short(what.tiedOn)} tied on`]),
        ...(what.frontWaste === undefined ? [] : [`${short(what.frontWaste)} waste in front`]),
        ...(what.backWaste === undefined ? [] : [`${short(what.backWaste)} waste behind`]),
        ...(what.gaps === undefined ? [] : [`gaps of ${list(what.gaps.map(short))}`]),
      ];
      return `The warp: ${list(parts)}`;
    }
    case 'endRavelled':
      return `An end of ${short(what.inCloth)} drawn out and pulled to ${short(what.straightened)}`;
    case 'measured': {
      const from = what.from.kind === 'start' ? t('the start') : t('a pin');
      return `Fell ${short(what.loomLength)} from ${from}${what.tension === 'eased' ? t(', eased') : ''}`;
    }
    case 'readingStruck':
      return t('A reading taken out');
  }
}

type Changes = Exclude<
  Told,
  | Readings
  | { kind: 'pieceWoven' | 'due' | 'takenOut' | 'woveLength' | 'warped' | 'noted' | 'photographed' }
>;

function changeWords(plan: Plan, what: Changes): string {
  const { units } = plan;
  const nameOf = (letter: string) =>
    plan.yarns.find((yarn) => yarn.letter === letter)?.name ?? letter;
  switch (what.kind) {
    case 'otherShed':
      return t('The other shed from here');
    case 'placed':
      return t('Place found again at the loom');
    case 'blockSet':
      return `Plan changed: block ${what.block + 1} is ${count(what.picks, 'pick')} now`;
    case 'aimRefused':
      return t('The picks given anew by the last reading were not wanted');
    case 'blockKept':
      return `Plan changed: block ${what.block + 1} keeps its ${what.by}`;
    case 'mirrorKept':
      return `Plan changed: the second half matches the first in ${what.by}`;
    case 'revised':
      return `Plan changed from ${plan.pieces[what.from]?.name ?? `piece ${what.from + 1}`} on`;
    case 'weighed':
      return `${nameOf(what.yarn)} weighed: ${formatMass(what.grams - what.tare, units)}`;
    case 'bobbinChanged':
      return `A new bobbin of ${nameOf(what.yarn)}`;
    case 'cutOff':
      return t('Cut off the loom');
  }
}

/** Everything of an entry that a search looks through. */
export function searchWords(plan: Plan, entry: Entry): string {
  return `${toldWords(plan, entry.what)} ${placeWords(plan, entry)} ${dayWords(entry.at)}`;
}

/** Longer at a stretch than this hands and back want a rest (common practice, no source). */
export const LONG_SITTING_MINUTES = 45;

export const REST = t(
  'The same movement for long is hard on wrists and shoulders: get up now and then. If it hurts, ask someone who is licensed to treat it.',
);
