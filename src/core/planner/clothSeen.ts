/**
 * The cloth as it is seen from farther off: every pixel the mean, in linear light, of all it covers,
 * or of all that runs together in the eye.
 *
 * A cell shows the end or the pick, by the shed: so the light of a pixel is a sum over the sheds of
 * (a share of the picks) × (the light of the ends up) + (the light of the picks) × (a share of the
 * ends down). Each factor needs one pass along an edge of the picture, however many cells there are,
 * and is exact at every size; smaller copies of the picture, to choose from, are not needed.
 */
import type { Mm } from '../measure/length.ts';
import { LIGHT_STEPS, lightOfPixel } from '../measure/linearLight.ts';
import type { ClothPart, ClothPlan } from './clothPlan.ts';
import { BARE } from './clothRows.ts';
import { lightOfRow, paintPart, type SeenPart } from './composeLight.ts';
import type { EyeBlur } from './eye.ts';
import {
  type Axis,
  addThread,
  axisOver,
  blurAxis,
  type Channels,
  channelsOf,
  ONE,
} from './pixelShares.ts';

/** Where on the page a picture of so many pixels lies. */
export interface Glimpse {
  readonly left: Mm;
  readonly top: Mm;
  /** Pixels per millimetre. */
  readonly scale: number;
  /** Pixels. */
  readonly width: number;
  readonly height: number;
}

export interface Sight {
  readonly blur: EyeBlur;
  /** What lies behind the cloth, as a pixel. */
  readonly ground: number;
}

/** How thick a bare thread is, of the distance between two ends. */
export const BARE_THREAD = 0.7;

/**
 * Fills `out` with the pixels of a glimpse, row by row. Parts of the page that are drawn so small as
 * to share a pixel hide each other there. Throws when `out` has another size.
 */
export function paintSeen(cloth: ClothPlan, view: Glimpse, sight: Sight, out: Uint32Array): void {
  if (out.length !== view.width * view.height) {
    throw new Error(`got room for ${out.length} pixels, wanted ${view.width} × ${view.height}`);
  }
  out.fill(sight.ground);
  for (const part of cloth.parts) {
    const seen = seenPart(cloth, part, view, sight);
    if (seen !== null) paintPart(seen, view.width, out);
  }
}

/** The mean light of every pixel of a glimpse: red, green, blue, row by row, before any rounding. */
export function lightSeen(cloth: ClothPlan, view: Glimpse, sight: Sight): Float64Array {
  const light = new Float64Array(view.width * view.height * 3);
  const ground = lightOfPixel(sight.ground);
  for (let at = 0; at < light.length; at++) light[at] = ground[at % 3] ?? 0;
  for (const part of cloth.parts) {
    const seen = seenPart(cloth, part, view, sight);
    if (seen === null) continue;
    const row = new Float64Array(seen.columns.pixels * 3);
    for (let y = 0; y < seen.rows.pixels; y++) {
      lightOfRow(seen, y, row);
      const start = ((seen.rows.first + y) * view.width + seen.columns.first) * 3;
      for (let at = 0; at < row.length; at++) light[start + at] = (row[at] ?? 0) / LIGHT_STEPS;
    }
  }
  return light;
}

/**
 * The part on the pixels of a picture, or null where it does not meet it. Colours are taken as what
 * they add to the ground, so that what is not covered is nought.
 */
function seenPart(
  cloth: ClothPlan,
  part: ClothPart,
  view: Glimpse,
  { blur, ground }: Sight,
): SeenPart | null {
  const spread: EyeBlur = { light: blur.light * view.scale, colour: blur.colour * view.scale };
  const split = spread.colour !== spread.light;
  const base = channelsOf(ground, split);
  const ink = memoised((pixel: number): Channels => {
    const [a, b, c] = channelsOf(pixel, split);
    return [a - base[0], b - base[1], c - base[2]];
  });
  const columns = columnsOf(cloth, part, view, spread, ink);
  const rows = columns && rowsOf(cloth, part, view, spread, ink);
  return columns && rows && { ground: base, split, columns, rows };
}

/** A cloth has few colours and many threads. */
function memoised<T>(of: (pixel: number) => T): (pixel: number) => T {
  const known = new Map<number, T>();
  return (pixel) => {
    const old = known.get(pixel);
    if (old !== undefined) return old;
    const made = of(pixel);
    known.set(pixel, made);
    return made;
  };
}

/** Two a shed, one for warp left bare, and an empty one, so that they pair. */
function termsOf({ lifts }: ClothPlan): number {
  return 2 * lifts.length + 2;
}

/** For every shed the ends up and the ends down, then the bare ends. */
function columnsOf(
  cloth: ClothPlan,
  part: ClothPart,
  view: Glimpse,
  spread: EyeBlur,
  ink: (pixel: number) => Channels,
): Axis | null {
  const { ends, lifts } = cloth;
  const start = (part.left - view.left) * view.scale;
  const step = (cloth.clothWidth * view.scale) / ends.length;
  const axis = axisOver(start, start + step * ends.length, view.width, spread, termsOf(cloth));
  if (axis === null) return null;
  const from = Math.max(0, Math.floor((axis.first - start) / step));
  const to = Math.ceil((axis.first + axis.pixels - start) / step);
  const hasBare = part.rows.sheds.includes(BARE);
  const thin = ((1 - BARE_THREAD) / 2) * step;
  for (let end = from; end < Math.min(to, ends.length); end++) {
    const colour = ink(ends[end] ?? 0);
    const left = start + end * step;
    for (const [shed, lift] of lifts.entries()) {
      if (lift[end] === 1) addThread(axis, left, left + step, 2 * shed, colour);
      else addThread(axis, left, left + step, 2 * shed + 1, ONE);
    }
    if (hasBare) addThread(axis, left + thin, left + step - thin, 2 * lifts.length, colour);
  }
  return blurAxis(axis, spread);
}

/** For every shed the picks' share and the picks' light, then the share that lies bare. */
function rowsOf(
  cloth: ClothPlan,
  part: ClothPart,
  view: Glimpse,
  spread: EyeBlur,
  ink: (pixel: number) => Channels,
): Axis | null {
  const { at, count, sheds, colours } = part.rows;
  const bottom = (part.top + part.length - view.top) * view.scale;
  const place = (row: number) => bottom - (at[row] ?? 0) * view.scale;
  const bare = 2 * cloth.lifts.length;
  const axis = axisOver(place(count), place(0), view.height, spread, termsOf(cloth));
  if (axis === null) return null;
  const lowest = (bottom - (axis.first + axis.pixels)) / view.scale;
  const top = axis.first;
  for (let row = rowAt(part, lowest); row < count && place(row) > top; row++) {
    const shed = sheds[row] ?? 0;
    const [low, high] = [place(row + 1), place(row)];
    if (shed === BARE) addThread(axis, low, high, bare, ONE);
    else {
      addThread(axis, low, high, 2 * shed, ONE);
      addThread(axis, low, high, 2 * shed + 1, ink(colours[row] ?? 0));
    }
  }
  return blurAxis(axis, spread);
}

/** The row that lies at a length of its part: the first or the last one where that is outside. */
export function rowAt({ rows: { at, count } }: ClothPart, length: Mm): number {
  let low = 0;
  let high = Math.max(0, count - 1);
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((at[middle] ?? 0) <= length) low = middle;
    else high = middle - 1;
  }
  return low;
}
