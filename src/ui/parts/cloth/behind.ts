/**
 * What of the cloth need not be there in the same frame as the pick that was thrown, and comes a moment
 * after the bench itself: the loops at the selvedges, the picks to come, and the sheds that are not open.
 */
import { paintComing } from './coming.ts';
import type { ClothFrame } from './frame.ts';
import { beatIn, type Showing } from './laid.ts';
import { putAt } from './layer.ts';
import { type ClothMemory, type ComingLayer, comingPlace, depthOf } from './layers.ts';
import { type Loop, loopsOf, paintLoops } from './loops.ts';
import type { ClothScene, WovenPicks } from './scene.ts';
import { drawOthers } from './sheets.ts';
import { seenIn, type Tile, type Tiles, uppermost } from './tiles.ts';

export function showBehind(
  { coming, ground, woven, frame }: ClothScene,
  { made }: ClothMemory,
  how: Showing,
): void {
  if (made === undefined) return;
  showLoops(made.tiles, woven, depthOf(frame));
  const { coming: layer, frame: first, sheets } = made;
  if (layer.shows !== coming || layer.reach !== frame.fellY) {
    layer.shows = coming;
    if (layer.reach !== frame.fellY) reachUp(layer, frame);
    paintComing(layer.canvas, { ...first, fellY: layer.reach }, coming, ground);
    beatIn(layer, first, how);
  }
  drawOthers(sheets);
}

/** For a scene that became taller or lower. */
function reachUp(layer: ComingLayer, frame: ClothFrame): void {
  layer.reach = frame.fellY;
  putAt(layer.canvas, comingPlace(frame), frame.dpr);
}

/** The loops at the selvedges of all that `showTiles` shows. */
function showLoops(tiles: Tiles, woven: WovenPicks, height: number): void {
  const { newest, seen } = seenIn(tiles, woven, height);
  const loops = loopsOf(woven, seen);
  for (const [at, tile] of tiles.laid) {
    const from = uppermost(tiles, newest, at);
    const here = loops.filter((it) => it.lower >= from - 1 && it.upper <= from + tiles.picks);
    const shows = loopsOn(here, newest);
    if (tile.loops === shows) continue;
    tile.loops = shows;
    paintBeside(tile, tiles.frame, from, here);
  }
}

/** `newest`: counted over all, so that a loop is the same one wherever the fell is. */
export function loopsOn(loops: readonly Loop[], newest: number): string {
  return loops
    .map(({ upper, lower, side, colour }) => [newest - upper, lower - upper, side, colour])
    .join();
}

/** What of a loop lies on the cloth is under it. */
function paintBeside(
  { canvas }: Tile,
  frame: ClothFrame,
  from: number,
  loops: readonly Loop[],
): void {
  const pen = canvas.getContext('2d');
  if (pen === null) return;
  const { width, height } = canvas;
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
