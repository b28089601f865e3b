/** The bare warp above the fell, drawn once for each shed that can be open. */
import { warpRows } from './bareWarp.ts';
import type { ClothFrame } from './frame.ts';
import { finishedIn } from './plate.ts';

/** Drawn when the warp lies flat. */
const NO_SHED = -1;

export interface Sheets {
  readonly parent: HTMLElement;
  readonly frame: ClothFrame;
  readonly ends: Uint32Array;
  readonly lifts: readonly Uint8Array[];
  readonly ground: number;
  /** Rows above the fell: more than are seen at first, for a scene that becomes taller. */
  readonly reach: number;
  readonly drawn: Map<number, HTMLCanvasElement>;
}

/** Drawn when it is wanted: `drawOthers` has it ready before that. */
export function showSheet(sheets: Sheets, shed = NO_SHED): void {
  if (shed !== NO_SHED && sheets.lifts[shed] === undefined)
    throw new Error(`got open shed ${shed}, wanted one of the lifts`);
  if (!sheets.drawn.has(shed)) draw(sheets, shed);
  for (const [it, { style }] of sheets.drawn) style.opacity = it === shed ? '1' : '0';
}

/** The sheds that were not open yet, so that none of them costs time at a tap. */
export function drawOthers(sheets: Sheets): void {
  if (sheets.drawn.has(NO_SHED)) return;
  for (const shed of sheets.lifts.keys()) {
    if (!sheets.drawn.has(shed)) draw(sheets, shed).style.opacity = '0';
  }
}

/** Below all other layers, whenever it comes. */
function draw(sheets: Sheets, shed: number): HTMLCanvasElement {
  const canvas = drawSheet(sheets, sheets.lifts[shed]);
  sheets.parent.prepend(canvas);
  sheets.drawn.set(shed, canvas);
  return canvas;
}

/** The warp is drawn so many times as far up as is seen where most of it is (ours). */
const SEEN_AT_MOST = 1.5;

/** Down to where the newest pick lies: until it is beaten in there is bare warp in its place. */
function drawSheet(
  { parent, frame, ends, ground, reach }: Sheets,
  lift: Uint8Array | undefined,
): HTMLCanvasElement {
  const { width, pickPx, dpr } = frame;
  // The fan is the window's too: however far up the fell stood when it was first drawn.
  const fellY = Math.round(reach / SEEN_AT_MOST);
  const fan = { ...frame, fellY };
  const height = reach + pickPx;
  const image = new ImageData(Math.max(1, width), Math.max(1, height));
  const pixels = new Uint32Array(image.data.buffer);
  warpRows(fan, { ends, ground, lift }, fellY - reach, fellY, pixels);
  const flat = warpRows(fan, { ends, ground, lift: undefined }, fellY, fellY + 1);
  for (let row = reach; row < height; row++) pixels.set(flat, row * width);
  const canvas = finishedIn(parent, { left: 0, top: -reach, width, height }, image, dpr);
  // A layer of its own while it is not seen, too: to show it again nothing is painted.
  canvas.style.willChange = 'opacity';
  return canvas;
}
