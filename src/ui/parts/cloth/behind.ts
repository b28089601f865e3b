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
import { press } from './plate.ts';
import type { ClothScene } from './scene.ts';
import { drawOthers } from './sheets.ts';
import { seenIn, type Tile, uppermost } from './tiles.ts';

export function showBehind(scene: ClothScene, memory: ClothMemory, how: Showing): void {
  const { coming, ground, frame } = scene;
  const { made } = memory;
  if (made === undefined) return;
  // Of a thrown pick they come in the quiet moment after the beat: to show a tile anew takes its time.
  if (how === 'still') showLoops(scene, memory);
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

/** The loops at the selvedges of all the cloth that is seen. */
export function showLoops({ woven, frame }: ClothScene, { made }: ClothMemory): void {
  if (made === undefined) return;
  const { tiles } = made;
  const { newest, seen } = seenIn(tiles, woven, depthOf(frame));
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
function paintBeside(tile: Tile, frame: ClothFrame, from: number, loops: readonly Loop[]): void {
  const pen = tile.sheet.getContext('2d');
  if (pen === null) return;
  const { width, height } = tile.sheet;
  const right = frame.clothLeft + frame.clothWidth;
  pen.save();
  pen.beginPath();
  pen.rect(0, 0, frame.clothLeft, height);
  pen.rect(right, 0, width - right, height);
  pen.clip();
  pen.clearRect(0, 0, width, height);
  paintLoops(pen, frame, loops, -from * frame.pickPx);
  pen.restore();
  press(tile);
}
