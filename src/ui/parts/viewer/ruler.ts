/** Rulers along the left and the lower edge, in the units of the plan, from the beginning of a piece. */

import type { Mm, Units } from '../../../core/measure/length.ts';
import type { ClothPart, ClothPlan } from '../../../core/planner/clothPlan.ts';
import { length } from '../../format.ts';
import type { Drawn } from './marks.ts';

/** CSS pixels. */
export const RULER_LEFT = 58;
export const RULER_BELOW = 34;

export interface RulerStyle {
  readonly ground: string;
  readonly ink: string;
  readonly line: string;
}

/** Distances between numbers that read well, in millimetres, and parts each is divided into. */
const STEPS: Readonly<Record<Units, readonly (readonly [Mm, number])[]>> = {
  metric: [
    [5, 5],
    [10, 10],
    [20, 4],
    [50, 5],
    [100, 10],
    [200, 4],
    [500, 5],
    [1000, 10],
    [2000, 4],
    [5000, 5],
    [10000, 10],
  ],
  inch: [
    [6.35, 2],
    [12.7, 4],
    [25.4, 4],
    [50.8, 4],
    [101.6, 4],
    [152.4, 6],
    [304.8, 12],
    [609.6, 4],
    [914.4, 3],
    [1828.8, 6],
    [3657.6, 4],
    [9144, 10],
  ],
};

/** Numbers stand at least so many CSS pixels apart. */
const APART = 58;

/** A stretch that is measured: where it begins and ends on the drawing, and which way it counts. */
interface Measured {
  readonly from: number;
  readonly to: number;
}

/** `drawn` is in CSS pixels, and so is the canvas. */
export function drawRulers(
  ctx: CanvasRenderingContext2D,
  cloth: ClothPlan,
  drawn: Drawn,
  style: RulerStyle,
): void {
  const { width, height } = drawn;
  const middle = nearestPart(cloth, drawn);
  ctx.fillStyle = style.ground;
  ctx.fillRect(0, 0, RULER_LEFT, height);
  ctx.fillRect(0, height - RULER_BELOW, width, RULER_BELOW);
  ctx.fillStyle = style.line;
  ctx.fillRect(RULER_LEFT - 1, 0, 1, height - RULER_BELOW);
  ctx.fillRect(RULER_LEFT - 1, height - RULER_BELOW, width, 1);
  const beside = cloth.parts.filter(({ left }) => Math.abs(left - middle.left) < 1);
  for (const part of beside) {
    for (const measured of lengthsOf(part, drawn)) drawLengths(ctx, cloth, measured, drawn, style);
  }
  const foot = middle.top + middle.length;
  const inRow = cloth.parts.filter((part) => Math.abs(part.top + part.length - foot) < 1);
  for (const { left } of inRow) {
    const from = drawn.x + left * drawn.scale;
    drawWidths(ctx, cloth, { from, to: from + cloth.clothWidth * drawn.scale }, drawn, style);
  }
  ctx.fillStyle = style.ground;
  ctx.fillRect(0, height - RULER_BELOW, RULER_LEFT - 1, RULER_BELOW);
  ctx.fillStyle = style.ink;
  ctx.font = FONT;
  ctx.textAlign = 'center';
  ctx.textBaseline = 'middle';
  const unit = cloth.plan.units === 'inch' ? 'in' : 'cm';
  ctx.fillText(unit, RULER_LEFT / 2, height - RULER_BELOW / 2);
}

// Of the canvas, not for a reader.
const FONT = '500 16px system-ui, sans-serif';

/** The part in the middle of the drawing, or the one nearest to it. */
function nearestPart(cloth: ClothPlan, { x, y, scale, width, height }: Drawn): ClothPart {
  const middle = { x: (width / 2 - x) / scale, y: (height / 2 - y) / scale };
  const off = (part: ClothPart) => {
    const outX = Math.max(0, part.left - middle.x, middle.x - part.left - cloth.clothWidth);
    const outY = Math.max(0, part.top - middle.y, middle.y - part.top - part.length);
    return Math.hypot(outX, outY);
  };
  return cloth.parts.reduce((best, part) => (off(part) < off(best) ? part : best));
}

/** A piece is measured with its hems and without its fringes, as the weaver lays the ruler to it. */
function lengthsOf(part: ClothPart, { y, scale }: Drawn): readonly Measured[] {
  const foot = y + (part.top + part.length) * scale;
  const pieces = new Set(part.bands.map(({ piece }) => piece));
  return Array.from(pieces, (piece) => {
    const woven = part.bands.filter(
      (band) => band.piece === piece && band.kind !== 'fringe' && band.kind !== 'cut',
    );
    const from = Math.min(...woven.map((band) => band.from));
    const to = Math.max(...woven.map((band) => band.to));
    return { from: foot - from * scale, to: foot - to * scale };
  });
}

function drawLengths(
  ctx: CanvasRenderingContext2D,
  { plan }: ClothPlan,
  { from, to }: Measured,
  { scale, height }: Drawn,
  { ink }: RulerStyle,
): void {
  ctx.fillStyle = ink;
  ctx.font = FONT;
  ctx.textAlign = 'right';
  ctx.textBaseline = 'middle';
  const bottom = height - RULER_BELOW;
  for (const { at, text } of ticks(from - to, from - bottom, from, scale, plan.units)) {
    const y = Math.round(from - at);
    ctx.fillRect(RULER_LEFT - (text === null ? 5 : 9), y, text === null ? 5 : 9, 1.5);
    if (text !== null && y > 9 && y < bottom - 6) ctx.fillText(text, RULER_LEFT - 12, y + 1);
  }
}

function drawWidths(
  ctx: CanvasRenderingContext2D,
  { plan }: ClothPlan,
  { from, to }: Measured,
  { scale, width, height }: Drawn,
  { ink }: RulerStyle,
): void {
  ctx.fillStyle = ink;
  ctx.font = FONT;
  ctx.textAlign = 'center';
  ctx.textBaseline = 'middle';
  const top = height - RULER_BELOW;
  for (const { at, text } of ticks(to - from, RULER_LEFT - from, width - from, scale, plan.units)) {
    const x = Math.round(from + at);
    ctx.fillRect(x, top, 1.5, text === null ? 5 : 9);
    if (text !== null && x > RULER_LEFT + 8 && x < width - 12) ctx.fillText(text, x, top + 22);
  }
}

interface Tick {
  /** Pixels from the beginning. */
  readonly at: number;
  readonly text: string | null;
}

/** The ticks from `low` to `high` of a stretch so many pixels long. */
export function ticks(
  length: number,
  low: number,
  high: number,
  scale: number,
  units: Units,
): readonly Tick[] {
  const steps = STEPS[units];
  const fit = steps.find(([step]) => step * scale >= APART) ?? steps[steps.length - 1];
  const [step, parts] = fit ?? [1000, 10];
  const small = (step / parts) * scale;
  const first = Math.max(0, Math.ceil(low / small));
  const last = Math.floor(Math.min(length + 1e-6, high) / small);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => {
    const n = first + i;
    const text = n % parts === 0 ? numberOf((n / parts) * step, units) : null;
    return { at: n * small, text };
  });
}

/** The number alone: the unit stands once, in the corner. */
function numberOf(mm: Mm, units: Units): string {
  return length(mm, units).replace(/ (in|cm)$/, '');
}
