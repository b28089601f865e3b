/**
 * Draws one pick, thread by thread. How a thread takes the light is worked out once for a cell and
 * kept as shares of each pixel; a pick is then drawn by looking these up.
 */
import { toned, unevenness } from './colour.ts';
import type { CellShape } from './light.ts';
import { GOES_ON_AFTER, GOES_ON_BEFORE, KINDS, pixelLight, UP } from './light.ts';

/** Shares of 256 for each pixel of one cell, row by row. */
interface Tile {
  readonly width: number;
  readonly top: Uint16Array;
  readonly under: Uint16Array;
  readonly white: Uint16Array;
}

/** Tiles for every place an end can begin within a pixel, and for every kind of cell. */
export interface ThreadTiles {
  readonly endPx: number;
  readonly pickPx: number;
  /** How many ways the plies of a float may lie. */
  readonly turns: number;
  readonly places: readonly (readonly Tile[])[];
}

/** What one pick needs to be drawn. Lifts hold 1 where an end is up. */
export interface PickStrip {
  readonly weft: number;
  readonly ends: Uint32Array;
  readonly lift: Uint8Array;
  /** The sheds of the picks above and below it; absent at the fell and at the first pick. */
  readonly above: Uint8Array | undefined;
  readonly below: Uint8Array | undefined;
  /** Which of the small unevennesses of yarn this pick has. */
  readonly grain: number;
}

const OPAQUE = 0xff000000;
const RED_BLUE = 0xff00ff;

/** Thinner than this, in pixels, the plies of a thread do not show. */
const PLIES_SHOW = 7;
const TURNS = 3;

/** Shading for threads so far apart, in device pixels. */
export function threadTiles(endPx: number, pickPx: number): ThreadTiles {
  const plied = Math.min(endPx, pickPx) >= PLIES_SHOW;
  const turns = plied ? TURNS : 1;
  const period = Math.round(endPx >= 1 ? 1 / (endPx % 1 || 1) : 1 / endPx);
  const places = Array.from({ length: period }, (_, end) =>
    Array.from({ length: KINDS * turns }, (_, at) => {
      const turn = Math.floor(at / KINDS) / turns;
      return tileOf({ kind: at % KINDS, endPx, pickPx, twist: plied ? 0.05 : 0, turn }, end);
    }),
  );
  return { endPx, pickPx, turns, places };
}

/** Draws one pick over all ends: rows of opaque pixels, `width` wide and `pickPx` high. */
export function pickStrip(
  tiles: ThreadTiles,
  pick: PickStrip,
  width: number,
): Uint32Array<ArrayBuffer> {
  const { places, turns, endPx, pickPx } = tiles;
  const out = new Uint32Array(width * pickPx);
  for (let end = 0; end < pick.ends.length; end++) {
    const turn = Math.floor((unevenness(end, pick.grain + 7) * 0.4999 + 0.5) * turns);
    const tile = places[end % places.length]?.[kindOf(pick, end) + KINDS * turn];
    if (tile === undefined) throw new Error(`got no tile for end ${end}, wanted one`);
    const warp = warpColour(pick, end);
    const weft = weftColour(pick, end);
    const [upper, lower] = pick.lift[end] === 1 ? [warp, weft] : [weft, warp];
    drawCell(out, Math.floor(end * endPx + 1e-6), width, tile, upper, lower);
  }
  if ((pick.ends.length * endPx) % 1 > 1e-6) mendEdge(out, width);
  for (let at = 0; at < out.length; at++) out[at] = (out[at] ?? 0) | OPAQUE;
  return out;
}

/** Spun yarn is never quite even: every end keeps its own tone, and each float differs a little. */
function warpColour({ ends, grain }: PickStrip, end: number): number {
  return toned(ends[end] ?? 0, 0.025 * unevenness(end, 0) + 0.02 * unevenness(end, grain));
}

function weftColour({ weft, grain }: PickStrip, end: number): number {
  return toned(weft, 0.02 * unevenness(grain, 1) + 0.025 * unevenness(end, ~grain));
}

/** An odd end half a pixel wide has no neighbour to fill the rest of the last pixel. */
function mendEdge(out: Uint32Array, width: number): void {
  for (let at = width - 1; at < out.length; at += width) out[at] = out[at - 1] ?? 0;
}

/** Adds a cell; pixels shared by two ends get a part of each, which sum to no more than a whole. */
function drawCell(
  out: Uint32Array,
  left: number,
  width: number,
  { width: columns, top, under, white }: Tile,
  upper: number,
  lower: number,
): void {
  const upperGreen = (upper >>> 8) & 0xff;
  const lowerGreen = (lower >>> 8) & 0xff;
  for (let at = 0; at < top.length; at++) {
    const a = top[at] ?? 0;
    const b = under[at] ?? 0;
    const w = white[at] ?? 0;
    const redBlue =
      Math.imul(upper & RED_BLUE, a) + Math.imul(lower & RED_BLUE, b) + Math.imul(RED_BLUE, w);
    const green = Math.imul(upperGreen, a) + Math.imul(lowerGreen, b) + Math.imul(0xff, w);
    const pixel = left + ((at / columns) | 0) * width + (at % columns);
    out[pixel] = (out[pixel] ?? 0) + ((redBlue >>> 8) & RED_BLUE) + (green & 0xff00);
  }
}

/** A float goes on where the same thread is on top in the next cell along it. */
function kindOf({ lift, above, below }: PickStrip, end: number): number {
  if (lift[end] === 1) {
    const before = above === undefined || above[end] === 1;
    const after = below === undefined || below[end] === 1;
    return UP + (before ? GOES_ON_BEFORE : 0) + (after ? GOES_ON_AFTER : 0);
  }
  return (lift[end - 1] === 0 ? GOES_ON_BEFORE : 0) + (lift[end + 1] === 0 ? GOES_ON_AFTER : 0);
}

function tileOf(shape: CellShape, end: number): Tile {
  const start = (end * shape.endPx) % 1;
  const width = Math.ceil(start + shape.endPx - 1e-9);
  const size = width * shape.pickPx;
  const tile = {
    width,
    top: new Uint16Array(size),
    under: new Uint16Array(size),
    white: new Uint16Array(size),
  };
  for (let at = 0; at < size; at++) {
    const light = pixelLight(shape, (at % width) - start, Math.floor(at / width));
    tile.top[at] = Math.floor(light.top);
    tile.under[at] = Math.floor(light.under);
    tile.white[at] = Math.floor(light.white);
  }
  return tile;
}
