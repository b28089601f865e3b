/** The figures a warp can teach, and what became of each. */
import type { Mm } from '../measure/length.ts';
import type { Size } from './sizes.ts';

/**
 * `lengthLoss` is relax and shrinkage in one, from the loom to washed; `widthLoss` draw-in and
 * shrinkage in one, from the reed to washed. `crimp` is relative to the cloth (ASTM D3883).
 */
export const FIGURES = [
  'drawIn',
  'relax',
  'shrinkLength',
  'lengthLoss',
  'shrinkWidth',
  'widthLoss',
  'crimp',
  'weftExtra',
  'twist',
] as const;
export type FigureName = (typeof FIGURES)[number];

/** What a figure wants to be read. */
const WANTS = [
  'loom-length',
  'off-length',
  'washed-length',
  'fell-width',
  'off-width',
  'washed-width',
  'ravelled-end',
  'mass',
  'fringe',
  'off-fringe',
  'washed-fringe',
  'tied-on',
  'front-waste',
  'back-waste',
  'gaps',
] as const;
export type Want = (typeof WANTS)[number];

export type Figure =
  | { readonly kind: 'read'; readonly share: number; readonly error: number }
  | { readonly kind: 'not-read'; readonly wants: readonly Want[] }
  /** The readings come to a share no cloth has: one of them is wrong. */
  | { readonly kind: 'implausible'; readonly share: number };

/** Every size of a piece that was read; the width in the reed is counted, not read. */
export interface PieceSizes {
  readonly loomLength: Size | null;
  readonly offLength: Size | null;
  readonly washedLength: Size | null;
  readonly reedWidth: Mm;
  readonly fellWidth: Size | null;
  readonly offWidth: Size | null;
  readonly washedWidth: Size | null;
}

export interface PieceFigures {
  readonly piece: number;
  readonly counts: 'in' | 'out';
  readonly sizes: PieceSizes;
  readonly figures: { readonly [name in FigureName]: Figure };
}

export interface WarpFigures {
  readonly pieces: readonly PieceFigures[];
  readonly warpTaken: Figure;
}

/** A share that was read, if it lies where shares of cloth lie. */
export function plausible(share: number, error: number, least: number, most: number): Figure {
  return share < least || share > most
    ? { kind: 'implausible', share }
    : { kind: 'read', share, error };
}
