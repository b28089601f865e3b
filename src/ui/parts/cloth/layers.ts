/**
 * The cloth on the loom as the weaver sees it, in layers that hang on the fell: bare warp, cloth, and
 * the newest pick with those to come. A pick moves the cloth and repaints one tile of it; a scene that
 * becomes taller or lower only moves the fell.
 */
import { type ClothImage, clothImage } from './compose.ts';
import type { ClothFrame } from './frame.ts';
import { beatIn, paintLaid } from './laid.ts';
import { layerIn } from './layer.ts';
import type { ClothScene } from './scene.ts';
import { type Sheets, showSheet } from './sheets.ts';
import { showTiles, type Tiles, tilesIn } from './tiles.ts';

/** What was drawn before and can be used again. Make one for each picture, and keep it. */
export interface ClothMemory {
  made: Made | undefined;
  beating: Animation | undefined;
}

interface Made {
  readonly frame: ClothFrame;
  readonly image: ClothImage;
  readonly sheets: Sheets;
  readonly tiles: Tiles;
  readonly fell: HTMLElement;
  readonly laid: HTMLCanvasElement;
  shown: ClothScene | undefined;
}

/** Cards go, and the scene becomes taller: the warp is drawn as far up as this share of the window. */
const SHARE_OF_WINDOW = 0.6;

/** Rows of warp above the fell: by the window, so that it does not matter which card stood there first. */
function reachIn(root: HTMLElement, { fellY, dpr }: ClothFrame): number {
  const window = root.ownerDocument.defaultView?.innerHeight ?? 0;
  return Math.ceil(Math.max(fellY, window * dpr * SHARE_OF_WINDOW));
}

export function clothMemory(): ClothMemory {
  return { made: undefined, beating: undefined };
}

/** Shows the scene in an element as large as its frame; `thrown`: its newest pick is beaten in. */
export function showCloth(
  root: HTMLElement,
  scene: ClothScene,
  memory: ClothMemory,
  how: 'thrown' | 'still',
): void {
  const made = remembered(root, scene, memory);
  const { frame, openShed, woven } = scene;
  made.fell.style.top = `${frame.fellY / frame.dpr}px`;
  showSheet(made.sheets, openShed);
  showTiles(made.tiles, woven, frame.height - frame.fellY);
  if (!isOtherLaid(made.shown, scene)) return;
  made.shown = scene;
  paintLaid(made.laid, { ...made.frame, fellY: made.sheets.reach }, scene, made.image);
  memory.beating?.cancel();
  memory.beating = how === 'thrown' ? beatIn(made.laid, made.frame) : undefined;
}

function isOtherLaid(shown: ClothScene | undefined, scene: ClothScene): boolean {
  return shown?.woven !== scene.woven || shown.coming !== scene.coming;
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
  const place = { left: 0, top: -reach, width: frame.width, height: reach + frame.pickPx };
  const laid = layerIn(fell, place, frame.dpr);
  laid.style.willChange = 'transform';
  root.replaceChildren(fell);
  return { frame, image, sheets, tiles, fell, laid, shown: undefined };
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
