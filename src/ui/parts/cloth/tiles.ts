/**
 * The cloth below the newest pick, in tiles of some picks each. A tile is painted again only when
 * what lies on it changes: with one more pick that is the uppermost, and the others move down. Its
 * picks can be there before they are seen, under the layer of the newest; the loops beside them not.
 */
import { type ClothImage, composePicks, stripOf } from './compose.ts';
import type { ClothFrame } from './frame.ts';
import { type Plate, plateIn, press } from './plate.ts';
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

export interface Tile extends Plate {
  /** The picks it shows, and the loops. */
  picks: string;
  loops: string;
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

/** Moves the cloth to the fell, and shows all picks that are seen, `height` device pixels down from there. */
export function showTiles(tiles: Tiles, woven: WovenPicks, height: number): void {
  const { cloth, frame, origin, laid } = tiles;
  const { newest, first, last } = seenIn(tiles, woven, height);
  cloth.style.transform = `translateY(${((newest + 1 - origin) * frame.pickPx) / frame.dpr}px)`;
  for (const [at, { canvas }] of laid) {
    if (at >= first && at <= last) continue;
    canvas.remove();
    laid.delete(at);
  }
  layPicks(tiles, woven, height);
}

/** Puts all picks that are seen on their tiles, and moves nothing. */
export function layPicks(tiles: Tiles, woven: WovenPicks, height: number): void {
  const { newest, first, last } = seenIn(tiles, woven, height);
  for (let at = last; at >= first; at--) {
    const from = uppermost(tiles, newest, at);
    const shows = picksOn({ woven, from }, tiles.picks);
    const tile = tiles.laid.get(at) ?? newTile(tiles, at);
    if (tile.picks === shows) continue;
    tile.picks = shows;
    paintPicks(tiles, tile, { woven, from });
  }
}

/** The newest pick, how many are seen, and the tiles of the first and the last of them. */
export function seenIn({ frame, picks }: Tiles, woven: WovenPicks, height: number) {
  const newest = woven.before + woven.colours.length - 1;
  const seen = Math.ceil(height / frame.pickPx) + 1;
  const [first, last] = [Math.floor((newest - seen) / picks), Math.floor(newest / picks)];
  return { newest, seen, first, last };
}

/** The uppermost place of a tile, counted from the fell down; less than 0 above it. */
export function uppermost({ picks }: Tiles, newest: number, at: number): number {
  return newest - (at + 1) * picks + 1;
}

interface OnTile {
  readonly woven: WovenPicks;
  /** The uppermost place of the tile. */
  readonly from: number;
}

/** All that shapes the picks of a tile: their neighbours above and below too. */
export function picksOn({ woven, from }: OnTile, picks: number): string {
  const { colours, sheds } = woven;
  const newest = colours.length - 1;
  const top = newest - from;
  const parts: number[] = [];
  for (let pick = Math.min(top + 1, newest); pick >= top - picks; pick--) {
    parts.push(colours[pick] ?? -1, sheds[pick] ?? -1);
  }
  return parts.join();
}

function newTile({ cloth, frame, picks, origin, laid }: Tiles, at: number): Tile {
  const height = picks * frame.pickPx;
  const top = (origin - (at + 1) * picks) * frame.pickPx;
  const plate = plateIn(cloth, { left: 0, top, width: frame.width, height }, frame.dpr);
  const rows = Array<Row>(picks).fill('clear');
  const tile: Tile = { ...plate, picks: '', loops: '', rows };
  laid.set(at, tile);
  return tile;
}

/**
 * The newest pick stays clear: it has a layer of its own, that is beaten in. Drawn anew is only from the
 * first to the last pick that is another, or looks otherwise.
 */
function paintPicks({ frame, image, picks, pixels }: Tiles, tile: Tile, what: OnTile): void {
  const { woven, from } = what;
  const drawn = woven.colours.length - 1;
  const top = drawn - from;
  const rows = Array.from({ length: picks }, (_, place) => rowOf(image, woven, top - place));
  const first = rows.findIndex((row, place) => row !== tile.rows[place]);
  const last = rows.findLastIndex((row, place) => row !== tile.rows[place]);
  tile.rows = rows;
  const pen = first === -1 ? null : tile.sheet.getContext('2d');
  if (pen === null) return;
  const stretch = { top: top - first, picks: last - first + 1, drawn };
  composePicks(image, woven, stretch, new Uint32Array(pixels.data.buffer));
  const y = first * frame.pickPx;
  pen.putImageData(pixels, frame.clothLeft, y, 0, 0, image.width, stretch.picks * frame.pickPx);
  press(tile);
}

function rowOf(image: ClothImage, woven: WovenPicks, pick: number): Row {
  if (pick >= woven.colours.length - 1) return 'clear';
  return pick < 0 ? 'bare' : (stripOf(image, woven, pick) ?? 'bare');
}
