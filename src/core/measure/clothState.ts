import type { Mm } from './length.ts';
import { afterLosses, beforeLosses } from './takeUp.ts';

/**
 * What cloth loses and yarn gives from one state to the next, as fractions of the earlier state:
 * in the reed → on the loom → off the loom, relaxed → washed.
 */
export interface Allowances {
  /** Width lost from the reed to the fell. */
  readonly drawIn: number;
  /** Length lost when the tension comes off. */
  readonly relax: number;
  /** Width lost in wet finishing. */
  readonly shrinkWidth: number;
  /** Length lost in wet finishing. */
  readonly shrinkLength: number;
  /** Warp taken from the beam beyond the length on the loom. */
  readonly warpTaken: number;
  /** Weft in a pick beyond the width in the reed. */
  readonly weftExtra: number;
}

/** Length off the loom, relaxed and unwashed, of a length woven under tension. */
export function offLength(loom: Mm, { relax }: Allowances): Mm {
  return afterLosses(loom, [relax]);
}

/** Length after wet finishing of a length woven under tension. */
export function washedLength(loom: Mm, { relax, shrinkLength }: Allowances): Mm {
  return afterLosses(loom, [relax, shrinkLength]);
}

/** Length to weave under tension for a washed length wished. */
export function loomLengthFor(washed: Mm, { relax, shrinkLength }: Allowances): Mm {
  return beforeLosses(washed, [relax, shrinkLength]);
}

/** Width at the fell, and off the loom, of a width in the reed. */
export function loomWidth(reed: Mm, { drawIn }: Allowances): Mm {
  return afterLosses(reed, [drawIn]);
}

/** Width after wet finishing of a width in the reed. */
export function washedWidth(reed: Mm, { drawIn, shrinkWidth }: Allowances): Mm {
  return afterLosses(reed, [drawIn, shrinkWidth]);
}

/** Width in the reed for a washed width wished. */
export function reedWidthFor(washed: Mm, { drawIn, shrinkWidth }: Allowances): Mm {
  return beforeLosses(washed, [drawIn, shrinkWidth]);
}

/** Warp that a length woven under tension takes from the beam. */
export function warpFor(loom: Mm, { warpTaken }: Allowances): Mm {
  return loom * (1 + warpTaken);
}

/** Length that can be woven under tension from a length of warp: the way back of `warpFor`. */
export function loomLengthFromWarp(warp: Mm, { warpTaken }: Allowances): Mm {
  return warp / (1 + warpTaken);
}

/** Weft in one pick across a width in the reed. */
export function weftPerPick(reed: Mm, { weftExtra }: Allowances): Mm {
  return reed * (1 + weftExtra);
}

/** Sett after wet finishing of a sett in the reed, per inch or per anything: width lost packs ends. */
export function washedSett(inReed: number, { drawIn, shrinkWidth }: Allowances): number {
  return beforeLosses(inReed, [drawIn, shrinkWidth]);
}

/** Beat after wet finishing of a beat on the loom, per inch or per anything: length lost packs picks. */
export function washedBeat(onLoom: number, { relax, shrinkLength }: Allowances): number {
  return beforeLosses(onLoom, [relax, shrinkLength]);
}
