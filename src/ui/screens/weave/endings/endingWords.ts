/** Ways to end a piece, in words. */

import type { Course } from '../../../../core/bench/course.ts';
import type {
  BlockChange,
  Fit,
  Lasts,
  PieceEnding,
  Sameness,
  Stop,
  WarpAfter,
} from '../../../../core/bench/endings/ending.ts';
import type { Units } from '../../../../core/measure/length.ts';
import type { Plan } from '../../../../core/plan/plan.ts';
import { inOurNumbers, length, list, spread } from '../../../format.ts';
import { t } from '../../../language/t.ts';
import { lengthLeft } from '../left/leftWords.ts';

/** The yarns of a block, by name. */
function blockName(course: Course, piece: number, block: number): string {
  const it = course.blocks[(course.pieces[piece]?.firstBlock ?? 0) + block];
  const yarns = [...new Set(it?.laid.period.yarns ?? [])];
  return list(yarns.map((yarn) => course.plan.yarns[yarn]?.name ?? ''));
}

export function placeWords(course: Course, { place, piece }: Stop): string {
  switch (place.kind) {
    case 'here':
      return t('Here');
    case 'turn':
      return t('After turn {turn} of {of} of {name}', {
        turn: place.turn,
        of: place.of,
        name: blockName(course, piece, place.block),
      });
    case 'block':
      return t('After {name}', { name: blockName(course, piece, place.block) });
    case 'planned':
      return t('Where the plan ends');
    case 'beyond':
      return beyondWords(place.motifs, place.turns);
  }
}

function beyondWords(motifs: number, turns: number): string {
  const parts = [
    ...(motifs > 0 ? [t('{n, plural, one {# motif} other {# motifs}}', { n: motifs })] : []),
    ...(turns > 0 ? [t('{n, plural, one {# turn} other {# turns}}', { n: turns })] : []),
  ];
  return t('{much} more than planned', { much: list(parts) });
}

const SAME: Record<Sameness, string> = {
  exact: t('Reads the same from both ends'),
  toTheEye: t('Reads the same from both ends to the eye'),
  no: '',
};

export function sameWords(plan: Plan, { reads }: Pick<PieceEnding, 'reads'>): string {
  if (reads.same !== 'no') return SAME[reads.same];
  const name = (yarn: number) => plan.yarns[yarn]?.name ?? '';
  return reads.begins === reads.ends
    ? t('Not the same from both ends')
    : t('Begins in {first}, ends in {last}', {
        first: name(reads.begins),
        last: name(reads.ends),
      });
}

export interface LengthRow {
  readonly state: string;
  readonly words: string;
}

export function lengthRows({ lengths }: PieceEnding, units: Units): readonly LengthRow[] {
  const words = (it: PieceEnding['lengths']['loom']) =>
    `${length(it.mm, units)} ${spread(it, units)}`;
  return [
    { state: t('on the loom'), words: words(lengths.loom) },
    { state: t('off the loom'), words: words(lengths.off) },
    { state: t('washed'), words: words(lengths.washed) },
    { state: t('finished'), words: words(lengths.finished) },
  ];
}

export function wishWords({ fromWish }: PieceEnding, units: Units): string | null {
  if (fromWish === null) return null;
  const off = length(Math.abs(fromWish.mm), units);
  if (off === length(0, units)) return t('Just the wished length');
  return fromWish.mm > 0
    ? t('{length} longer than wished', { length: off })
    : t('{length} shorter than wished', { length: off });
}

export function workWords({ picks, minutes }: PieceEnding): string {
  if (picks === 0) return t('Nothing more to weave');
  return minutes === null
    ? t('{n, plural, one {# pick} other {# picks}} to weave', { n: picks })
    : t('{n, plural, one {# pick} other {# picks}} to weave, about {time}', {
        n: picks,
        time: timeWords(minutes),
      });
}

function timeWords(minutes: number): string {
  if (minutes < 90) return t('{n} minutes', { n: Math.max(5, Math.round(minutes / 5) * 5) });
  return t('{n} hours', { n: inOurNumbers(String(Math.round(minutes / 30) / 2)) });
}

export function warpAfterWords({ leaves, verdict }: WarpAfter, units: Units): string {
  switch (verdict) {
    case 'fits':
      return t('leaves {length} of warp', { length: lengthLeft(leaves, units) });
    case 'maybe':
      return t('may not reach: {length} short at worst', {
        length: length(Math.abs(leaves.low), units),
      });
    case 'tooLong':
      return t('is {length} longer than the warp', { length: length(-leaves.mm, units) });
  }
}

/** Only the yarns there is something to say about. */
export function yarnsWords(plan: Plan, { yarns }: PieceEnding): string | null {
  const short = yarns.flatMap((it) => lastsWords(plan.yarns[it.yarn]?.name ?? '', it.lasts));
  return short.length === 0 ? null : list(short);
}

function lastsWords(yarn: string, lasts: Lasts): readonly string[] {
  if (lasts === 'maybe') return [t('{yarn} may run out', { yarn })];
  return lasts === 'no' ? [t('{yarn} will run out', { yarn })] : [];
}

export function fitTitle(fit: Fit): string {
  const base = WAYS[fit.way];
  const motifs = motifWords(fit.motifs);
  const dropped =
    fit.dropped === 0
      ? ''
      : t('without the last {n, plural, one {piece} other {# pieces}}', { n: fit.dropped });
  const parts = [motifs, fit.changes.length > 0 || motifs === '' ? base : '', dropped];
  const words = parts.filter((it) => it !== '').join(', ');
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}`;
}

function motifWords(motifs: number): string {
  if (motifs === 0) return '';
  return motifs > 0
    ? t('{n, plural, one {# motif} other {# motifs}} more', { n: motifs })
    : t('{n, plural, one {# motif} other {# motifs}} fewer', { n: -motifs });
}

const WAYS: Record<Fit['way'], string> = {
  block: t('one block changed'),
  pair: t('the two blocks of a mirror changed'),
  proportion: t('the blocks to come changed in proportion'),
  motifs: '',
  mirror: t('the second half as the first became'),
  dropped: '',
};

/** Parts of a sentence one after the other. */
export const inARow = (parts: readonly string[]) =>
  parts.reduce((first, then) => t('{first}; {then}', { first, then }));

/** What changes, the first three in words and the others by number, and what it leaves of the warp. */
export function fitWords(course: Course, { changes, warpAfterAll }: Fit): string {
  const { units } = course.plan;
  const after = warpAfterWords(warpAfterAll, units);
  if (changes.length === 0) return after;
  const words = inARow(changes.slice(0, 3).map((it) => changeWords(course, it)));
  const more = changes.length - 3;
  return inARow([more > 0 ? t('{words} and {more} more', { words, more }) : words, after]);
}

function changeWords(course: Course, change: BlockChange): string {
  const name = blockName(course, change.piece, change.block);
  return t('{name}: {to} picks instead of {from}', {
    name,
    to: change.picksTo,
    from: change.picksFrom,
  });
}
