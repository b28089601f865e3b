/**
 * The finished fringe as strokes to draw: the ends of every hemstitched group run together at the
 * stitch and hang down from there, loose or twisted into a cord.
 */
import type { Mm } from '../measure/length.ts';
import { lightOfPixel, pixelOfLight } from '../measure/linearLight.ts';
import { type ClothPlan, endWidth } from './clothPlan.ts';
import type { Band } from './clothRows.ts';

/** One thread or bundle; `curve` is a start and any number of cubic Bézier arcs, x and y by turns. */
export interface Stroke {
  readonly colour: number;
  readonly width: Mm;
  /** x from the left selvedge, y away from the edge of the cloth. */
  readonly curve: readonly number[];
}

export type FringeBand = Extract<Band, { kind: 'fringe' }>;

/** Every thread by itself; or each cord as one, other threads by themselves; or each group as one. */
export type FringeDetail = 'threads' | 'cords' | 'groups';

/** A group of ends and where it lies, from the left selvedge. */
export interface EndGroup {
  readonly firstEnd: number;
  readonly ends: number;
  readonly left: Mm;
  readonly width: Mm;
}

/** The hemstitched groups of the cloth from its left selvedge, in mm of the state shown. */
export function endGroups(cloth: ClothPlan): readonly EndGroup[] {
  const step = endWidth(cloth);
  let firstEnd = 0;
  return cloth.groups.map((ends) => {
    const group = { firstEnd, ends, left: firstEnd * step, width: ends * step };
    firstEnd += ends;
    return group;
  });
}

/** How far a bundle is drawn together at the stitch, and how far its threads part again below. */
const WAIST = 0.34;
const FLARE = 0.72;
/** A thread off the loom, of the distance between two ends in the cloth. */
const THICKNESS = 0.8;
/** A twisted cord is shorter at its end by a knot, with a tuft of this share below it. */
const TUFT = 0.14;

/**
 * Strokes of these groups in mm, to be drawn in this order, later over earlier. A fringe that is twisted
 * becomes cords, seen by the thread; as groups it is bundles like any other.
 */
export function fringeStrokes(
  cloth: ClothPlan,
  band: FringeBand,
  groups: readonly EndGroup[],
  detail: FringeDetail,
): readonly Stroke[] {
  const length = band.to - band.from;
  return groups.flatMap((group) => {
    if (detail === 'groups') return [bundle(cloth, group, length)];
    if (!band.twisted) return threads(cloth, group, length);
    return detail === 'cords' ? plainCord(cloth, group, length) : cord(cloth, group, length);
  });
}

function bundle(cloth: ClothPlan, group: EndGroup, length: Mm): Stroke {
  const { left, width } = group;
  const middle = left + width / 2;
  const curve = [middle, 0, middle, length / 3, middle, length / 2, middle, length];
  return { colour: meanColour(colours(cloth, group)), width: FLARE * width, curve };
}

function threads(cloth: ClothPlan, group: EndGroup, length: Mm): readonly Stroke[] {
  const step = endWidth(cloth);
  return colours(cloth, group).map((colour, i) => {
    const long = length * (1 - 0.045 * unevenness(group.firstEnd + i));
    return {
      colour,
      width: THICKNESS * step,
      curve: hanging(group, (i + 0.5) * step, long, FLARE),
    };
  });
}

/** From its place in the cloth into the waist of its group, and down from there. */
function hanging({ left, width }: EndGroup, place: Mm, length: Mm, flare: number): number[] {
  const start = left + place;
  const middle = left + width / 2;
  const waist = middle + WAIST * (start - middle);
  const tip = middle + flare * (start - middle);
  const turn = Math.min(0.75 * width, length / 2);
  return [
    ...[start, 0, start, 0.55 * turn, waist, 0.45 * turn, waist, turn],
    ...[waist, turn + (length - turn) / 3, tip, length - (length - turn) / 2, tip, length],
  ];
}

