/**
 * The page as square tiles at one size, painted as they come into sight, a few a frame, and kept; and
 * the whole page once, small, to be seen until they are there.
 */
import type { ClothPlan } from '../../../core/planner/clothPlan.ts';
import type { Sight } from '../../../core/planner/clothSeen.ts';
import { paintGlimpse } from './paintGlimpse.ts';

const TILE = 256;
/** Tiles kept of one layer, about 60 MB of pixels; more where the screen alone shows more. */
const MOST_TILES = 240;
/** Pixels of the small whole page, and its longest side. */
export const UNDERLAY_PIXELS = 400_000;
const UNDERLAY_SIDE = 8000;

/** Everything that decides how a tile looks, but not where it lies. */
export interface Subject {
  readonly cloth: ClothPlan;
  readonly sight: Sight;
}

export interface Layer {
  readonly subject: Subject;
  /** Device pixels per millimetre. */
  readonly scale: number;
  readonly tiles: Map<string, HTMLCanvasElement>;
}

/** The corner of the page on the canvas and its size there, in device pixels. */
export interface Shown {
  readonly x: number;
  readonly y: number;
  /** Device pixels per millimetre. */
  readonly scale: number;
  readonly width: number;
  readonly height: number;
}

export interface TileAt {
  readonly column: number;
  readonly row: number;
}

export function newLayer(subject: Subject, scale: number): Layer {
  return { subject, scale, tiles: new Map() };
}

/** The whole page in little. */
export function paintUnderlay({ cloth, sight }: Subject): HTMLCanvasElement {
  const area = Math.sqrt(UNDERLAY_PIXELS / (cloth.width * cloth.height));
  const scale = Math.min(area, UNDERLAY_SIDE / Math.max(cloth.width, cloth.height));
  const width = Math.max(1, Math.ceil(cloth.width * scale));
  const height = Math.max(1, Math.ceil(cloth.height * scale));
  return painted({ cloth, sight }, { left: 0, top: 0, scale, width, height });
}

/** Tiles of a layer that the canvas shows, those nearest its middle first. */
export function tilesShown(layer: Layer, shown: Shown, ring = 0): readonly TileAt[] {
  const side = sideOf(layer, shown);
  const { cloth } = layer.subject;
  const range = (from: number, room: number, page: number) => {
    const most = Math.ceil((page * layer.scale) / TILE) - 1;
    const first = Math.max(0, Math.floor(-from / side) - ring);
    return [first, Math.min(most, Math.floor((room - from) / side) + ring)] as const;
  };
  const [left, right] = range(shown.x, shown.width, cloth.width);
  const [top, bottom] = range(shown.y, shown.height, cloth.height);
  const tiles: TileAt[] = [];
  for (let row = top; row <= bottom; row++) {
    for (let column = left; column <= right; column++) tiles.push({ column, row });
  }
  const [x, y] = [(shown.width / 2 - shown.x) / side, (shown.height / 2 - shown.y) / side];
  const off = ({ column, row }: TileAt) => (column + 0.5 - x) ** 2 + (row + 0.5 - y) ** 2;
  return tiles.sort((a, b) => off(a) - off(b));
}

export function hasTile(layer: Layer, at: TileAt): boolean {
  return layer.tiles.has(keyOf(at));
}

const keyOf = ({ column, row }: TileAt) => `${column} ${row}`;

/** Beyond the page there is nothing to paint. */
function sizeOf({ subject, scale }: Layer, { column, row }: TileAt) {
  const room = (page: number, at: number) => Math.min(TILE, Math.ceil(page * scale) - at * TILE);
  return { width: room(subject.cloth.width, column), height: room(subject.cloth.height, row) };
}

/** How many pixels these tiles have. */
export function tilePixels(layer: Layer, tiles: readonly TileAt[]): number {
  return tiles.reduce((sum, at) => {
    const { width, height } = sizeOf(layer, at);
    return sum + width * height;
  }, 0);
}

/** `wanted` is how many are wanted at once: as many again are always kept. */
export function paintTile(layer: Layer, at: TileAt, wanted: number): void {
  const { subject, scale } = layer;
  const corner = { left: (at.column * TILE) / scale, top: (at.row * TILE) / scale, scale };
  const tile = painted(subject, { ...corner, ...sizeOf(layer, at) });
  layer.tiles.set(keyOf(at), tile);
  if (layer.tiles.size <= Math.max(MOST_TILES, 2 * wanted)) return;
  // A map keeps the order of coming: the one painted first is the one left behind longest ago.
  const oldest = layer.tiles.keys().next();
  if (oldest.done !== true) layer.tiles.delete(oldest.value);
}

function painted(
  { cloth, sight }: Subject,
  glimpse: Parameters<typeof paintGlimpse>[2],
): HTMLCanvasElement {
  const canvas = document.createElement('canvas');
  canvas.width = glimpse.width;
  canvas.height = glimpse.height;
  const ctx = canvas.getContext('2d', { alpha: false });
  if (ctx !== null) paintGlimpse(ctx, cloth, glimpse, sight);
  return canvas;
}

/** Draws the tiles that are there, on whole pixels, so that no seam shows between them. */
export function drawTiles(ctx: CanvasRenderingContext2D, layer: Layer, shown: Shown): void {
  ctx.imageSmoothingEnabled = Math.abs(sideOf(layer, shown) - TILE) > 1e-6;
  for (const at of tilesShown(layer, shown)) {
    const tile = layer.tiles.get(keyOf(at));
    if (tile !== undefined) ctx.drawImage(tile, ...placeOf(layer, shown, at));
  }
}

/** Draws the small page in the places of these tiles: under those that are there nobody would see it. */
export function drawUnderlay(
  ctx: CanvasRenderingContext2D,
  underlay: HTMLCanvasElement,
  layer: Layer,
  shown: Shown,
  missing: readonly TileAt[],
): void {
  const { width, height } = layer.subject.cloth;
  const { x, y, scale } = shown;
  ctx.save();
  ctx.beginPath();
  for (const at of missing) ctx.rect(...placeOf(layer, shown, at));
  ctx.clip();
  ctx.imageSmoothingEnabled = true;
  ctx.drawImage(underlay, x, y, width * scale, height * scale);
  ctx.restore();
}

const sideOf = (layer: Layer, shown: Shown) => (TILE * shown.scale) / layer.scale;

/** Where a tile lies on the canvas. */
function placeOf(
  layer: Layer,
  shown: Shown,
  at: TileAt,
): readonly [x: number, y: number, width: number, height: number] {
  const side = sideOf(layer, shown);
  const { width, height } = sizeOf(layer, at);
  const [x, y] = [Math.round(shown.x + at.column * side), Math.round(shown.y + at.row * side)];
  const right = Math.round(shown.x + (at.column + width / TILE) * side);
  const bottom = Math.round(shown.y + (at.row + height / TILE) * side);
  return [x, y, right - x, bottom - y];
}
