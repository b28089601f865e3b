/** Paints a glimpse of the cloth onto a canvas: pixels first, finished fringes over them. */
import type { Mm } from '../../../core/measure/length.ts';
import { type ClothPlan, endWidth } from '../../../core/planner/clothPlan.ts';
import { type Glimpse, paintSeen, type Sight } from '../../../core/planner/clothSeen.ts';
import { contrastLeft } from '../../../core/planner/eye.ts';
import {
  endGroups,
  type FringeBand,
  type FringeDetail,
  fringeStrokes,
} from '../../../core/planner/fringe.ts';
import { styleOf, toned } from '../cloth/colour.ts';
import { shadeThreads } from './shade.ts';

/** The canvas has the size of the glimpse. */
export function paintGlimpse(
  ctx: CanvasRenderingContext2D,
  cloth: ClothPlan,
  view: Glimpse,
  sight: Sight,
): void {
  const image = ctx.createImageData(view.width, view.height);
  const pixels = new Uint32Array(image.data.buffer);
  const amount = shading(cloth, view, sight);
  if (amount < 1) paintSeen(cloth, view, softened(cloth, view, sight), pixels);
  else pixels.fill(sight.ground);
  if (amount > 0) shadeThreads(cloth, view, amount, pixels);
  ctx.putImageData(image, 0, 0);
  if (cloth.state === 'washed') paintFringes(ctx, cloth, view, sight);
}

/** Threads of fewer pixels than this make, with the pixels, patterns that nobody wove. */
const CRISP = 3;
/** A blur of so many pixels takes them away. */
const SOFT = 0.55;

/** The sight without those patterns: what is finer than the screen is blurred like what the eye blurs. */
function softened(cloth: ClothPlan, { scale }: Glimpse, sight: Sight): Sight {
  const need = Math.min(1, Math.max(0, (CRISP - endWidth(cloth) * scale) / 1.5));
  const soft = (SOFT * need) / scale;
  const { light, colour } = sight.blur;
  return { ...sight, blur: { light: Math.hypot(light, soft), colour: Math.hypot(colour, soft) } };
}

/** Threads are flat up to so many pixels, and as round as they get from so many on. */
const FLAT = 4;
const ROUND = 9;

/** How much of the threads' roundness is seen: of what is large enough, what the eye still tells. */
function shading(cloth: ClothPlan, { scale }: Glimpse, { blur }: Sight): number {
  const width = endWidth(cloth);
  const size = Math.min(1, Math.max(0, (width * scale - FLAT) / (ROUND - FLAT)));
  return size * contrastLeft(blur.light, width / 2);
}

/** Ends narrower than this in pixels, or blurred together, are drawn a group at a time. */
const THREADS_SHOW = 1;
/** The turns of a cord of ends narrower than this in pixels cannot be told apart. */
const TURNS_SHOW = 2;

function fringeDetail(width: Mm, scale: number, { blur }: Sight): FringeDetail {
  if (width * scale < THREADS_SHOW || blur.light > width / 2) return 'groups';
  return width * scale < TURNS_SHOW ? 'cords' : 'threads';
}

function paintFringes(
  ctx: CanvasRenderingContext2D,
  cloth: ClothPlan,
  view: Glimpse,
  sight: Sight,
): void {
  const detail = fringeDetail(endWidth(cloth), view.scale, sight);
  const groups = endGroups(cloth);
  ctx.lineCap = 'round';
  for (const part of cloth.parts) {
    const left = view.left - part.left;
    const right = left + view.width / view.scale;
    const seen = groups.filter((it) => it.left < right && it.left + it.width > left);
    if (seen.length === 0) continue;
    for (const band of part.bands) {
      if (band.kind !== 'fringe' || band.to <= band.from) continue;
      const foot = part.top + part.length;
      if (foot - band.to > view.top + view.height / view.scale || foot - band.from < view.top) {
        continue;
      }
      ctx.save();
      hangFrom(ctx, { left: part.left, foot }, band, view);
      for (const stroke of fringeStrokes(cloth, band, seen, detail)) {
        drawStroke(ctx, stroke.curve, stroke.colour, stroke.width, view.scale);
      }
      ctx.restore();
    }
  }
}

/** Turns the canvas so that y counts from the edge of the cloth outwards, in millimetres. */
function hangFrom(
  ctx: CanvasRenderingContext2D,
  { left, foot }: { readonly left: number; readonly foot: number },
  band: FringeBand,
  { left: viewLeft, top, scale }: Glimpse,
): void {
  const away = band.end === 'beginning' ? 1 : -1;
  const edge = foot - (band.end === 'beginning' ? band.to : band.from);
  ctx.setTransform(scale, 0, 0, away * scale, (left - viewLeft) * scale, (edge - top) * scale);
}

/** A thread thick enough to be round has a darker edge. */
const EDGE_SHOWS = 4;

function drawStroke(
  ctx: CanvasRenderingContext2D,
  curve: readonly number[],
  colour: number,
  width: number,
  scale: number,
): void {
  const path = new Path2D();
  path.moveTo(curve[0] ?? 0, curve[1] ?? 0);
  for (let i = 2; i + 5 < curve.length; i += 6) {
    const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0] = curve.slice(i, i + 6);
    path.bezierCurveTo(a, b, c, d, e, f);
  }
  const round = width * scale >= EDGE_SHOWS;
  ctx.lineWidth = width;
  ctx.strokeStyle = styleOf(round ? toned(colour, -0.28) : colour);
  ctx.stroke(path);
  if (!round) return;
  ctx.lineWidth = 0.62 * width;
  ctx.strokeStyle = styleOf(colour);
  ctx.stroke(path);
}
