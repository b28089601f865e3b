/** The picks to come: single threads laid over the bare warp, pale, apart, nearest the fell first. */
import { isLight, paled, styleOf, toned } from './colour.ts';
import type { ClothFrame } from './frame.ts';
import type { ComingPicks } from './scene.ts';

export interface Run {
  readonly first: number;
  readonly picks: number;
  readonly colour: number;
  readonly letter: string;
}

const DARK = '#1d1712';
const LIGHT = '#fffdf8';

/** `frame.fellY` is where the fell lies on this canvas. */
export function paintComing(
  canvas: HTMLCanvasElement,
  frame: ClothFrame,
  coming: ComingPicks,
  ground: number,
): void {
  const ctx = canvas.getContext('2d');
  if (ctx === null) return;
  ctx.clearRect(0, 0, canvas.width, canvas.height);
  // A font, not for a reader. Once for all tabs: to set it makes the browser settle the page's styles.
  ctx.font = `700 ${11 * frame.dpr}px system-ui, sans-serif`;
  ctx.textAlign = 'center';
  ctx.textBaseline = 'middle';
  const outline = isLight(ground) ? DARK : LIGHT;
  let y = frame.fellY - Math.round(0.9 * frame.comingPx);
  for (const run of runsOf(coming)) {
    if (y < -frame.comingPx) break;
    const top = y - (run.picks - 1) * frame.comingPx;
    for (let pick = 0; pick < run.picks; pick++) {
      const laid = { y: y - pick * frame.comingPx, place: run.first + pick, colour: run.colour };
      if (laid.y < -frame.comingPx) break;
      ghostPick(ctx, frame, ground, laid);
    }
    markRun(ctx, frame, run, { top, bottom: y, outline });
    y = top - Math.round(1.5 * frame.comingPx);
  }
  ctx.globalAlpha = 1;
}

/** Two yarns of one colour are two runs where their letters tell them apart. */
export function runsOf({ colours, letters }: ComingPicks): Run[] {
  const runs: Run[] = [];
  for (let first = 0; first < colours.length; ) {
    const colour = colours[first] ?? 0;
    let end = first + 1;
    const letter = letters?.[first] ?? '';
    while (colours[end] === colour && (letters?.[end] ?? '') === letter) end++;
    runs.push({ first, picks: end - first, colour, letter });
    first = end;
  }
  return runs;
}

interface LaidPick {
  readonly y: number;
  /** How many picks from now: the farther, the paler. */
  readonly place: number;
  readonly colour: number;
}

/** A thin thread past both edges of the warp, on a veil of ground so that it reads on any colour. */
function ghostPick(
  ctx: CanvasRenderingContext2D,
  frame: ClothFrame,
  ground: number,
  { y, place, colour }: LaidPick,
): void {
  const thickness = Math.max(2, Math.round(Math.min(0.6 * frame.pickPx, 4 * frame.dpr)));
  const left = frame.clothLeft - 5 * frame.dpr;
  const width = frame.clothWidth + 10 * frame.dpr;
  const line = new Path2D();
  const middle = y + (thickness % 2) / 2;
  line.moveTo(left, middle);
  line.lineTo(left + width, middle);
  ctx.globalAlpha = Math.max(0.3, 0.95 - 0.08 * place);
  ctx.lineCap = 'round';
  const veil = [styleOf(ground, isLight(ground) ? 0.5 : 0.3), 2.2 * thickness] as const;
  const edge = [styleOf(toned(colour, -0.35)), thickness] as const;
  const core = [styleOf(paled(colour, 0.06)), Math.max(1, 0.55 * thickness)] as const;
  for (const [style, lineWidth] of [veil, edge, core]) {
    ctx.strokeStyle = style;
    ctx.lineWidth = lineWidth;
    ctx.stroke(line);
  }
}

interface Tab {
  readonly top: number;
  readonly bottom: number;
  readonly outline: string;
}

/** A tab at the left edge, as high as the run, with the yarn's letter where there is one. */
function markRun(
  ctx: CanvasRenderingContext2D,
  { dpr, clothLeft, comingPx }: ClothFrame,
  run: Run,
  { top, bottom, outline }: Tab,
): void {
  const size = 15 * dpr;
  const left = clothLeft - Math.round(0.4 * size);
  const tall = Math.max(bottom - top + Math.round(0.6 * comingPx), size);
  const middle = (top + bottom) / 2;
  ctx.globalAlpha = Math.max(0.5, 1 - 0.06 * run.first);
  ctx.fillStyle = styleOf(run.colour);
  ctx.strokeStyle = outline;
  ctx.lineWidth = dpr;
  ctx.beginPath();
  ctx.roundRect(left, middle - tall / 2, 1.15 * size, tall, 3 * dpr);
  ctx.fill();
  ctx.stroke();
  ctx.fillStyle = isLight(run.colour) ? DARK : LIGHT;
  ctx.fillText(run.letter, left + 0.575 * size, middle + 0.5 * dpr);
}