/** A cord too thin for its turns to be seen: it, its tuft, and its knot over both. */
function plainCord(cloth: ClothPlan, group: EndGroup, length: Mm): readonly Stroke[] {
  const { middle, thick, knot } = cordOf(cloth, group, length);
  const strands = colours(cloth, group);
  const down = (from: Mm, to: Mm) => [middle, from, middle, from, middle, to, middle, to];
  const colour = meanColour(strands);
  return [
    { colour, width: thick, curve: down(0, knot) },
    { colour, width: 1.15 * thick, curve: down(knot, length) },
    tieOf(strands, { middle, thick, knot }),
  ];
}

interface CordShape {
  readonly middle: Mm;
  readonly thick: Mm;
  /** How far down it is tied. */
  readonly knot: Mm;
}

function cordOf(cloth: ClothPlan, { left, width, ends }: EndGroup, length: Mm): CordShape {
  return {
    middle: left + width / 2,
    thick: Math.min(0.8 * width, 1.15 * endWidth(cloth) * Math.sqrt(ends)),
    knot: length * (1 - TUFT),
  };
}

function tieOf(strands: readonly number[], { middle, thick, knot }: CordShape): Stroke {
  const curve = [middle - thick / 4, knot, middle, knot, middle, knot, middle + thick / 4, knot];
  return { colour: strands[strands.length >> 1] ?? 0, width: 1.1 * thick, curve };
}

/** Two strands of a group turned round each other: short slanting strokes on a round cord. */
function cord(cloth: ClothPlan, group: EndGroup, length: Mm): readonly Stroke[] {
  const { middle, thick, knot } = cordOf(cloth, group, length);
  const strands = colours(cloth, group);
  const top = Math.min(0.75 * group.width, length / 3);
  const into = strands.map((colour, i): Stroke => {
    const place = (i + 0.5) * endWidth(cloth);
    const curve = hanging(group, place, Math.min(2 * top, knot), WAIST);
    return { colour, width: THICKNESS * endWidth(cloth), curve };
  });
  const slants = slantsOf(strands, { middle, thick, from: top, to: knot });
  const tuft = strands.map((colour, i): Stroke => {
    const tip = middle + ((i + 0.5) / strands.length - 0.5) * 1.3 * thick;
    const low = length * (1 - 0.02 * unevenness(group.firstEnd + i));
    const curve = [middle, knot, middle, knot, tip, (knot + low) / 2, tip, low];
    return { colour, width: THICKNESS * endWidth(cloth), curve };
  });
  return [...into, ...tuft, ...slants, tieOf(strands, { middle, thick, knot })];
}

interface Cord {
  readonly middle: Mm;
  readonly thick: Mm;
  readonly from: Mm;
  readonly to: Mm;
}

/** The colours of both strands by turns, each stroke a half turn of the cord. */
function slantsOf(strands: readonly number[], { middle, thick, from, to }: Cord): Stroke[] {
  const half = strands.length / 2;
  const pair = [strands.slice(0, Math.ceil(half)), strands.slice(Math.floor(half))].map(meanColour);
  const step = 0.62 * thick;
  const count = Math.max(1, Math.round((to - from) / step));
  return Array.from({ length: count }, (_, k) => {
    const y = from + ((k + 0.5) * (to - from)) / count;
    const [left, right] = [middle - 0.2 * thick, middle + 0.2 * thick];
    const curve = [left, y + 0.3 * thick, middle, y, middle, y, right, y - 0.3 * thick];
    return { colour: pair[k % 2] ?? 0, width: 0.58 * thick, curve };
  });
}

function colours({ ends }: ClothPlan, { firstEnd, ends: count }: EndGroup): readonly number[] {
  return Array.from(ends.subarray(firstEnd, firstEnd + count));
}

/** The mean of some pixels, as their light adds up. */
export function meanColour(pixels: readonly number[]): number {
  const sum = [0, 0, 0];
  for (const pixel of pixels) {
    for (const [i, light] of lightOfPixel(pixel).entries()) sum[i] = (sum[i] ?? 0) + light;
  }
  const mean = (i: number) => (sum[i] ?? 0) / Math.max(1, pixels.length);
  return pixelOfLight([mean(0), mean(1), mean(2)]);
}

/** From 0 to 1, the same for the same end, and never alike for neighbours: no fringe is cut dead even. */
function unevenness(end: number): number {
  return ((end * 7) % 11) / 10;
}
