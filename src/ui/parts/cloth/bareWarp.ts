/** The bare warp, from the fell up to the heddle: fine parallel threads with ground between them. */
import { paled, toned, unevenness } from './colour.ts';
import type { ClothFrame } from './frame.ts';
import { FAN } from './frame.ts';

export interface BareWarp {
  readonly ends: Uint32Array;
  /** Colour of what lies below the warp. */
  readonly ground: number;
  /** The open shed: ends that are down lie deeper and darker. None when the warp lies flat. */
  readonly lift: Uint8Array | undefined;
}

/** A bare thread's width over the distance between two ends. */
const THICKNESS = 0.74;
/** The ground between the threads lies in their shade. */
const SHADE = 0.84;
/** Places within a pixel at which a thread may begin. */
const PLACES = 32;
/** A fanned thread moves so little from row to row that this many device rows can be one. */
const ALIKE = 2;

/**
 * The rows of pixels from `top` up to, not including, `bottom`. Above the fell the threads spread
 * towards the heddle; below it they lie as close as in the cloth. `out`: where they are put.
 */
export function warpRows(
  frame: ClothFrame,
  warp: BareWarp,
  top: number,
  bottom: number,
  out = new Uint32Array(frame.width * (bottom - top)),
): Uint32Array {
  const { width } = frame;
  const colours = warp.ends.map((colour, end) => endColour(warp, colour, end));
  const threads = threadProfiles(Math.max(THICKNESS * frame.endPx, 0.1));
  const row = new Float32Array(width * 4);
  const alike = frame.dpr > 1 ? ALIKE : 1;
  for (let y = top; y < bottom; y += alike) {
    row.fill(0);
    const spread = 1 + FAN * Math.max(0, 1 - y / frame.fellY);
    layWarp(row, frame, threads, colours, spread);
    settle(row, frame, warp.ground, spread, out, (y - top) * width);
    if (alike > 1 && y + 1 < bottom) {
      out.copyWithin((y + 1 - top) * width, (y - top) * width, (y + 1 - top) * width);
    }
  }
  return out;
}

function endColour({ lift }: BareWarp, colour: number, end: number): number {
  const deep = lift !== undefined && lift[end] !== 1 ? -0.16 : 0;
  return toned(paled(colour, 0.03), deep + 0.035 * unevenness(end, 0));
}

/** For a thread that begins at each place within a pixel: light and cover of the pixels it touches. */
interface Profile {
  readonly light: Float32Array;
  readonly cover: Float32Array;
}
interface Threads {
  readonly width: number;
  readonly profiles: readonly Profile[];
}

function threadProfiles(width: number): Threads {
  const profiles = Array.from({ length: PLACES }, (_, place) => profileAt(place / PLACES, width));
  return { width, profiles };
}

function profileAt(start: number, width: number): Profile {
  const pixels = Math.ceil(start + width);
  const light = new Float32Array(pixels);
  const cover = new Float32Array(pixels);
  for (let pixel = 0; pixel < pixels; pixel++) {
    const from = Math.max(0, (pixel - start) / width);
    const to = Math.min(1, (pixel + 1 - start) / width);
    cover[pixel] = (to - from) * width;
    light[pixel] = (to - from) * width * brightness(from, to);
  }
  return { light, cover };
}

/** The mean light on a round thread between two shares of its width; it comes from the upper left. */
function brightness(from: number, to: number): number {
  const steps = 16;
  let sum = 0;
  for (let step = 0; step < steps; step++) {
    const lean = 1.8 * (from + ((to - from) * (step + 0.5)) / steps) - 0.9;
    const facing = 0.9 * Math.sqrt(1 - lean ** 2) - 0.2 * lean;
    sum += Math.min(1, 0.4 + 0.66 * facing);
  }
  return sum / steps;
}

/** Adds the light of every thread to red, green and blue of the pixels, and its cover to the fourth. */
function layWarp(
  row: Float32Array,
  frame: ClothFrame,
  { width, profiles }: Threads,
  colours: Uint32Array,
  spread: number,
): void {
  const step = frame.endPx * spread;
  let left = middleOf(frame) + (0.5 - frame.ends / 2) * step - width / 2;
  for (const colour of colours) {
    const first = Math.floor(left);
    const profile = profiles[Math.floor((left - first) * PLACES)];
    if (profile !== undefined) addThread(row, first * 4, profile, colour);
    left += step;
  }
}

function addThread(row: Float32Array, start: number, { light, cover }: Profile, colour: number) {
  const red = colour & 0xff;
  const green = (colour >>> 8) & 0xff;
  const blue = (colour >>> 16) & 0xff;
  for (let pixel = 0; pixel < light.length; pixel++) {
    const at = start + pixel * 4;
    const part = light[pixel] ?? 0;
    row[at] = (row[at] ?? 0) + part * red;
    row[at + 1] = (row[at + 1] ?? 0) + part * green;
    row[at + 2] = (row[at + 2] ?? 0) + part * blue;
    row[at + 3] = (row[at + 3] ?? 0) + (cover[pixel] ?? 0);
  }
}

/** Lets the ground show wherever no thread covers it. */
function settle(
  row: Float32Array,
  frame: ClothFrame,
  ground: number,
  spread: number,
  out: Uint32Array,
  start: number,
): void {
  const half = (frame.endPx * ((frame.ends - 1) * spread + THICKNESS)) / 2;
  const left = Math.max(0, Math.floor(middleOf(frame) - half));
  const right = Math.min(frame.width, Math.ceil(middleOf(frame) + half));
  out.fill(ground, start, start + frame.width);
  const red = SHADE * (ground & 0xff);
  const green = SHADE * ((ground >>> 8) & 0xff);
  const blue = SHADE * ((ground >>> 16) & 0xff);
  for (let pixel = left; pixel < right; pixel++) {
    const at = pixel * 4;
    const open = Math.max(0, 1 - (row[at + 3] ?? 0));
    const r = Math.min(255, (row[at] ?? 0) + open * red);
    const g = Math.min(255, (row[at + 1] ?? 0) + open * green);
    const b = Math.min(255, (row[at + 2] ?? 0) + open * blue);
    out[start + pixel] = 0xff000000 | (b << 16) | (g << 8) | r;
  }
}

function middleOf(frame: ClothFrame): number {
  return frame.clothLeft + (frame.ends * frame.endPx) / 2;
}
