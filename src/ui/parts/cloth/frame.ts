/** Where everything in the picture of the cloth lies, in whole device pixels. */

/** The room the picture has; lengths in CSS pixels. */
export interface ClothRoom {
  readonly width: number;
  readonly height: number;
  /** Device pixels in one CSS pixel. */
  readonly dpr: number;
  readonly ends: number;
  /** Distance from pick to pick over distance from end to end, on the loom. */
  readonly aspect: number;
  /** Where the fell lies, as a share of the height from the top. */
  readonly fellAt?: number;
  /** Room kept free at either side, for the loops of the weft. */
  readonly gutter?: number;
  /** A pick is never drawn lower than this, whatever its proportion. */
  readonly leastPick?: number;
}

/** All in device pixels. */
export interface ClothFrame {
  readonly dpr: number;
  readonly width: number;
  readonly height: number;
  readonly ends: number;
  /** From end to end in the cloth: whole, half, or one over a whole number. */
  readonly endPx: number;
  readonly pickPx: number;
  readonly clothLeft: number;
  readonly clothWidth: number;
  readonly fellY: number;
  /** From one coming pick to the next. */
  readonly comingPx: number;
}

/** How much wider the warp lies in the heddle than the cloth at the fell, as a share. */
export const FAN = 0.03;

/** An end is never drawn wider than this, in CSS pixels: a narrow band stays a band. */
const WIDEST_END = 12;

/**
 * Fits so many ends into a room. Threads get whole device pixels, or whole pixels for every two
 * ends, so that all look alike: a cloth stretched to the last pixel shows stripes nobody wove.
 */
export function clothFrame(room: ClothRoom): ClothFrame {
  const { dpr, ends } = room;
  const width = Math.round(room.width * dpr);
  const height = Math.round(room.height * dpr);
  const inner = width / (1 + FAN) - 2 * (room.gutter ?? 10) * dpr;
  const endPx = wholeThread(Math.min(inner / Math.max(ends, 1), WIDEST_END * dpr));
  const least = Math.ceil((room.leastPick ?? 3) * dpr);
  const pickPx = Math.max(Math.round(endPx * room.aspect), least, 1);
  const clothWidth = Math.ceil(ends * endPx);
  return {
    dpr,
    width,
    height,
    ends,
    endPx,
    pickPx,
    clothLeft: Math.floor((width - clothWidth) / 2),
    clothWidth,
    fellY: Math.round(height * (room.fellAt ?? 0.42)),
    comingPx: Math.round(Math.max(2 * pickPx, 11 * dpr)),
  };
}

/** The widest thread not wider than `px` that repeats on whole pixels after a few ends. */
function wholeThread(px: number): number {
  if (px >= 4) return Math.floor(px);
  if (px >= 1) return Math.floor(px * 2) / 2;
  return 1 / Math.ceil(1 / Math.max(px, 0.05));
}
