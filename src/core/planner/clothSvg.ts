/**
 * The cloth as a drawing in SVG, thread by thread, sizes in millimetres: exact at any size, and with
 * the plan's own colours. Runs of one colour are one shape; the ends that are up in a shed are drawn
 * once and used again for every pick of that shed, so that the file grows with the picks alone.
 */
import type { Mm } from '../measure/length.ts';
import { fail, ok, type Result } from '../measure/result.ts';
import { type ClothPart, type ClothPlan, endWidth } from './clothPlan.ts';
import { BARE, type Band } from './clothRows.ts';
import { BARE_THREAD } from './clothSeen.ts';
import { endGroups, type FringeBand, fringeStrokes } from './fringe.ts';

/** Five million characters: more than this, programs that draw are slow to open. */
export const SVG_LIMIT = 5_000_000;

/** The file's text, or `too-large`: one piece alone may still fit, and a PNG always does. */
export function clothSvg(
  cloth: ClothPlan,
  title: string,
  limit = SVG_LIMIT,
): Result<string, 'too-large'> {
  const { width, height } = cloth;
  const size = `width="${short(width)}mm" height="${short(height)}mm"`;
  const lines = [
    `<svg xmlns="http://www.w3.org/2000/svg" ${size} viewBox="0 0 ${short(width)} ${short(height)}">`,
    `<title>${escaped(title)}</title>`,
    '<defs>',
    ...cloth.lifts.map((lift, shed) => `<g id="up${shed}">${endsUp(cloth, lift)}</g>`),
    '</defs>',
  ];
  let length = 0;
  for (const part of cloth.parts) {
    for (const line of partLines(cloth, part)) {
      length += line.length + 1;
      if (length > limit) return fail('too-large');
      lines.push(line);
    }
  }
  return ok([...lines, '</svg>', ''].join('\n'));
}

/** y counts from the beginning of the part upwards, as the cloth grows. */
function* partLines(cloth: ClothPlan, part: ClothPart): Generator<string> {
  const foot = part.top + part.length;
  yield `<g transform="matrix(1 0 0 -1 ${short(part.left)} ${short(foot)})">`;
  yield* weftLines(cloth, part);
  const { sheds, at, count } = part.rows;
  for (let row = 0; row < count; row++) {
    if (sheds[row] === BARE) continue;
    const from = at[row] ?? 0;
    const matrix = `1 0 0 ${short((at[row + 1] ?? 0) - from)} 0 ${short(from)}`;
    yield `<use href="#up${sheds[row]}" transform="matrix(${matrix})"/>`;
  }
  for (const band of part.bands) yield* bandLines(cloth, band);
  yield '</g>';
}

/** The ends up in one shed, one unit high; neighbours of one colour as one shape. */
function endsUp(cloth: ClothPlan, lift: Uint8Array): string {
  const step = endWidth(cloth);
  const shapes = new Map<number, string>();
  for (let end = 0; end < lift.length; end++) {
    if (lift[end] !== 1) continue;
    const colour = cloth.ends[end] ?? 0;
    const first = end;
    while (lift[end + 1] === 1 && cloth.ends[end + 1] === colour) end++;
    add(shapes, colour, rectangle(first * step, 0, (end + 1 - first) * step, 1));
  }
  return paths(shapes).join('');
}

/** Runs of picks of one colour over the whole width, and bare warp end by end. */
function weftLines(cloth: ClothPlan, part: ClothPart): readonly string[] {
  const { colours, sheds, at, count } = part.rows;
  const shapes = new Map<number, string>();
  for (let row = 0; row < count; row++) {
    const from = at[row] ?? 0;
    if (sheds[row] === BARE) {
      addBare(shapes, cloth, from, at[row + 1] ?? 0);
      continue;
    }
    const colour = colours[row] ?? 0;
    while (sheds[row + 1] !== BARE && colours[row + 1] === colour) row++;
    add(shapes, colour, rectangle(0, from, cloth.clothWidth, (at[row + 1] ?? 0) - from));
  }
  return paths(shapes);
}

function addBare(shapes: Map<number, string>, cloth: ClothPlan, from: Mm, to: Mm): void {
  const step = endWidth(cloth);
  for (const [end, colour] of cloth.ends.entries()) {
    const left = (end + (1 - BARE_THREAD) / 2) * step;
    add(shapes, colour, rectangle(left, from, BARE_THREAD * step, to - from));
  }
}

function bandLines(cloth: ClothPlan, band: Band): readonly string[] {
  const across = `M0 ${short(band.from)}h${short(cloth.clothWidth)}`;
  switch (band.kind) {
    case 'fringe':
      return cloth.state === 'washed' ? fringeLines(cloth, band) : [];
    case 'fold': {
      const into = band.end === 'beginning' ? band.depth : -band.depth;
      return [dashed(`M0 ${short(band.from + into)}h${short(cloth.clothWidth)}`, '1.5 1')];
    }
    case 'hem': {
      const fold = band.end === 'beginning' ? band.to : band.from;
      return [dashed(`M0 ${short(fold)}h${short(cloth.clothWidth)}`, '4 2')];
    }
    case 'cut':
      return [dashed(across, '8 4')];
    case 'body':
    case 'zigzag':
    case 'plain':
      return [];
  }
}

function fringeLines(cloth: ClothPlan, band: FringeBand): readonly string[] {
  const edge = band.end === 'beginning' ? band.to : band.from;
  const away = band.end === 'beginning' ? -1 : 1;
  const strokes = fringeStrokes(cloth, band, endGroups(cloth), 'threads');
  return strokes.map(({ colour, width, curve }) => {
    const points = curve.map((value, i) => short(i % 2 === 0 ? value : edge + away * value));
    const d = `M${points.slice(0, 2).join(' ')}C${points.slice(2).join(' ')}`;
    const look = `stroke="${hexOf(colour)}" stroke-width="${short(width)}" stroke-linecap="round"`;
    return `<path fill="none" ${look} d="${d}"/>`;
  });
}

function dashed(d: string, dashes: string): string {
  return `<path fill="none" stroke="#1d1712" stroke-width=".5" stroke-dasharray="${dashes}" d="${d}"/>`;
}

function add(shapes: Map<number, string>, colour: number, shape: string): void {
  shapes.set(colour, (shapes.get(colour) ?? '') + shape);
}

function paths(shapes: ReadonlyMap<number, string>): readonly string[] {
  return Array.from(shapes, ([colour, d]) => `<path fill="${hexOf(colour)}" d="${d}"/>`);
}

function rectangle(x: Mm, y: Mm, width: Mm, height: Mm): string {
  const across = short(width);
  return `M${short(x)} ${short(y)}h${across}v${short(height)}h-${across}z`;
}

/** `#rrggbb` of a pixel 0xAABBGGRR. */
function hexOf(pixel: number): string {
  const swapped = ((pixel & 0xff) << 16) | (pixel & 0xff00) | ((pixel >>> 16) & 0xff);
  return `#${swapped.toString(16).padStart(6, '0')}`;
}

/** To a hundredth of a thread: thousandths of a millimetre. */
function short(mm: number): string {
  return String(Math.round(mm * 1000) / 1000);
}

function escaped(text: string): string {
  return text.replace(/[&<>"]/g, (sign) => `&#${sign.charCodeAt(0)};`);
}
