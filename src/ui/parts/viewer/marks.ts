/** What is drawn over the cloth: hemstitching, folds, seams, where to cut, and the edges of the cloth. */

import type { Mm } from '../../../core/measure/length.ts';
import type { ClothPart, ClothPlan } from '../../../core/planner/clothPlan.ts';
import { BARE, type Band } from '../../../core/planner/clothRows.ts';
import { rowAt } from '../../../core/planner/clothSeen.ts';
import { endGroups } from '../../../core/planner/fringe.ts';
import { isLight, styleOf, toned } from '../cloth/colour.ts';

/** Where the page lies on the drawing: its corner, and pixels per millimetre. */
export interface Drawn {
  readonly x: number;
  readonly y: number;
  readonly scale: number;
  readonly width: number;
  readonly height: number;
}

export interface MarkStyle {
  /** Writing and lines on the page. */
  readonly ink: string;
  /** How wide a line is, in pixels of the drawing. */
  readonly line: number;
}

export function drawMarks(
  ctx: CanvasRenderingContext2D,
  cloth: ClothPlan,
  drawn: Drawn,
  style: MarkStyle,
): void {
  for (const part of cloth.parts) {
    const left = drawn.x + part.left * drawn.scale;
    const right = left + cloth.clothWidth * drawn.scale;
    const foot = drawn.y + (part.top + part.length) * drawn.scale;
    if (right < 0 || left > drawn.width) continue;
    const place = { left, right, y: (at: Mm) => foot - at * drawn.scale };
    drawEdges(ctx, part, place, style);
    for (const band of part.bands) drawBand(ctx, cloth, part, band, place, drawn, style);
  }
}

/** Pieces narrower than this, or nearer to the next one below, in pixels, go without a name. */
const NAMES_SHOW = 72;
const NAME_ROOM = 30;

/** Under each of several washed pieces its name, cut where it is too long. */
export function drawNames(
  ctx: CanvasRenderingContext2D,
  { plan, parts, clothWidth }: ClothPlan,
  { x, y, scale }: Drawn,
  ink: string,
): void {
  const width = clothWidth * scale;
  const below = parts.map(({ top }) => top).filter((top) => top > 0);
  const feet = parts.map(({ top, length }) => top + length);
  const room = Math.min(...below.map((top) => top - Math.max(0, ...feet.filter((it) => it < top))));
  if (parts.length < 2 || width < NAMES_SHOW || room * scale < NAME_ROOM) return;
  // A font, not for a reader.
  ctx.font = '500 18px system-ui, sans-serif';
  ctx.textAlign = 'center';
  ctx.textBaseline = 'middle';
  ctx.fillStyle = ink;
  for (const { left, top, length, bands } of parts) {
    const name = plan.pieces[bands[0]?.piece ?? 0]?.name ?? '';
    const middle = x + (left + clothWidth / 2) * scale;
    ctx.fillText(fitting(ctx, name, width), middle, y + (top + length) * scale + 17);
  }
}

function fitting(ctx: CanvasRenderingContext2D, name: string, width: number): string {
  if (ctx.measureText(name).width <= width) return name;
  let letters = name.length;
  while (letters > 0 && ctx.measureText(`${name.slice(0, letters)} …`).width > width) letters--;
  return `${name.slice(0, letters).trimEnd()} …`;
}

interface PartPlace {
  readonly left: number;
  readonly right: number;
  /** Height on the drawing of a length from the beginning of the part. */
  readonly y: (at: Mm) => number;
}

/** A fine line round the cloth, so that it stands out from a page of its own colour. */
function drawEdges(
  ctx: CanvasRenderingContext2D,
  { rows }: ClothPart,
  { left, right, y }: PartPlace,
  { ink, line }: MarkStyle,
): void {
  const top = y(rows.at[rows.count] ?? 0);
  ctx.globalAlpha = 0.4;
  ctx.strokeStyle = ink;
  ctx.lineWidth = line;
  const half = line / 2;
  ctx.strokeRect(left - half, top - half, right - left + line, y(rows.at[0] ?? 0) - top + line);
  ctx.globalAlpha = 1;
}

function drawBand(
  ctx: CanvasRenderingContext2D,
  cloth: ClothPlan,
  part: ClothPart,
  band: Band,
  place: PartPlace,
  drawn: Drawn,
  style: MarkStyle,
): void {
  const high = Math.max(place.y(band.from), place.y(band.to));
  const low = Math.min(place.y(band.from), place.y(band.to));
  // Half a screen more, for what reaches beyond its band.
  if (high < -drawn.height / 2 || low > 1.5 * drawn.height) return;
  switch (band.kind) {
    case 'fringe':
      drawHemstitch(ctx, cloth, part, band, place, drawn);
      break;
    case 'fold':
      drawFold(ctx, part, band, place, style);
      break;
    case 'hem':
      drawAcross(ctx, place, place.y(innerEdge(band)), style, [8, 5]);
      break;
    case 'zigzag':
      drawZigzag(ctx, place, place.y(innerEdge(band)), drawn, style);
      break;
    case 'plain':
      drawAcross(ctx, place, place.y(innerEdge(band)), style, [2, 5]);
      break;
    case 'cut':
      drawAcross(ctx, place, place.y((band.from + band.to) / 2), style, [14, 7]);
      break;
    case 'body':
      break;
  }
}

