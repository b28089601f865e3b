/**
 * The cloth below the newest pick, in tiles of some picks each. A tile is painted again only when
 * what lies on it changes: with one more pick that is the uppermost, and the others move down.
 */
import { type ClothImage, composePicks, stripOf } from './compose.ts';
import type { ClothFrame } from './frame.ts';
import { layerIn } from './layer.ts';
import { type Loop, loopsOf, paintLoops } from './loops.ts';
import type { WovenPicks } from './scene.ts';

export interface Tiles {
  /** Moves down by a pick's height with every pick. */
  readonly cloth: HTMLElement;
  readonly frame: ClothFrame;
  readonly image: ClothImage;
  /** Picks on a tile. */
  readonly picks: number;
  /** The pick, counted over all, whose upper edge lies where the element does. */
  readonly origin: number;
  /** The cloth of a tile, before it is put there. */
  readonly pixels: ImageData;
  /** By their place: tile n holds the picks from n × `picks` on, counted over all. */
  readonly laid: Map<number, Tile>;
}

export interface Tile {
  readonly canvas: HTMLCanvasElement;
  /** What it shows. */
  shows: string;
  /** What lies at each place of it, from the top down. */
  rows: readonly Row[];
}

/** A pick as it is drawn, bare warp where there is none, or nothing at all. */
type Row = Uint32Array | 'bare' | 'clear';

/** About so many device pixels high. */
const TILE_PX = 96;

export function tilesIn(
  fell: HTMLElement,
  frame: ClothFrame,
  image: ClothImage,
  newest: number,
): Tiles {
  const cloth = fell.ownerDocument.createElement('div');
  cloth.style.position = 'absolute';
  cloth.style.willChange = 'transform';
  fell.append(cloth);
  const picks = Math.max(1, Math.round(TILE_PX / frame.pickPx));
  const pixels = new ImageData(Math.max(1, image.width), picks * frame.pickPx);
  return { cloth, frame, image, picks, origin: newest, pixels, laid: new Map() };
}

/** Tiles for all that is seen, `height` device pixels down from the fell. */
export function showTiles(tiles: Tiles, woven: WovenPicks, height: number): void {
  const { cloth, frame, picks, origin, laid } = tiles;
  const newest = woven.before + woven.colours.length - 1;
  const seen = Math.ceil(height / frame.pickPx) + 1;
  cloth.style.transform = `translateY(${((newest + 1 - origin) * frame.pickPx) / frame.dpr}px)`;
  const [last, first] = [newest, newest - seen].map((pick) => Math.floor(pick / picks));
  const loops = loopsOf(woven, seen);
  for (const [at, { canvas }] of laid) {
    if (at >= (first ?? 0) && at <= (last ?? 0)) continue;
    canvas.remove();
    laid.delete(at);
  }
  for (let at = last ?? 0; at >= (first ?? 0); at--) {
    const from = newest - (at + 1) * picks + 1;
    const here = loops.filter((it) => it.lower >= from - 1 && it.upper <= from + picks);
    paintIfChanged(tiles, at, { woven, from, loops: here });
  }
}

interface OnTile {
  readonly woven: WovenPicks;
  /** The uppermost place of the tile, counted from the fell down; less than 0 above it. */
  readonly from: number;
  readonly loops: readonly Loop[];
}

function paintIfChanged(tiles: Tiles, at: number, what: OnTile): void {
  const shows = signatureOf(what, tiles.picks);
  const tile = tiles.laid.get(at) ?? newTile(tiles, at);
  if (tile.shows === shows) return;
  tile.shows = shows;
  paintTile(tiles, tile, what);
}

/** All that shapes the picks of a tile: their neighbours above and below too. */
export function signatureOf({ woven, from, loops }: OnTile, picks: number): string {
  const { colours, sheds, before } = woven;
  const newest = colours.length - 1;
  const top = newest - from;
  const parts: (number | string)[] = [];
  for (let pick = Math.min(top + 1, newest); pick >= top - picks; pick--) {
    parts.push(colours[pick] ?? -1, sheds[pick] ?? -1);
  }
  for (const { upper, lower, side, colour } of loops)
    parts.push('loop', before + newest - upper, lower - upper, side, colour);
  return parts.join();
}

function newTile({ cloth, frame, picks, origin, laid }: Tiles, at: number): Tile {
  const height = picks * frame.pickPx;
  const top = (origin - (at + 1) * picks) * frame.pickPx;
  const canvas = layerIn(cloth, { left: 0, top, width: frame.width, height }, frame.dpr);
  const tile: Tile = { canvas, shows: '', rows: Array<Row>(picks).fill('clear') };
  laid.set(at, tile);
  return tile;
}

/**
 * The newest pick stays clear: it has a layer of its own, that is beaten in. Beside the cloth all is
 * drawn anew; of the cloth only from the first to the last pick that is another, or looks otherwise.
 */
function paintTile({ frame, image, picks, pixels }: Tiles, tile: Tile, what: OnTile): void {
  const pen = tile.canvas.getContext('2d');
  if (pen === null) return;
  paintBeside(pen, frame, what);
  const { woven, from } = what;
  const drawn = woven.colours.length - 1;
  const top = drawn - from;
  const rows = Array.from({ length: picks }, (_, place) => rowOf(image, woven, top - place));
  const first = rows.findIndex((row, place) => row !== tile.rows[place]);
  const last = rows.findLastIndex((row, place) => row !== tile.rows[place]);
  tile.rows = rows;
  if (first === -1) return;
  const stretch = { top: top - first, picks: last - first + 1, drawn };
  composePicks(image, woven, stretch, new Uint32Array(pixels.data.buffer));
  const y = first * frame.pickPx;
  pen.putImageData(pixels, frame.clothLeft, y, 0, 0, image.width, stretch.picks * frame.pickPx);
}

function rowOf(image: ClothImage, woven: WovenPicks, pick: number): Row {
  if (pick >= woven.colours.length - 1) return 'clear';
  return pick < 0 ? 'bare' : (stripOf(image, woven, pick) ?? 'bare');
}

/** The loops at the selvedges: what of them lies on the cloth is under it. */
function paintBeside(
  pen: CanvasRenderingContext2D,
  frame: ClothFrame,
  { from, loops }: OnTile,
): void {
  const { width, height } = pen.canvas;
  const right = frame.clothLeft + frame.clothWidth;
  pen.save();
  pen.beginPath();
  pen.rect(0, 0, frame.clothLeft, height);
  pen.rect(right, 0, width - right, height);
  pen.clip();
  pen.clearRect(0, 0, width, height);
  paintLoops(pen, frame, loops, -from * frame.pickPx);
  pen.restore();
}
