/** The story of a warp in words. */

import type { Entry, Sitting, Told, Work } from '../../../core/journal/journal.ts';
import type { Units } from '../../../core/measure/length.ts';
import { formatMass } from '../../../core/measure/mass.ts';
import type { Plan } from '../../../core/plan/plan.ts';
import { inOurNumbers, length, list } from '../../format.ts';
import { language, t } from '../../language/t.ts';
import { dueTitle } from '../weave/words.ts';

const DAY = new Intl.DateTimeFormat(language, {
  weekday: 'short',
  day: 'numeric',
  month: 'long',
  year: 'numeric',
});
const STAMP = new Intl.DateTimeFormat(language, {
  day: 'numeric',
  month: 'short',
  year: 'numeric',
  hour: '2-digit',
  minute: '2-digit',
});
const CLOCK = new Intl.DateTimeFormat(language, { hour: '2-digit', minute: '2-digit' });

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
  if (whole < 60) return t('{min} min', { min: whole });
  const h = Math.floor(whole / 60);
  const min = whole % 60;
  return min === 0 ? t('{h} h', { h }) : t('{h} h {min} min', { h, min });
}

const picksWords = (n: number) => t('{n, plural, one {# pick} other {# picks}}', { n });

export function workWords({ picks, minutes }: Work): string {
  const woven = picks === 0 ? [] : [picksWords(picks)];
  const time = minutes < 1 ? [] : [timeWords(minutes)];
  return [...woven, ...time].join(' · ');
}

export function sittingWords(plan: Plan, sitting: Sitting): string {
  const { pace, pieces, advances } = sitting;
  const names = pieces.map((piece) => plan.pieces[piece]?.name ?? '');
  const work = workWords(sitting);
  return [
    ...(work === '' ? [] : [work]),
    ...(pace === null ? [] : [t('{n} picks an hour', { n: Math.round(pace) })]),
    ...(names.length === 0 ? [] : [list(names)]),
    ...(advances === 0
      ? []
      : [t('warp advanced {n, plural, one {# time} other {# times}}', { n: advances })]),
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
      return pick === 0 ? name : `${name}, ${picksWords(pick)}`;
  }
}

export function toldWords(plan: Plan, what: Told): string {
  const { units } = plan;
  switch (what.kind) {
    case 'pieceWoven':
      return t('Woven to its end');
    case 'due': {
      const title = dueTitle(plan, what.due);
      return what.outcome === 'done' ? title : t('Put off: {due}', { due: title });
    }
    case 'takenOut':
      return t('{n, plural, one {# pick taken out} other {# picks taken out}}', { n: what.picks });
    case 'woveLength':
      return t('{long} woven, worked out as {n, plural, one {# pick} other {# picks}}', {
        long: length(what.loomLength, units),
        n: what.picks,
      });
    case 'warped':
      return t('Warping: {n, plural, one {# step} other {# steps}} done', { n: what.steps });
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

/** What was read off cloth, warp or fell. */
export function readWords(what: Readings, units: Units): string {
  const short = (mm: number) => length(mm, units);
  switch (what.kind) {
    case 'clothRead': {
      const sizes = [
        ...(what.lengths ?? []).map((mm) => t('{far} long', { far: short(mm) })),
        ...(what.widths ?? []).map((mm) => t('{far} wide', { far: short(mm) })),
        ...(what.fringe === undefined ? [] : [t('fringe {far}', { far: short(what.fringe) })]),
        ...(what.mass === undefined ? [] : [inOurNumbers(formatMass(what.mass, units))]),
      ];
      return t(
        'Measured {state, select, loom {on the loom} off {off the loom} other {washed}}: {sizes}',
        { state: what.state, sizes: list(sizes) },
      );
    }
    case 'warpRead': {
      const parts = [
        ...(what.tiedOn === undefined ? [] : [t('{far} tied on', { far: short(what.tiedOn) })]),
        ...(what.frontWaste === undefined
          ? []
          : [t('{far} waste in front', { far: short(what.frontWaste) })]),
        ...(what.backWaste === undefined
          ? []
          : [t('{far} waste behind', { far: short(what.backWaste) })]),
        ...(what.gaps === undefined
          ? []
          : [t('gaps of {gaps}', { gaps: list(what.gaps.map(short)) })]),
      ];
      return t('The warp: {parts}', { parts: list(parts) });
    }
    case 'endRavelled':
      return t('An end of {inCloth} drawn out and pulled to {straightened}', {
        inCloth: short(what.inCloth),
        straightened: short(what.straightened),
      });
    case 'measured':
      return t(
        'Fell {far} from {from, select, start {the start} other {a pin}}{tension, select, eased {, eased} other {}}',
        { far: short(what.loomLength), from: what.from.kind, tension: what.tension },
      );
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
      return t('Plan changed: block {block} is {n, plural, one {# pick} other {# picks}} now', {
        block: what.block + 1,
        n: what.picks,
      });
    case 'aimRefused':
      return t('The picks given anew by the last reading were not wanted');
    case 'blockKept':
      return t('Plan changed: block {block} keeps its {by, select, picks {picks} other {length}}', {
        block: what.block + 1,
        by: what.by,
      });
    case 'mirrorKept':
      return t(
        'Plan changed: the second half matches the first in {by, select, picks {picks} other {length}}',
        { by: what.by },
      );
    case 'revised':
      return t('Plan changed from {piece} on', {
        piece: plan.pieces[what.from]?.name ?? t('piece {n}', { n: what.from + 1 }),
      });
    case 'weighed':
      return t('{yarn} weighed: {mass}', {
        yarn: nameOf(what.yarn),
        mass: inOurNumbers(formatMass(what.grams - what.tare, units)),
      });
    case 'bobbinChanged':
      return t('A new bobbin of {yarn}', { yarn: nameOf(what.yarn) });
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
