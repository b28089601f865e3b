/** What the Measure screen says. */
import type { ClothReadState } from '../../../core/bench/events.ts';
import type { Want } from '../../../core/learn/figure.ts';
import type { KnownName } from '../../../core/learn/knowledge.ts';
import { MM_PER_INCH, type Units } from '../../../core/measure/length.ts';
import type { Wish } from '../../../core/plan/plan.ts';
import { list } from '../../format.ts';

export const STATE_WORDS: Record<ClothReadState, string> = {
  loom: 'On the loom',
  off: 'Off the loom',
  washed: 'Washed',
};

export const SIZES = ['length', 'width', 'fringe', 'mass'] as const;
export type SizeName = (typeof SIZES)[number];
export const SIZE_WORDS: Record<SizeName, string> = {
  length: 'Length',
  width: 'Width',
  fringe: 'Fringe',
  mass: 'Weight',
};

/** How to take a reading, so that all are taken alike. */
export const HOW: Record<SizeName, Partial<Record<ClothReadState, string>>> = {
  length: {
    loom: 'Under tension, from the first pick to the last, fringe apart.',
    off: 'Rested over night, unwashed, laid flat without pulling; fringe apart.',
    washed: 'Washed, dried and laid flat, before hems are turned; fringe apart.',
  },
  width: {
    loom: 'At the fell, under tension, from selvedge to selvedge.',
    off: 'Laid flat without pulling, in a few places.',
    washed: 'Washed, dried and laid flat, in a few places.',
  },
  fringe: {
    off: 'From the edge to the tip, before it is twisted or trimmed.',
    washed: 'From the edge to the tip, finished.',
  },
  mass: {
    off: 'The whole piece with its fringe, before it is washed.',
    washed: 'The whole piece with its fringe, quite dry.',
  },
};

export const FIGURE_WORDS: Record<KnownName, { readonly name: string; readonly of: string }> = {
  drawIn: { name: 'Draw-in', of: 'of the width in the reed' },
  relax: { name: 'Off the loom', of: 'of the length on the loom' },
  shrinkLength: { name: 'Shrinkage in length', of: 'of the length off the loom' },
  lengthLoss: { name: 'From loom to washed', of: 'of the length on the loom' },
  shrinkWidth: { name: 'Shrinkage in width', of: 'of the width off the loom' },
  widthLoss: { name: 'From reed to washed', of: 'of the width in the reed' },
  crimp: { name: 'Crimp of the warp', of: 'of the length in the cloth' },
  weftExtra: { name: 'Weft extra', of: 'of the width in the reed' },
  twist: { name: 'Twisting', of: 'of the fringe' },
  warpTaken: { name: 'Warp taken', of: 'over the length on the loom' },
};

const WANT_WORDS: Record<Want, string> = {
  'loom-length': 'the length on the loom',
  'off-length': 'the length off the loom',
  'washed-length': 'the washed length',
  'fell-width': 'a width at the fell',
  'off-width': 'the width off the loom',
  'washed-width': 'the washed width',
  'ravelled-end': 'an end drawn out',
  mass: 'the weight',
  fringe: 'the fringe',
  'off-fringe': 'the fringe before twisting',
  'washed-fringe': 'the finished fringe',
  'tied-on': 'the warp as tied on',
  'front-waste': 'the waste in front',
  'back-waste': 'the waste behind',
  gaps: 'the gaps',
};

export function wantWords(wants: readonly Want[]): string {
  return `Not learnt. Wants ${list(wants.map((it) => WANT_WORDS[it]))}.`;
}

export const WISH_WORDS: Record<Wish['state'], string> = {
  loom: 'on the loom',
  off: 'off the loom',
  washed: 'washed',
  finished: 'finished',
};

/** A spread of readings: to the step that is printed it would often be nothing. */
export function spreadWords(mm: number, units: Units): string {
  return units === 'inch'
    ? `±\u00a0${(mm / MM_PER_INCH).toFixed(2)}\u00a0in`
    : `±\u00a0${(mm / 10).toFixed(2).replace(/0$/, '')}\u00a0cm`;
}

export const CARE = {
  fringe:
    'Keep a fringe away from flames. On anything for small children follow your country’s rules for cords and fringes.',
  lint: 'Trimming makes lint and dust: air the room, and mind your lungs.',
} as const;
