/**
 * The cloth on the loom as the weaver sees it, in layers that hang on the fell: bare warp, cloth, the
 * newest pick, and those to come. A pick moves the cloth; what it changes of it was painted in a quiet
 * moment before, if it is the one that was to come. A scene that becomes taller or lower only moves the fell.
 */
import { type ClothImage, clothImage } from './compose.ts';
import type { ClothFrame } from './frame.ts';
import { type BeatenLayer, type Laid, laidIn, readyLaid, type Showing, showLaid } from './laid.ts';
import { layerIn, type Place } from './layer.ts';
import type { ClothScene, ComingPicks, WovenPicks } from './scene.ts';
import { type Sheets, showSheet } from './sheets.ts';
import { layPicks, showTiles, type Tiles, tilesIn } from './tiles.ts';

/** What was drawn before and can be used again, nothing at first. Make one for each picture, and keep it. */
export interface ClothMemory {
  made: Made | undefined;
}

interface Made {
  readonly frame: ClothFrame;
  readonly image: ClothImage;
  readonly sheets: Sheets;
  readonly tiles: Tiles;
  readonly fell: HTMLElement;
  readonly laid: Laid;
  /** What is shown of the cloth. */
  woven: WovenPicks | undefined;
  readonly coming: ComingLayer;
}

/** The layer of the picks to come, and what it shows. */
export interface ComingLayer extends BeatenLayer {
  /** Rows of it above the fell: no more than are seen, as some browsers copy it with every frame. */
  reach: number;
  shows: ComingPicks | undefined;
}

/** Cards go, and the scene becomes taller: the warp is drawn as far up as this share of the window. */
const SHARE_OF_WINDOW = 0.6;

/** Rows of warp above the fell: by the window, so that it does not matter which card stood there first. */
function reachIn(root: HTMLElement, { fellY, dpr }: ClothFrame): number {
  const window = root.ownerDocument.defaultView?.innerHeight ?? 0;
  return Math.ceil(Math.max(fellY, window * dpr * SHARE_OF_WINDOW));
}

/** Shows the warp and the cloth, in an element as large as its frame: what a thrown pick changes at once. */
export function showCloth(
  root: HTMLElement,
  scene: ClothScene,
  memory: ClothMemory,
  how: Showing,
): void {
  const made = remembered(root, scene, memory);
  const { fell, sheets, tiles, laid, frame: first, image } = made;
  const { frame, openShed, woven } = scene;
  fell.style.top = `${frame.fellY / frame.dpr}px`;
  showSheet(sheets, openShed);
  showTiles(tiles, woven, depthOf(frame));
  if (made.woven === woven) return;
  made.woven = woven;
  showLaid(laid, first, image, woven, how);
}

/** Paints what will be seen when these picks are woven, one more than now, where it is not seen yet. */
export function readyNext({ frame }: ClothScene, { made }: ClothMemory, woven: WovenPicks): void {
  if (made === undefined) return;
  layPicks(made.tiles, woven, depthOf(frame));
  readyLaid(made.laid, made.frame, made.image, woven);
}

/** Rows above the fell for the picks to come. */
export function comingPlace({ fellY, width }: ClothFrame): Place {
  return { left: 0, top: -fellY, width, height: fellY };
}

/** Device pixels of cloth below the fell. */
export const depthOf = ({ height, fellY }: ClothFrame): number => height - fellY;

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
  const laid = laidIn(fell, frame);
  const canvas = layerIn(fell, comingPlace(frame), frame.dpr);
  canvas.style.willChange = 'transform';
  const coming: ComingLayer = {
    canvas,
    reach: frame.fellY,
    shows: undefined,
    beating: undefined,
  };
  root.replaceChildren(fell);
  return { frame, image, sheets, tiles, fell, laid, coming, woven: undefined };
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
