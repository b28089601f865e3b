/** Hatching that stands for a yarn where there is no colour: the darker the yarn, the closer the lines. */
import type { Hex } from '../measure/colour.ts';
import type { Mm } from '../measure/length.ts';
import { luminanceOf } from '../measure/linearLight.ts';

export interface Rect {
  readonly x: Mm;
  readonly y: Mm;
  readonly width: Mm;
  readonly height: Mm;
}

export interface Segment {
  readonly x1: Mm;
  readonly y1: Mm;
  readonly x2: Mm;
  readonly y2: Mm;
}

type Direction = 'rising' | 'falling' | 'upright';

interface Style {
  readonly directions: readonly Direction[];
  readonly spacing: Mm;
}

/** From light to dark. Beyond these they come round again: the letters tell. */
const STYLES: readonly Style[] = [
  { directions: [], spacing: 1 },
  { directions: ['rising'], spacing: 2.2 },
  { directions: ['upright'], spacing: 1.5 },
  { directions: ['falling'], spacing: 1.2 },
  { directions: ['rising', 'falling'], spacing: 1.8 },
  { directions: ['upright', 'falling'], spacing: 1 },
  { directions: ['rising', 'falling', 'upright'], spacing: 0.8 },
];

/** A style for each yarn by its colour, spread over all styles, so that few yarns look as different as they can. */
export function hatchStyles(colours: readonly Hex[]): readonly number[] {
  const lightFirst = colours
    .map((colour, yarn) => ({ yarn, light: luminance(colour) }))
    .sort((a, b) => b.light - a.light);
  return colours.map((_, yarn) => {
    const place = lightFirst.findIndex((it) => it.yarn === yarn);
    return styleAt(place, colours.length);
  });
}

function styleAt(place: number, count: number): number {
  if (count <= 1) return 0;
  if (count > STYLES.length) return place % STYLES.length;
  return Math.round((place * (STYLES.length - 1)) / (count - 1));
}

/** Relative luminance of `#rrggbb`, 0 to 1. */
export function luminance(colour: Hex): number {
  const part = (at: number) => Number.parseInt(colour.slice(at, at + 2), 16) / 255;
  return luminanceOf([part(1), part(3), part(5)]);
}

/** The lines of a style within a rectangle. They run through from one rectangle to the next. */
export function hatchLines(style: number, rect: Rect): readonly Segment[] {
  const { directions, spacing } = STYLES[style % STYLES.length] ?? { directions: [], spacing: 1 };
  return directions.flatMap((direction) => linesIn(direction, spacing, rect));
}

function linesIn(direction: Direction, spacing: Mm, rect: Rect): readonly Segment[] {
  const { x, y, width, height } = rect;
  const [right, foot] = [x + width, y + height];
  if (direction === 'upright') {
    return multiples(spacing, x, right).map((at) => ({ x1: at, y1: y, x2: at, y2: foot }));
  }
  // Points of one line have the same x + y when it rises to the right, the same x − y when it falls.
  const rises = direction === 'rising';
  const step = spacing * Math.SQRT2;
  const [least, most] = rises ? [x + y, right + foot] : [x - foot, right - y];
  return multiples(step, least, most).map((sum) => {
    const yAt = (across: Mm) => (rises ? sum - across : across - sum);
    const xAt = (down: Mm) => (rises ? sum - down : sum + down);
    const x1 = clamp(rises ? xAt(foot) : xAt(y), x, right);
    const x2 = clamp(rises ? xAt(y) : xAt(foot), x, right);
    return { x1, y1: yAt(x1), x2, y2: yAt(x2) };
  });
}

/** Whole multiples of a step strictly between two numbers. */
function multiples(step: number, from: number, to: number): readonly number[] {
  const first = Math.floor(from / step) + 1;
  const count = Math.max(0, Math.ceil(to / step) - first);
  return Array.from({ length: count }, (_, i) => (first + i) * step);
}

function clamp(value: number, least: number, most: number): number {
  return Math.max(least, Math.min(most, value));
}
