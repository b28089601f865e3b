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
import { count, length, list, spread } from '../../../format.ts';
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
      return 'Here';
    case 'turn':
      return `After turn ${place.turn} of ${place.of} of ${blockName(course, piece, place.block)}`;
    case 'block':
      return `After ${blockName(course, piece, place.block)}`;
    case 'planned':
      return 'Where the plan ends';
    case 'beyond':
      return beyondWords(place.motifs, place.turns);
  }
}

function beyondWords(motifs: number, turns: number): string {
  const parts = [
    ...(motifs > 0 ? [count(motifs, 'motif')] : []),
    ...(turns > 0 ? [count(turns, 'turn')] : []),
  ];
  return `${list(parts)} more than planned`;
}

const SAME: Record<Sameness, string> = {
  exact: 'Reads the same from both ends',
  toTheEye: 'Reads the same from both ends to the eye',
  no: '',
};

export function sameWords(plan: Plan, { reads }: Pick<PieceEnding, 'reads'>): string {
  if (reads.same !== 'no') return SAME[reads.same];
  const name = (yarn: number) => plan.yarns[yarn]?.name ?? '';
  return reads.begins === reads.ends
    ? 'Not the same from both ends'
    : `Begins in ${name(reads.begins)}, ends in ${name(reads.ends)}`;
}

export interface LengthRow {
  readonly state: string;
  readonly words: string;
}

export function lengthRows({ lengths }: PieceEnding, units: Units): readonly LengthRow[] {
  const words = (it: PieceEnding['lengths']['loom']) =>
    `${length(it.mm, units)} ${spread(it, units)}`;
  return [
    { state: 'on the loom', words: words(lengths.loom) },
    { state: 'off the loom', words: words(lengths.off) },
    { state: 'washed', words: words(lengths.washed) },
    { state: 'finished', words: words(lengths.finished) },
  ];
}

export function wishWords({ fromWish }: PieceEnding, units: Units): string | null {
  if (fromWish === null) return null;
  const off = length(Math.abs(fromWish.mm), units);
  if (off === length(0, units)) return 'Just the wished length';
  return `${off} ${fromWish.mm > 0 ? 'longer' : 'shorter'} than wished`;
}

export function workWords({ picks, minutes }: PieceEnding): string {
  const time = minutes === null ? '' : `, about ${timeWords(minutes)}`;
  return picks === 0 ? 'Nothing more to weave' : `${count(picks, 'pick')} to weave${time}`;
}

function timeWords(minutes: number): string {
  if (minutes < 90) return count(Math.max(5, Math.round(minutes / 5) * 5), 'minute');
  return `${Math.round(minutes / 30) / 2} hours`;
}

export function warpAfterWords({ leaves, verdict }: WarpAfter, units: Units): string {
  switch (verdict) {
    case 'fits':
      return `leaves ${lengthLeft(leaves, units)} of warp`;
    case 'maybe':
      return `may not reach: ${length(Math.abs(leaves.low), units)} short at worst`;
    case 'tooLong':
      return `is ${length(-leaves.mm, units)} longer than the warp`;
  }
}

const LASTING: Record<Lasts, string> = {
  yes: '',
  unknown: '',
  maybe: 'may run out',
  no: 'will run out',
};

/** Only the yarns there is something to say about. */
export function yarnsWords(plan: Plan, { yarns }: PieceEnding): string | null {
  const short = yarns.filter((it) => LASTING[it.lasts] !== '');
  if (short.length === 0) return null;
  return list(short.map((it) => `${plan.yarns[it.yarn]?.name ?? ''} ${LASTING[it.lasts]}`));
}

export function fitTitle(fit: Fit): string {
  const base = WAYS[fit.way];
  const motifs =
    fit.motifs === 0
      ? ''
      : `${count(Math.abs(fit.motifs), 'motif')} ${fit.motifs > 0 ? 'more' : 'fewer'}`;
  const dropped = fit.dropped === 0 ? '' : `without the last ${count(fit.dropped, 'piece')}`;
  const parts = [motifs, fit.changes.length > 0 || motifs === '' ? base : '', dropped];
  const words = parts.filter((it) => it !== '').join(', ');
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}`;
}

const WAYS: Record<Fit['way'], string> = {
  block: 'one block changed',
  pair: 'the two blocks of a mirror changed',
  proportion: 'the blocks to come changed in proportion',
  motifs: '',
  mirror: 'the second half as the first became',
  dropped: '',
};

export function changeWords(course: Course, change: BlockChange): string {
  const name = blockName(course, change.piece, change.block);
  return `${name}: ${change.picksTo} picks instead of ${change.picksFrom}`;
}
