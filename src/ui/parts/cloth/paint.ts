/** Paints the cloth on the loom as the weaver sees it: bare warp, picks to come, fell, cloth. */
import { warpRows } from './bareWarp.ts';
import { styleOf } from './colour.ts';
import { paintComing } from './coming.ts';
import type { ClothImage } from './compose.ts';
import { clothImage, composeCloth, imageHeight } from './compose.ts';
import type { ClothFrame } from './frame.ts';
import { paintLoops } from './loops.ts';
import type { ClothScene } from './scene.ts';

/** What was drawn before and can be used again. Make one for each canvas, and keep it. */
export interface ClothMemory {
  made: Made | undefined;
}

interface Made {
  readonly frame: ClothFrame;
  readonly ends: Uint32Array;
  readonly lifts: readonly Uint8Array[];
  readonly ground: number;
  readonly cloth: ClothImage;
  readonly image: ImageData;
  /** The bare warp above the fell, by the shed that is open. */
  readonly sheets: Map<number, HTMLCanvasElement>;
}

const NO_SHED = -1;

export function clothMemory(): ClothMemory {
  return { made: undefined };
}

/**
 * Paints the whole scene on a canvas as large as the frame. Draws only what this memory has not
 * drawn before: after one more pick that is at most one strip of pixels.
 */
export function paintCloth(
  ctx: CanvasRenderingContext2D,
  scene: ClothScene,
  memory: ClothMemory,
): void {
  const { frame, woven } = scene;
  const made = remembered(ctx, scene, memory);
  const lead = Math.round(Math.min(1, scene.unbeaten ?? 0) * frame.pickPx);
  const rows = Math.max(0, Math.min(made.cloth.height, frame.height - frame.fellY + lead));
  ctx.setTransform(1, 0, 0, 1, 0, 0);
  ctx.fillStyle = styleOf(scene.ground);
  ctx.fillRect(0, 0, frame.width, frame.height);
  ctx.drawImage(warpSheet(ctx, scene, made), 0, 0);
  paintLoops(ctx, frame, woven, lead);
  composeCloth(made.cloth, woven, { rows, lead });
  ctx.putImageData(made.image, frame.clothLeft, frame.fellY - lead, 0, 0, made.cloth.width, rows);
  if (woven.colours.length > 0) shadeFell(ctx, frame, lead);
  paintComing(ctx, frame, scene.coming, scene.ground, lead);
}

function remembered(ctx: CanvasRenderingContext2D, scene: ClothScene, memory: ClothMemory): Made {
  if (memory.made !== undefined && stillHolds(memory.made, scene)) return memory.made;
  const { frame, ground } = scene;
  const ends = scene.ends.slice();
  const lifts = scene.lifts.map((lift) => lift.slice());
  const image = ctx.createImageData(Math.max(1, frame.clothWidth), imageHeight(frame));
  const pixels = new Uint32Array(image.data.buffer);
  const cloth = clothImage(frame, { ends, lifts, ground }, pixels);
  memory.made = { frame, ends, lifts, ground, cloth, image, sheets: new Map() };
  return memory.made;
}

function stillHolds(made: Made, { frame, ends, lifts, ground }: ClothScene): boolean {
  return (
    made.ground === ground &&
    (made.frame === frame || JSON.stringify(made.frame) === JSON.stringify(frame)) &&
    sameNumbers(made.ends, ends) &&
    made.lifts.length === lifts.length &&
    made.lifts.every((lift, shed) => sameNumbers(lift, lifts[shed] ?? []))
  );
}

function sameNumbers(one: Uint32Array | Uint8Array, other: ArrayLike<number>): boolean {
  return one.length === other.length && one.every((number, at) => number === other[at]);
}

/** All sheds are drawn with the first, so that none of them costs time at a tap. */
function warpSheet(
  ctx: CanvasRenderingContext2D,
  { openShed = NO_SHED }: ClothScene,
  made: Made,
): HTMLCanvasElement {
  const kept = made.sheets.get(openShed);
  if (kept !== undefined) return kept;
  const wanted = openShed === NO_SHED ? [NO_SHED] : made.lifts.map((_, shed) => shed);
  for (const shed of wanted) made.sheets.set(shed, drawSheet(ctx, made, made.lifts[shed]));
  const sheet = made.sheets.get(openShed);
  if (sheet === undefined) throw new Error(`got open shed ${openShed}, wanted one of the lifts`);
  return sheet;
}

function drawSheet(
  ctx: CanvasRenderingContext2D,
  { frame, ends, ground }: Made,
  lift: Uint8Array | undefined,
): HTMLCanvasElement {
  const sheet = ctx.canvas.ownerDocument.createElement('canvas');
  sheet.width = frame.width;
  sheet.height = Math.max(1, frame.fellY);
  const pen = sheet.getContext('2d', { alpha: false });
  if (pen === null) return sheet;
  const image = pen.createImageData(sheet.width, sheet.height);
  const rows = warpRows(frame, { ends, ground, lift }, 0, frame.fellY);
  new Uint32Array(image.data.buffer).set(rows);
  pen.putImageData(image, 0, 0);
  return sheet;
}

/** The cloth lies a thread higher than the bare warp and throws a narrow shadow on it. */
function shadeFell(ctx: CanvasRenderingContext2D, frame: ClothFrame, lead: number): void {
  const depth = Math.round(Math.max(3 * frame.dpr, frame.pickPx * 0.7));
  const top = frame.fellY - lead - depth;
  const shade = ctx.createLinearGradient(0, top, 0, top + depth);
  shade.addColorStop(0, 'rgb(20 14 8 / 0)');
  shade.addColorStop(1, 'rgb(20 14 8 / 0.38)');
  ctx.fillStyle = shade;
  ctx.fillRect(frame.clothLeft, top, frame.clothWidth, depth);
}
