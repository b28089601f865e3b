/**
 * Threads that are large enough are drawn as threads, with the light of `cloth/light.ts`: for every
 * kind of cell a small map of how it takes the light, looked up for every pixel.
 */

import type { ClothPart, ClothPlan } from '../../../core/planner/clothPlan.ts';
import { endWidth } from '../../../core/planner/clothPlan.ts';
import { BARE } from '../../../core/planner/clothRows.ts';
import { BARE_THREAD, type Glimpse, rowAt } from '../../../core/planner/clothSeen.ts';
import { toned, unevenness } from '../cloth/colour.ts';
import { GOES_ON_AFTER, GOES_ON_BEFORE, pixelLight, UP } from '../cloth/light.ts';

/** The look of one kind of cell: shares of 256 at `size × size` points. */
interface LightMap {
  readonly top: Uint16Array;
  readonly under: Uint16Array;
  readonly white: Uint16Array;
}

const SIZES = [6, 8, 12, 16, 24, 32] as const;
/** Threads thinner than this, in pixels, show no plies. */
const PLIES_SHOW = 12;
const TURNS = 3;

const maps = new Map<string, LightMap>();

function mapOf(size: number, kind: number, turn: number): LightMap {
  const key = `${size} ${kind} ${turn}`;
  const known = maps.get(key);
  if (known !== undefined) return known;
  const twist = size >= PLIES_SHOW ? 0.05 : 0;
  const shape = { kind, endPx: size, pickPx: size, twist, turn: turn / TURNS };
  const points = { length: size * size };
  const lights = Array.from(points, (_, at) => pixelLight(shape, at % size, Math.floor(at / size)));
  const map = {
    top: Uint16Array.from(lights, ({ top }) => top),
    under: Uint16Array.from(lights, ({ under }) => under),
    white: Uint16Array.from(lights, ({ white }) => white),
  };
  maps.set(key, map);
  return map;
}

/** Where the pixels of one edge of the picture lie on the threads across it. */
interface Threads {
  readonly first: number;
  readonly last: number;
  /** By thread from `first`: its first pixel; one entry more, the end of the last. */
  readonly begins: Int32Array;
  /** By pixel: how far over its thread, from 0 to `size` − 1. */
  readonly places: Uint8Array;
}

/** Lays the light of threads over the pixels of a glimpse; `amount` from 0, flat, to 1. */
export function shadeThreads(
  cloth: ClothPlan,
  view: Glimpse,
  amount: number,
  pixels: Uint32Array,
): void {
  const step = endWidth(cloth) * view.scale;
  const size = SIZES.find((it) => it >= step) ?? 32;
  for (const part of cloth.parts) {
    const columns = columnsOf(cloth, part, view, size);
    const rows = rowsOf(part, view, size);
    if (columns === null || rows === null) continue;
    const blend = { amount: Math.round(256 * amount), size, width: view.width };
    for (let row = rows.first; row <= rows.last; row++) {
      if (part.rows.sheds[row] === BARE) shadeBare(cloth, row, columns, rows, blend, pixels);
      else shadePick(cloth, part, row, columns, rows, blend, pixels);
    }
  }
}

interface Blend {
  readonly amount: number;
  readonly size: number;
  readonly width: number;
}

function columnsOf(cloth: ClothPlan, part: ClothPart, view: Glimpse, size: number): Threads | null {
  const step = endWidth(cloth);
  const start = (part.left - view.left) * view.scale;
  const edge = (end: number) => start + end * step * view.scale;
  const first = Math.max(0, Math.floor(-start / (step * view.scale)));
  const last = Math.min(
    cloth.ends.length - 1,
    Math.floor((view.width - start) / (step * view.scale)),
  );
  return first > last ? null : threadsOver(first, last, edge, view.width, size);
}

/** Rows count upwards and pixels downwards: the first thread here is the uppermost row. */
function rowsOf(part: ClothPart, view: Glimpse, size: number): Threads | null {
  const { at, count } = part.rows;
  const foot = (part.top + part.length - view.top) * view.scale;
  const low = (foot - view.height) / view.scale;
  const high = foot / view.scale;
  if (count === 0 || high <= (at[0] ?? 0) || low >= (at[count] ?? 0)) return null;
  const first = rowAt(part, low);
  const last = rowAt(part, high);
  return threadsOver(first, last, (row) => foot - (at[row] ?? 0) * view.scale, view.height, size);
}

function threadsOver(
  first: number,
  last: number,
  edge: (thread: number) => number,
  room: number,
  size: number,
): Threads {
  const begins = new Int32Array(last - first + 2);
  const places = new Uint8Array(room);
  const pixelAt = (place: number) => Math.min(room, Math.max(0, Math.round(place)));
  for (let thread = first; thread <= last + 1; thread++) {
    begins[thread - first] = pixelAt(edge(thread));
  }
  for (let thread = first; thread <= last; thread++) {
    const [a, b] = [edge(thread), edge(thread + 1)];
    const low = Math.min(a, b);
    for (let pixel = pixelAt(low); pixel < pixelAt(Math.max(a, b)); pixel++) {
      const share = (pixel + 0.5 - low) / Math.abs(b - a);
      places[pixel] = Math.min(size - 1, Math.max(0, Math.floor(share * size)));
    }
  }
  return { first, last, begins, places };
}

