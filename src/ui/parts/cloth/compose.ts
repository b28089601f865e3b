/** The cloth as pixels: picks drawn before are kept, so one more pick is mostly a copy of rows. */
import { warpRows } from './bareWarp.ts';
import type { ClothFrame } from './frame.ts';
import type { WovenPicks } from './scene.ts';
import { isGap } from './scene.ts';
import type { ThreadTiles } from './threads.ts';
import { pickStrip, threadTiles } from './threads.ts';

/** The image of one cloth, from the fell down, and what it is made from. */
export interface ClothImage {
  readonly ends: Uint32Array;
  readonly lifts: readonly Uint8Array[];
  /** In pixels; the pixels are `width × height`, row by row. */
  readonly width: number;
  readonly height: number;
  readonly pixels: Uint32Array;
  readonly tiles: ThreadTiles;
  /** Picks drawn before, by all that shapes them. */
  readonly strips: Map<string, Uint32Array>;
  /** One row of bare warp, as it lies below the first pick. */
  readonly bare: Uint32Array;
}

/** What a cloth is woven on: colours of ends, sheds, and the colour behind it. */
export interface Warp {
  readonly ends: Uint32Array;
  readonly lifts: readonly Uint8Array[];
  readonly ground: number;
}

/** Strips kept; a cloth that needs more has very many colours, and some are simply drawn again. */
const MOST_STRIPS = 160;
/** Picks of one colour come in so many slightly different ones. */
const GRAINS = 4;
const NO_SHED = -1;

/** Rows of pixels an image needs: to the lower edge, and one pick more while that is beaten in. */
export function imageHeight({ height, fellY, pickPx }: ClothFrame): number {
  return Math.max(1, height - fellY + pickPx);
}

/** `pixels` has room for `clothWidth × imageHeight` of the frame. */
export function clothImage(frame: ClothFrame, warp: Warp, pixels: Uint32Array): ClothImage {
  const { clothLeft, clothWidth, fellY, endPx, pickPx } = frame;
  const row = warpRows(frame, { ...warp, lift: undefined }, fellY, fellY + 1);
  return {
    ends: warp.ends,
    lifts: warp.lifts,
    width: clothWidth,
    height: imageHeight(frame),
    pixels,
    tiles: threadTiles(endPx, pickPx),
    strips: new Map(),
    bare: row.subarray(clothLeft, clothLeft + clothWidth),
  };
}

/**
 * Fills the first `rows` rows: the newest pick, `lead` rows of bare warp, the older picks, and bare
 * warp below the oldest.
 */
export function composeCloth(
  image: ClothImage,
  woven: WovenPicks,
  { rows, lead }: { readonly rows: number; readonly lead: number },
): void {
  const { pickPx } = image.tiles;
  const newest = woven.colours.length - 1;
  let y = 0;
  for (let pick = newest; pick >= 0 && y < rows; pick--) {
    const strip = stripOf(image, woven, pick);
    if (strip === undefined) layBare(image, y, Math.min(y + pickPx, rows));
    else image.pixels.set(strip.subarray(0, (rows - y) * image.width), y * image.width);
    y += pickPx;
    if (pick < newest) continue;
    layBare(image, y, Math.min(y + lead, rows));
    y += lead;
  }
  layBare(image, y, rows);
}

function layBare({ bare, width, pixels }: ClothImage, top: number, bottom: number): void {
  for (let row = top; row < bottom; row++) pixels.set(bare, row * width);
}

/** One pick as pixels; none where the weave has a gap. */
function stripOf(image: ClothImage, woven: WovenPicks, pick: number): Uint32Array | undefined {
  const weft = woven.colours[pick] ?? 0;
  if (isGap(weft)) return undefined;
  const shed = shedAt(woven, pick);
  const above = shedAt(woven, pick + 1);
  const below = shedAt(woven, pick - 1);
  const grain = grainOf(woven.before + pick);
  const key = `${weft} ${shed} ${above} ${below} ${grain}`;
  const kept = image.strips.get(key);
  if (kept !== undefined) return kept;
  const { ends, lifts, tiles, width, strips } = image;
  const lift = lifts[shed];
  if (lift === undefined) throw new Error(`got shed ${shed}, wanted one of ${lifts.length}`);
  const around = { above: lifts[above], below: lifts[below] };
  const strip = pickStrip(tiles, { weft, ends, lift, ...around, grain }, width);
  if (strips.size >= MOST_STRIPS) strips.clear();
  strips.set(key, strip);
  return strip;
}

function shedAt({ colours, sheds }: WovenPicks, pick: number): number {
  return isGap(colours[pick] ?? 0) ? NO_SHED : (sheds[pick] ?? NO_SHED);
}

/** Spread over the picks without a rhythm the eye could find. */
function grainOf(pick: number): number {
  return 1 + ((Math.imul(pick + 1, 0x9e3779b1) >>> 28) % GRAINS);
}
