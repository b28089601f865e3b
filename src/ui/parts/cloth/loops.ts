/** The selvedges: where the weft turns, and where a resting yarn climbs to its next pick. */
import { styleOf, toned } from './colour.ts';
import type { ClothFrame } from './frame.ts';
import type { WovenPicks } from './scene.ts';
import { isGap } from './scene.ts';

export interface Loop {
  readonly colour: number;
  /** The picks it joins, as places from the fell down; `upper` is the newer. */
  readonly upper: number;
  readonly lower: number;
  readonly side: 0 | 1;
}

/** A yarn that rests longer than this is taken to be cut. */
const LONGEST_REST = 8;

/** `fellY` is where the fell lies on this canvas; it may lie outside. */
export function paintLoops(
  ctx: CanvasRenderingContext2D,
  frame: ClothFrame,
  loops: readonly Loop[],
  fellY: number,
): void {
  const paths = new Map<number, Path2D>();
  for (const loop of loops) {
    const path = paths.get(loop.colour) ?? new Path2D();
    addLoop(path, frame, loop, fellY);
    paths.set(loop.colour, path);
  }
  ctx.lineCap = 'round';
  // In one order everywhere: a loop goes on from one tile to the next.
  const inOrder = [...paths].sort(([one], [other]) => one - other);
  for (const [colour, path] of inOrder) strokeThread(ctx, path, colour, frame.pickPx);
}

/** A thread drawn three times, ever narrower and lighter, looks round. */
function strokeThread(
  ctx: CanvasRenderingContext2D,
  path: Path2D,
  colour: number,
  thickness: number,
): void {
  const layers = [
    [0.92, -0.5],
    [0.66, -0.2],
    [0.3, 0.02],
  ] as const;
  for (const [width, tone] of layers) {
    ctx.strokeStyle = styleOf(toned(colour, tone));
    ctx.lineWidth = thickness * width;
    ctx.stroke(path);
  }
}

/**
 * Yarn that leaves at a side and whose next pick starts at that side passes round the edge there.
 * Only the newest `seen` picks are asked; nothing is carried over a gap.
 */
export function loopsOf({ colours, from }: WovenPicks, seen: number): Loop[] {
  const loops: Loop[] = [];
  if (from === undefined) return loops;
  const last = colours.length - 1;
  for (let pick = last; pick > 0 && last - pick < seen; pick--) {
    const older = pickBefore(colours, pick);
    const side = from[pick] === 1 ? 1 : 0;
    if (older === undefined || from[older] === side) continue;
    loops.push({ colour: colours[pick] ?? 0, upper: last - pick, lower: last - older, side });
  }
  return loops;
}

/** The last earlier pick of the same yarn, unless it was cut since. */
function pickBefore(colours: Uint32Array, pick: number): number | undefined {
  const colour = colours[pick] ?? 0;
  if (isGap(colour)) return undefined;
  for (let older = pick - 1; older >= 0 && pick - older <= LONGEST_REST; older--) {
    if (colours[older] === colour) return older;
    if (isGap(colours[older] ?? 0)) return undefined;
  }
  return undefined;
}

function addLoop(path: Path2D, frame: ClothFrame, loop: Loop, fellY: number): void {
  const { pickPx, clothLeft, clothWidth } = frame;
  const middle = (place: number) => fellY + (place + 0.5) * pickPx;
  const out = loop.side === 1 ? 1 : -1;
  const edge = (loop.side === 1 ? clothLeft + clothWidth : clothLeft) - out * 0.3 * pickPx;
  const reach = edge + out * pickPx * Math.min(0.95 + 0.12 * (loop.lower - loop.upper), 1.4);
  path.moveTo(edge, middle(loop.upper));
  path.bezierCurveTo(
    reach,
    middle(loop.upper) - 0.1 * pickPx,
    reach,
    middle(loop.lower) + 0.1 * pickPx,
    edge,
    middle(loop.lower),
  );
}
