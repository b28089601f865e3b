/** The cloth as pixels: picks drawn before are kept, so that most of a stretch is a copy of rows. */
import { warpRows } from './bareWarp.ts';
import type { ClothFrame } from './frame.ts';
import type { WovenPicks } from './scene.ts';
import { isGap } from './scene.ts';
import type { ThreadTiles } from './threads.ts';
import { pickStrip, threadTiles } from './threads.ts';

/** What the picks of one cloth are drawn from. */
export interface ClothImage {
  readonly ends: Uint32Array;
  readonly lifts: readonly Uint8Array[];
  /** In pixels. */
  readonly width: number;
  readonly tiles: ThreadTiles;
  /** Picks drawn before, by all that shapes them. */
  readonly strips: Map<string, Uint32Array<ArrayBuffer>>;
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

export function clothImage(frame: ClothFrame, warp: Warp): ClothImage {
  const { clothLeft, clothWidth, fellY, endPx, pickPx } = frame;
  const row = warpRows(frame, { ...warp, lift: undefined }, fellY, fellY + 1);
  return {
    ends: warp.ends,
    lifts: warp.lifts,
    width: clothWidth,
    tiles: threadTiles(endPx, pickPx),
    strips: new Map(),
    bare: row.subarray(clothLeft, clothLeft + clothWidth),
  };
}

/** Some picks of a cloth, one under the other. */
export interface Stretch {
  /** The pick that lies uppermost, as an index into the woven picks; beyond the last there is nothing. */
  readonly top: number;
  readonly picks: number;
  /** Only so many of the woven picks are drawn, from the oldest on: where others lie it stays clear. */
  readonly drawn: number;
}

/**
 * Fills pixels, `width` a row: a strip a pick, bare warp in gaps and below the oldest, nothing where a
 * pick is not drawn.
 */
export function composePicks(
  image: ClothImage,
  woven: WovenPicks,
  { top, picks, drawn }: Stretch,
  pixels: Uint32Array,
): void {
  const size = image.width * image.tiles.pickPx;
  for (let place = 0; place < picks; place++) {
    const pick = top - place;
    const from = place * size;
    if (pick >= drawn) pixels.fill(0, from, from + size);
    else {
      const strip = pick < 0 ? undefined : stripOf(image, woven, pick);
      if (strip === undefined) layBare(image, pixels, from);
      else pixels.set(strip, from);
    }
  }
}

/** A pick's height of bare warp. */
function layBare({ bare, width, tiles }: ClothImage, pixels: Uint32Array, from: number): void {
  for (let row = 0; row < tiles.pickPx; row++) pixels.set(bare, from + row * width);
}

/** One pick as pixels; none where the weave has a gap. */
export function stripOf(
  image: ClothImage,
  woven: WovenPicks,
  pick: number,
): Uint32Array<ArrayBuffer> | undefined {
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
