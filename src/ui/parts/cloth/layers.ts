/**
 * The cloth on the loom as the weaver sees it, in layers that hang on the fell: bare warp, cloth, the
 * newest pick, and those to come. A pick moves the cloth and repaints one tile of it; a scene that
 * becomes taller or lower only moves the fell.
 */
import type { paintComing } from './coming.ts';
import { type ClothImage, clothImage } from './compose.ts';
import type { ClothFrame } from './frame.ts';
import { beatIn, laidHeight, paintLaid } from './laid.ts';
import { layerIn } from './layer.ts';
import type { ClothScene, ComingPicks, WovenPicks } from './scene.ts';
import { drawOthers, type Sheets, showSheet } from './sheets.ts';
import { showTiles, type Tiles, tilesIn } from './tiles.ts';

/** What was drawn before and can be used again. Make one for each picture, and keep it. */
export interface ClothMemory {
  made: Made | undefined;
}

interface Made {
  readonly frame: ClothFrame;
  readonly image: ClothImage;
  readonly sheets: Sheets;
  readonly tiles: Tiles;
  readonly fell: HTMLElement;
  readonly laid: Layer<WovenPicks>;
  readonly coming: Layer<ComingPicks>;
}

/** A layer that moves to the fell with a thrown pick, and what it shows. */
interface Layer<T> {
  readonly canvas: HTMLCanvasElement;
  shows: T | undefined;
  beating: Animation | undefined;
}

/** Whether the newest pick of a scene is beaten in before the weaver's eyes. */
export type Showing = 'thrown' | 'still';

/** Cards go, and the scene becomes taller: the warp is drawn as far up as this share of the window. */
const SHARE_OF_WINDOW = 0.6;

/** Rows of warp above the fell: by the window, so that it does not matter which card stood there first. */
function reachIn(root: HTMLElement, { fellY, dpr }: ClothFrame): number {
  const window = root.ownerDocument.defaultView?.innerHeight ?? 0;
  return Math.ceil(Math.max(fellY, window * dpr * SHARE_OF_WINDOW));
}

export function clothMemory(): ClothMemory {
  return { made: undefined };
}

/** Shows all of the scene but the picks to come, in an element as large as its frame. */
export function showCloth(
  root: HTMLElement,
  scene: ClothScene,
  memory: ClothMemory,
  how: Showing,
): void {
  const { fell, sheets, tiles, laid, frame: first, image } = remembered(root, scene, memory);
  const { frame, openShed, woven } = scene;
  fell.style.top = `${frame.fellY / frame.dpr}px`;
  showSheet(sheets, openShed);
  showTiles(tiles, woven, frame.height - frame.fellY);
  showOn(laid, first, woven, how, () => paintLaid(laid.canvas, first, woven, image));
}

/** The picks to come, which need not be there in the same frame as the pick that was thrown; nor the other sheds. */
export function showComing(
  { coming, ground }: ClothScene,
  { made }: ClothMemory,
  how: Showing,
  paint: typeof paintComing,
): void {
  if (made === undefined) return;
  const { coming: layer, frame, sheets } = made;
  showOn(layer, frame, coming, how, () =>
    paint(layer.canvas, { ...frame, fellY: sheets.reach }, coming, ground),
  );
  drawOthers(sheets);
}

function showOn<T>(
  layer: Layer<T>,
  frame: ClothFrame,
  shows: T,
  how: Showing,
  paint: () => void,
): void {
  if (layer.shows === shows) return;
  layer.shows = shows;
  paint();
  layer.beating?.cancel();
  layer.beating = how === 'thrown' ? beatIn(layer.canvas, frame) : undefined;
}

function remembered(root: HTMLElement, scene: ClothScene, memory: ClothMemory): Made {
  const { made } = memory;
  const isKept = made?.sheets.reach === reachIn(root, scene.frame) && stillHolds(made, scene);
  if (isKept) return made;
  memory.made = madeFor(root, scene);
  return memory.made;
}

function madeFor(root: HTMLElement, scene: ClothScene): Made {
  const { frame, ground, woven } = scene;
  const fell = root.ownerDocument.createElement('div');
  fell.style.position = 'absolute';
  fell.style.left = '0';
  const ends = scene.ends.slice();
  const lifts = scene.lifts.map((lift) => lift.slice());
  const reach = reachIn(root, frame);
  const image = clothImage(frame, { ends, lifts, ground });
  const sheets = { parent: fell, frame, ends, lifts, ground, reach, drawn: new Map() };
  showSheet(sheets, scene.openShed);
  const newest = woven.before + woven.colours.length - 1;
  const tiles = tilesIn(fell, frame, image, newest);
  const above = laidHeight(frame) - frame.pickPx;
  const laid = movingLayer<WovenPicks>(fell, frame, above, laidHeight(frame));
  const coming = movingLayer<ComingPicks>(fell, frame, reach, reach);
  root.replaceChildren(fell);
  return { frame, image, sheets, tiles, fell, laid, coming };
}

/** As wide as the frame, from so many device pixels above the fell. */
function movingLayer<T>(
  fell: HTMLElement,
  { width, dpr }: ClothFrame,
  above: number,
  height: number,
): Layer<T> {
  const canvas = layerIn(fell, { left: 0, top: -above, width, height }, dpr);
  canvas.style.willChange = 'transform';
  return { canvas, shows: undefined, beating: undefined };
}

function stillHolds({ frame, sheets }: Made, scene: ClothScene): boolean {
  return (
    sheets.ground === scene.ground &&
    isAlike(frame, scene.frame) &&
    sameNumbers(sheets.ends, scene.ends) &&
    sheets.lifts.length === scene.lifts.length &&
    sheets.lifts.every((lift, shed) => sameNumbers(lift, scene.lifts[shed] ?? []))
  );
}

/** Frames of one width, however high. */
function isAlike(one: ClothFrame, other: ClothFrame): boolean {
  const across = ({ height, fellY, ...rest }: ClothFrame) => rest;
  return one === other || JSON.stringify(across(one)) === JSON.stringify(across(other));
}

function sameNumbers(one: Uint32Array | Uint8Array, other: ArrayLike<number>): boolean {
  return one.length === other.length && one.every((number, at) => number === other[at]);
}
