/** What the Measure screen says. */
import type { ClothReadState } from '../../../core/bench/events.ts';
import type { Want } from '../../../core/learn/figure.ts';
import type { KnownName } from '../../../core/learn/knowledge.ts';
import { MM_PER_INCH, type Units } from '../../../core/measure/length.ts';
import type { Wish } from '../../../core/plan/plan.ts';
import { inOurNumbers, list } from '../../format.ts';
import { t } from '../../language/t.ts';

export const STATE_WORDS: Record<ClothReadState, string> = {
  loom: t('On the loom'),
  off: t('Off the loom'),
  washed: t('Washed'),
};

export const SIZES = ['length', 'width', 'fringe', 'mass'] as const;
export type SizeName = (typeof SIZES)[number];
export const SIZE_WORDS: Record<SizeName, string> = {
  length: t('Length'),
  width: t('Width'),
  fringe: t('Fringe'),
  mass: t('Weight'),
};

/** How to take a reading, so that all are taken alike. */
export const HOW: Record<SizeName, Partial<Record<ClothReadState, string>>> = {
  length: {
    loom: t('Under tension, from the first pick to the last, fringe apart.'),
    off: t('Rested over night, unwashed, laid flat without pulling; fringe apart.'),
    washed: t('Washed, dried and laid flat, before hems are turned; fringe apart.'),
  },
  width: {
    loom: t('At the fell, under tension, from selvedge to selvedge.'),
    off: t('Laid flat without pulling, in a few places.'),
    washed: t('Washed, dried and laid flat, in a few places.'),
  },
  fringe: {
    off: t('From the edge to the tip, before it is twisted or trimmed.'),
    washed: t('From the edge to the tip, finished.'),
  },
  mass: {
    off: t('The whole piece with its fringe, before it is washed.'),
    washed: t('The whole piece with its fringe, quite dry.'),
  },
};

export const FIGURE_WORDS: Record<KnownName, { readonly name: string; readonly of: string }> = {
  drawIn: { name: t('Draw-in'), of: t('of the width in the reed') },
  relax: { name: t('Off the loom'), of: t('of the length on the loom') },
  shrinkLength: { name: t('Shrinkage in length'), of: t('of the length off the loom') },
  lengthLoss: { name: t('From loom to washed'), of: t('of the length on the loom') },
  shrinkWidth: { name: t('Shrinkage in width'), of: t('of the width off the loom') },
  widthLoss: { name: t('From reed to washed'), of: t('of the width in the reed') },
  crimp: { name: t('Crimp of the warp'), of: t('of the length in the cloth') },
  weftExtra: { name: t('Weft extra'), of: t('of the width in the reed') },
  twist: { name: t('Twisting'), of: t('of the fringe') },
  warpTaken: { name: t('Warp taken'), of: t('over the length on the loom') },
};

const WANT_WORDS: Record<Want, string> = {
  'loom-length': t('the length on the loom'),
  'off-length': t('the length off the loom'),
  'washed-length': t('the washed length'),
  'fell-width': t('a width at the fell'),
  'off-width': t('the width off the loom'),
  'washed-width': t('the washed width'),
  'ravelled-end': t('an end drawn out'),
  mass: t('the weight'),
  fringe: t('the fringe'),
  'off-fringe': t('the fringe before twisting'),
  'washed-fringe': t('the finished fringe'),
  'tied-on': t('the warp as tied on'),
  'front-waste': t('the waste in front'),
  'back-waste': t('the waste behind'),
  gaps: t('the gaps'),
};

export function wantWords(wants: readonly Want[]): string {
  return t('Not learnt. Wants {wants}.', { wants: list(wants.map((it) => WANT_WORDS[it])) });
}

export const WISH_WORDS: Record<Wish['state'], string> = {
  loom: t('on the loom'),
  off: t('off the loom'),
  washed: t('washed'),
  finished: t('finished'),
};

/** A spread of readings: to the step that is printed it would often be nothing. */
export function spreadWords(mm: number, units: Units): string {
  return units === 'inch'
    ? `±\u00a0${inOurNumbers((mm / MM_PER_INCH).toFixed(2))}\u00a0in`
    : `±\u00a0${inOurNumbers((mm / 10).toFixed(2).replace(/0$/, ''))}\u00a0cm`;
}

export const CARE = {
  fringe: t(
    'Keep a fringe away from flames. On anything for small children follow your country’s rules for cords and fringes.',
  ),
  lint: t('Trimming makes lint and dust: air the room, and mind your lungs.'),
} as const;