function innerEdge({ end, from, to }: Extract<Band, { end: unknown }>): Mm {
  return end === 'beginning' ? to : from;
}

/** Dashes that read on any cloth: the page's ink beside its opposite. */
function drawAcross(
  ctx: CanvasRenderingContext2D,
  { left, right }: PartPlace,
  y: number,
  { line }: MarkStyle,
  dashes: readonly number[],
): void {
  const path = new Path2D();
  path.moveTo(left, y);
  path.lineTo(right, y);
  strokeTwice(ctx, path, line, dashes);
}

function strokeTwice(
  ctx: CanvasRenderingContext2D,
  path: Path2D,
  line: number,
  dashes: readonly number[],
): void {
  ctx.setLineDash(dashes.map((dash) => dash * line));
  ctx.strokeStyle = 'rgb(255 253 248 / 85%)';
  ctx.lineWidth = 3.4 * line;
  ctx.stroke(path);
  ctx.strokeStyle = 'rgb(29 23 18 / 90%)';
  ctx.lineWidth = 1.5 * line;
  ctx.stroke(path);
  ctx.setLineDash([]);
}

/** The fold is the end of the cloth; the seam that holds the hem shows as stitches beside it. */
function drawFold(
  ctx: CanvasRenderingContext2D,
  part: ClothPart,
  band: Extract<Band, { kind: 'fold' }>,
  place: PartPlace,
  style: MarkStyle,
): void {
  const into = band.end === 'beginning' ? 1 : -1;
  const seam = place.y(band.from + into * Math.min(band.depth, part.length / 2));
  drawAcross(ctx, place, seam, style, [5, 4]);
  const fold = place.y(band.from);
  const soft = 5 * style.line;
  const shade = ctx.createLinearGradient(0, fold, 0, fold - into * soft);
  shade.addColorStop(0, 'rgb(0 0 0 / 45%)');
  shade.addColorStop(1, 'rgb(0 0 0 / 0%)');
  ctx.fillStyle = shade;
  ctx.fillRect(place.left, Math.min(fold, fold - into * soft), place.right - place.left, soft);
}

function drawZigzag(
  ctx: CanvasRenderingContext2D,
  { left, right }: PartPlace,
  y: number,
  { scale }: Drawn,
  { line }: MarkStyle,
): void {
  const step = Math.max(4 * line, 2 * scale);
  const path = new Path2D();
  path.moveTo(left, y);
  for (let i = 1; left + i * step <= right; i++) {
    path.lineTo(left + i * step, y + (i % 2 === 0 ? 0 : step));
  }
  strokeTwice(ctx, path, line, []);
}

/** Groups narrower than this in pixels are not told apart. */
const GROUPS_SHOW = 5;

/** The tail runs along the edge and up between the groups, in the colour of the pick next to it. */
function drawHemstitch(
  ctx: CanvasRenderingContext2D,
  cloth: ClothPlan,
  part: ClothPart,
  band: Extract<Band, { kind: 'fringe' }>,
  place: PartPlace,
  drawn: Drawn,
): void {
  const edge = innerEdge(band);
  const into = band.end === 'beginning' ? 1 : -1;
  const deep = stitchDepth(cloth, part, edge, into);
  const [y, tip] = [place.y(edge), place.y(edge + into * deep)];
  const width = (cloth.clothWidth * drawn.scale) / Math.max(1, cloth.groups.length);
  if (width < GROUPS_SHOW) return;
  const path = new Path2D();
  path.moveTo(place.left, y);
  path.lineTo(place.right, y);
  for (const { left, width: wide } of endGroups(cloth)) {
    const x = place.left + (left + wide) * drawn.scale;
    if (x < 0 || place.left + left * drawn.scale > drawn.width) continue;
    path.moveTo(x, y);
    path.lineTo(x, tip);
  }
  const colour = weftBeside(part, edge, into);
  const thread = Math.min(0.55 * (cloth.clothWidth / cloth.ends.length) * drawn.scale, 0.2 * width);
  ctx.lineCap = 'round';
  ctx.strokeStyle = styleOf(toned(colour, isLight(colour) ? -0.45 : -0.6), 0.9);
  ctx.lineWidth = 1.5 * thread + 0.6;
  ctx.stroke(path);
  ctx.strokeStyle = styleOf(colour);
  ctx.lineWidth = thread;
  ctx.stroke(path);
}

/** Picks a stitch reaches into the cloth. Common practice. */
const STITCH_PICKS = 3;

function stitchDepth(cloth: ClothPlan, part: ClothPart, edge: Mm, into: number): Mm {
  const row = besideRow(part, edge, into);
  const { at } = part.rows;
  const pick = (at[row + 1] ?? 0) - (at[row] ?? 0);
  return Math.min(STITCH_PICKS * pick, 4 * (cloth.clothWidth / cloth.ends.length));
}

function weftBeside(part: ClothPart, edge: Mm, into: number): number {
  const row = besideRow(part, edge, into);
  return part.rows.sheds[row] === BARE ? 0xff808080 : (part.rows.colours[row] ?? 0);
}

/** The first pick of the cloth at an edge. */
function besideRow(part: ClothPart, edge: Mm, into: number): number {
  return rowAt(part, edge + into * 1e-6);
}
