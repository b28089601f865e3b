/**
 * What the viewer shows first: small canvases where there is something to see, the page and its two
 * rulers, on a ground of the page's colour. One canvas over all of the room costs, where there is no
 * graphics processor, more than the picture on it; it comes when there is time, or when it is moved.
 */
import { type Corner, compose, type Frame } from './compose.ts';
import { RULER_BELOW, RULER_LEFT } from './ruler.ts';

/** Device pixels of the picture. */
interface Patch extends Corner {
  readonly width: number;
  readonly height: number;
}

/** CSS pixels round the page that its marks may reach into, and below it the names. */
const AROUND = 16;
const BELOW = 32;
/** Patches that cover more of the picture than this save nothing. */
const MOST = 0.6;

/** Paints the frame as patches into an empty room; false, and nothing, where they would cover nearly all. */
export function paintPatches(room: HTMLElement, frame: Frame): boolean {
  const patches = patchesOf(frame).filter(({ width, height }) => width > 0 && height > 0);
  const covered = patches.reduce((sum, { width, height }) => sum + width * height, 0);
  if (covered > MOST * frame.shown.width * frame.shown.height) return false;
  for (const patch of patches) {
    const canvas = canvasOf(patch, frame.dpr);
    const ctx = canvas.getContext('2d', { alpha: false });
    if (ctx === null) return false;
    room.append(canvas);
    compose(ctx, frame, patch);
  }
  return true;
}

function patchesOf({ layer, shown, dpr }: Frame): readonly Patch[] {
  const left = Math.min(shown.width, Math.ceil(RULER_LEFT * dpr));
  const below = Math.min(shown.height, Math.ceil(RULER_BELOW * dpr));
  const foot = shown.height - below;
  const { width, height } = layer.subject.cloth;
  const around = Math.ceil(AROUND * dpr);
  const x = Math.max(left, shown.x - around);
  const y = Math.max(0, shown.y - around);
  const right = Math.min(shown.width, Math.ceil(shown.x + width * shown.scale) + around);
  const bottom = Math.min(foot, Math.ceil(shown.y + height * shown.scale + BELOW * dpr));
  return [
    { x: 0, y: 0, width: left, height: shown.height },
    { x: left, y: foot, width: shown.width - left, height: below },
    { x, y, width: right - x, height: bottom - y },
  ];
}

function canvasOf({ x, y, width, height }: Patch, dpr: number): HTMLCanvasElement {
  const canvas = document.createElement('canvas');
  canvas.width = width;
  canvas.height = height;
  const css = (pixels: number) => `${pixels / dpr}px`;
  Object.assign(canvas.style, {
    left: css(x),
    top: css(y),
    width: css(width),
    height: css(height),
  });
  return canvas;
}
