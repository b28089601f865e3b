/** What the picture of the cloth shows. Colours are pixels 0xAABBGGRR, as `pixelOf` makes them. */
import type { ClothFrame } from './frame.ts';

export interface ClothScene {
  readonly frame: ClothFrame;
  /** Colour of every end, from the left as the weaver sits. */
  readonly ends: Uint32Array;
  /** For every shed one byte an end: 1 where the end is up. */
  readonly lifts: readonly Uint8Array[];
  readonly woven: WovenPicks;
  readonly coming: ComingPicks;
  /** What lies behind and beside the cloth: the page. */
  readonly ground: number;
  /** The shed now open, as an index into `lifts`, if the warp is to show it. */
  readonly openShed?: number | undefined;
}

/** The last picks in the cloth, oldest first; as many as can be seen are enough. */
export interface WovenPicks {
  /** A colour with no opacity is no pick: a pick's height of bare warp, as in a gap. */
  readonly colours: Uint32Array;
  /** For every pick an index into the lifts. */
  readonly sheds: Uint8Array;
  /** From where each was thrown, 0 left, 1 right; without it the selvedges show no loops. */
  readonly from?: Uint8Array | undefined;
  /** Picks older than these: keeps every thread's unevenness where it is while the cloth grows. */
  readonly before: number;
}

/** The next picks, next one first. */
export interface ComingPicks {
  readonly colours: Uint32Array;
  /** The yarn's letter for each. */
  readonly letters?: readonly string[] | undefined;
}

/** Whether there is bare warp instead of a pick. */
export function isGap(colour: number): boolean {
  return colour >>> 24 === 0;
}