function shadePick(
  cloth: ClothPlan,
  part: ClothPart,
  row: number,
  columns: Threads,
  rows: Threads,
  blend: Blend,
  pixels: Uint32Array,
): void {
  const { sheds, colours } = part.rows;
  const lift = cloth.lifts[sheds[row] ?? 0];
  if (lift === undefined) return;
  const above = cloth.lifts[sheds[row + 1] ?? BARE];
  const below = cloth.lifts[sheds[row - 1] ?? BARE];
  const box = {
    top: rows.begins[row + 1 - rows.first] ?? 0,
    bottom: rows.begins[row - rows.first] ?? 0,
  };
  for (let end = columns.first; end <= columns.last; end++) {
    const left = columns.begins[end - columns.first] ?? 0;
    const right = columns.begins[end + 1 - columns.first] ?? 0;
    const warp = toned(
      cloth.ends[end] ?? 0,
      0.025 * unevenness(end, 0) + 0.02 * unevenness(end, row),
    );
    const weft = toned(
      colours[row] ?? 0,
      0.02 * unevenness(row, 1) + 0.025 * unevenness(end, ~row),
    );
    const up = lift[end] === 1;
    const kind = up ? upKind(above, below, end) : downKind(lift, end);
    const turn = Math.floor((unevenness(end, row + 7) * 0.4999 + 0.5) * TURNS);
    const map = mapOf(blend.size, kind, turn);
    const [upper, lower] = up ? [warp, weft] : [weft, warp];
    shadeCell({ ...box, left, right }, { map, upper, lower }, columns, rows, blend, pixels);
  }
}

/** A float goes on where the same thread is on top in the next cell along it. */
function upKind(above: Uint8Array | undefined, below: Uint8Array | undefined, end: number): number {
  const before = above === undefined || above[end] === 1;
  const after = below === undefined || below[end] === 1;
  return UP + (before ? GOES_ON_BEFORE : 0) + (after ? GOES_ON_AFTER : 0);
}

function downKind(lift: Uint8Array, end: number): number {
  return (lift[end - 1] === 0 ? GOES_ON_BEFORE : 0) + (lift[end + 1] === 0 ? GOES_ON_AFTER : 0);
}

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

interface Cell {
  readonly map: LightMap;
  readonly upper: number;
  readonly lower: number;
}

const RED_BLUE = 0xff00ff;

function shadeCell(
  { left, right, top, bottom }: Box,
  { map, upper, lower }: Cell,
  columns: Threads,
  rows: Threads,
  { amount, size, width }: Blend,
  pixels: Uint32Array,
): void {
  const [upperGreen, lowerGreen] = [(upper >>> 8) & 0xff, (lower >>> 8) & 0xff];
  for (let y = top; y < bottom; y++) {
    const line = (rows.places[y] ?? 0) * size;
    for (let x = left; x < right; x++) {
      const at = line + (columns.places[x] ?? 0);
      const a = map.top[at] ?? 0;
      const b = map.under[at] ?? 0;
      const w = map.white[at] ?? 0;
      const redBlue =
        Math.imul(upper & RED_BLUE, a) + Math.imul(lower & RED_BLUE, b) + Math.imul(RED_BLUE, w);
      const green = Math.imul(upperGreen, a) + Math.imul(lowerGreen, b) + Math.imul(0xff, w);
      const seen = ((redBlue >>> 8) & RED_BLUE) | (green & 0xff00);
      const pixel = y * width + x;
      pixels[pixel] = amount === 256 ? 0xff000000 | seen : mixed(pixels[pixel] ?? 0, seen, amount);
    }
  }
}

function mixed(flat: number, shaded: number, amount: number): number {
  const rest = 256 - amount;
  const redBlue = Math.imul(flat & RED_BLUE, rest) + Math.imul(shaded & RED_BLUE, amount);
  const green = Math.imul((flat >>> 8) & 0xff, rest) + Math.imul((shaded >>> 8) & 0xff, amount);
  return 0xff000000 | ((redBlue >>> 8) & RED_BLUE) | (green & 0xff00);
}

/** Bare ends are round too; between them the ground is seen, in their shade. */
function shadeBare(
  cloth: ClothPlan,
  row: number,
  columns: Threads,
  rows: Threads,
  { amount, size, width }: Blend,
  pixels: Uint32Array,
): void {
  const top = rows.begins[row + 1 - rows.first] ?? 0;
  const bottom = rows.begins[row - rows.first] ?? 0;
  if (top >= bottom) return;
  for (let end = columns.first; end <= columns.last; end++) {
    const colour = toned(cloth.ends[end] ?? 0, 0.03 * unevenness(end, 0));
    const right = columns.begins[end + 1 - columns.first] ?? 0;
    for (let x = columns.begins[end - columns.first] ?? 0; x < right; x++) {
      const lean = (2 * ((columns.places[x] ?? 0) + 0.5)) / size - 1;
      const out = lean / BARE_THREAD;
      const pixel = top * width + x;
      if (Math.abs(out) >= 1) continue;
      const bright = 0.42 + 0.66 * (0.9 * Math.sqrt(1 - out ** 2) - 0.2 * out);
      pixels[pixel] = mixed(pixels[pixel] ?? 0, toned(colour, Math.min(1.02, bright) - 1), amount);
    }
  }
  const [first, last] = [columns.begins[0] ?? 0, columns.begins[columns.begins.length - 1] ?? 0];
  for (let y = top + 1; y < bottom; y++) {
    pixels.copyWithin(y * width + first, top * width + first, top * width + last);
  }
}
