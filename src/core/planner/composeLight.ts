/** Two edges of a picture made into its pixels: for every pixel the sum of what both say of it. */
import { BYTE_OF_LIGHT } from '../measure/linearLight.ts';
import { type Axis, backToRgb, type Channels, termAt } from './pixelShares.ts';

/** What a part of the cloth is along the two edges of the picture, and what lies behind it. */
export interface SeenPart {
  readonly ground: Channels;
  /** Whether channels are light and colour, not red, green and blue. */
  readonly split: boolean;
  readonly columns: Axis;
  readonly rows: Axis;
}

/** Writes the part into a picture so many pixels wide. */
export function paintPart(seen: SeenPart, width: number, out: Uint32Array): void {
  const { columns, rows, split } = seen;
  const row = new Float64Array(columns.pixels * 3);
  let from = -1;
  for (let y = 0; y < rows.pixels; y++) {
    const start = (rows.first + y) * width + columns.first;
    if (from >= 0 && isSameRow(rows, y)) out.copyWithin(start, from, from + columns.pixels);
    else if (!split && columns.terms.length === TWO_SHEDS && isWoven(rows, y)) {
      encodeTwo(seen, y, out, start);
    } else {
      lightOfRow(seen, y, row);
      encode(row, out, start);
    }
    from = start;
  }
}

/** Red, green and blue of a row of pixels, in steps of light. */
export function lightOfRow(
  { ground, split, columns, rows }: SeenPart,
  y: number,
  out: Float64Array,
): void {
  fillRow(out, ground);
  // Two by two: ends up and ends down of one shed are there, or not there, together.
  for (let k = 0; k < columns.terms.length; k += 2) {
    const one = valueAt(rows, k, y);
    const other = valueAt(rows, k + 1, y);
    if (isNought(one) && isNought(other)) continue;
    addTerms(out, termAt(columns, k), one, termAt(columns, k + 1), other);
  }
  if (split) backToRgb(out);
}

function isSameRow({ terms }: Axis, y: number): boolean {
  const at = 3 * y;
  return terms.every(
    (term) =>
      term[at] === term[at - 3] && term[at + 1] === term[at - 2] && term[at + 2] === term[at - 1],
  );
}

function valueAt(axis: Axis, term: number, y: number): Channels {
  const line = termAt(axis, term);
  return [line[3 * y] ?? 0, line[3 * y + 1] ?? 0, line[3 * y + 2] ?? 0];
}

function isNought([a, b, c]: Channels): boolean {
  return a === 0 && b === 0 && c === 0;
}

function fillRow(out: Float64Array, [a, b, c]: Channels): void {
  for (let at = 0; at < out.length; at += 3) {
    out[at] = a;
    out[at + 1] = b;
    out[at + 2] = c;
  }
}

function addTerms(
  out: Float64Array,
  one: Float64Array,
  [a, b, c]: Channels,
  other: Float64Array,
  [d, e, f]: Channels,
): void {
  for (let at = 0; at < out.length; at += 3) {
    out[at] = (out[at] ?? 0) + a * (one[at] ?? 0) + d * (other[at] ?? 0);
    out[at + 1] = (out[at + 1] ?? 0) + b * (one[at + 1] ?? 0) + e * (other[at + 1] ?? 0);
    out[at + 2] = (out[at + 2] ?? 0) + c * (one[at + 2] ?? 0) + f * (other[at + 2] ?? 0);
  }
}

function encode(row: Float64Array, out: Uint32Array, start: number): void {
  for (let at = 0, to = start; at < row.length; at += 3, to++) {
    out[to] = pixelOfSteps(row[at] ?? 0, row[at + 1] ?? 0, row[at + 2] ?? 0);
  }
}

function pixelOfSteps(red: number, green: number, blue: number): number {
  const r = BYTE_OF_LIGHT[(red + 0.5) | 0] ?? 0;
  const g = BYTE_OF_LIGHT[(green + 0.5) | 0] ?? 0;
  const b = BYTE_OF_LIGHT[(blue + 0.5) | 0] ?? 0;
  return 0xff000000 | (b << 16) | (g << 8) | r;
}

/** Terms of plain weave: two sheds, and what lies bare. */
const TWO_SHEDS = 6;

function isWoven(rows: Axis, y: number): boolean {
  return termAt(rows, TWO_SHEDS - 2)[3 * y] === 0;
}

/**
 * The same as `lightOfRow` and `encode` for plain weave in red, green and blue, in one go: nearly all
 * pictures are that, and it takes a third of the time. Ends down have one share for all channels.
 */
function encodeTwo(
  { ground: [red, green, blue], columns, rows }: SeenPart,
  y: number,
  out: Uint32Array,
  start: number,
): void {
  const [up0, down0] = [termAt(columns, 0), termAt(columns, 1)];
  const [up1, down1] = [termAt(columns, 2), termAt(columns, 3)];
  const [share0] = valueAt(rows, 0, y);
  const [r0, g0, b0] = valueAt(rows, 1, y);
  const [share1] = valueAt(rows, 2, y);
  const [r1, g1, b1] = valueAt(rows, 3, y);
  const { pixels } = columns;
  for (let pixel = 0, at = 0; pixel < pixels; pixel++, at += 3) {
    const d0 = down0[at] ?? 0;
    const d1 = down1[at] ?? 0;
    const r = red + share0 * (up0[at] ?? 0) + r0 * d0 + share1 * (up1[at] ?? 0) + r1 * d1;
    const g = green + share0 * (up0[at + 1] ?? 0) + g0 * d0 + share1 * (up1[at + 1] ?? 0) + g1 * d1;
    const b = blue + share0 * (up0[at + 2] ?? 0) + b0 * d0 + share1 * (up1[at + 2] ?? 0) + b1 * d1;
    out[start + pixel] = pixelOfSteps(r, g, b);
  }
}
