/**
 * Lays the picks of a course into the rows and bands of the picture: on the loom all pieces with the
 * warp left bare between them, washed each piece by itself.
 */
import type { Course, CourseBlock, CoursePiece } from '../bench/course.ts';
import { shedsOf } from '../bench/stripes.ts';
import { washedLength } from '../measure/clothState.ts';
import type { Mm } from '../measure/length.ts';
import { pixelOf } from '../plan/clothPicture.ts';
import { fringeOnLoom, sharesOf } from '../plan/geometry.ts';
import type { Edge } from '../plan/plan.ts';

/** A hem is turned twice, so that its raw edge lies inside: half of it shows as its depth. */
const HEM_TURNS = 2;

/** One entry a pick, in the order thrown, and one for every stretch of warp left bare on the loom. */
export interface ClothRows {
  readonly count: number;
  readonly colours: Uint32Array;
  /** Index into `lifts`, or `BARE`. */
  readonly sheds: Uint8Array;
  /** Where each begins in its part; one entry more, the end of the last. */
  readonly at: Float64Array;
}

/** The shed of a row in which no pick lies. */
export const BARE = 255;

export type End = 'beginning' | 'ending';

/** A stretch of a part; `fold` has no length: the hem lies behind the cloth, `depth` of it. */
export type Band = { readonly piece: number; readonly from: Mm; readonly to: Mm } & (
  | { readonly kind: 'body'; readonly firstRow: number; readonly rows: number }
  | { readonly kind: 'hem' | 'zigzag' | 'plain'; readonly end: End }
  | { readonly kind: 'fold'; readonly end: End; readonly depth: Mm }
  | { readonly kind: 'fringe'; readonly end: End; readonly twisted: boolean }
  | { readonly kind: 'cut' }
);

/** Rows and bands of one part; lengths count from its beginning. */
export interface LaidPart {
  readonly rows: ClothRows;
  readonly bands: readonly Band[];
  readonly length: Mm;
}

/** Everything of one part, as it is filled. `at` is the length so far. */
interface Filling {
  readonly course: Course;
  readonly colours: readonly number[];
  /** Length shown for a millimetre woven under tension. */
  readonly perLoom: number;
  readonly rows: { colours: Uint32Array; sheds: Uint8Array; at: Float64Array };
  readonly bands: Band[];
  count: number;
  at: Mm;
}

/** As woven: fringes and cuts are warp left bare. */
export function layOnLoom(course: Course, pieces: readonly CoursePiece[]): LaidPart {
  const { plan } = course;
  const fill = startFilling(course, pieces, 1);
  for (const [i, piece] of pieces.entries()) {
    const edges = plan.pieces[piece.index];
    if (edges === undefined) continue;
    addBareFringe(fill, piece.index, 'beginning', edges.beginning);
    addBlocks(fill, piece, true);
    addBareFringe(fill, piece.index, 'ending', edges.ending);
    if (i === pieces.length - 1) break;
    const from = fill.at;
    addBare(fill, plan.weaving.cuttingAllowance);
    fill.bands.push({ kind: 'cut', piece: piece.index, from, to: fill.at });
  }
  return finished(fill);
}

/** Cut apart and washed: the fringe has its finished length, and a hem is turned to the back. */
export function layWashed(course: Course, piece: CoursePiece): LaidPart {
  const { plan } = course;
  const edges = plan.pieces[piece.index];
  if (edges === undefined) throw new Error(`got piece ${piece.index}, wanted one of the plan`);
  const fill = startFilling(course, [piece], washedLength(1, sharesOf(plan)));
  addFinishedEdge(fill, piece.index, 'beginning', edges.beginning);
  addBlocks(fill, piece, false);
  addFinishedEdge(fill, piece.index, 'ending', edges.ending);
  return finished(fill);
}

function startFilling(course: Course, pieces: readonly CoursePiece[], perLoom: number): Filling {
  // Two fringes and a cut a piece at most.
  const most = pieces.reduce((sum, piece) => sum + piece.picks + 3, 0);
  return {
    course,
    colours: course.plan.yarns.map((yarn) => pixelOf(yarn.colour)),
    perLoom,
    rows: {
      colours: new Uint32Array(most),
      sheds: new Uint8Array(most),
      at: new Float64Array(most + 1),
    },
    bands: [],
    count: 0,
    at: 0,
  };
}

function finished({ rows, count, bands, at }: Filling): LaidPart {
  const colours = rows.colours.subarray(0, count);
  const sheds = rows.sheds.subarray(0, count);
  const places = rows.at.subarray(0, count + 1);
  return { rows: { count, colours, sheds, at: places }, bands, length: at };
}

function addBareFringe(fill: Filling, piece: number, end: End, edge: Edge): void {
  if (edge.kind !== 'hemstitch') return;
  const from = fill.at;
  addBare(fill, fringeOnLoom(fill.course.plan, edge));
  fill.bands.push({ kind: 'fringe', piece, end, twisted: false, from, to: fill.at });
}

function addFinishedEdge(fill: Filling, piece: number, end: End, edge: Edge): void {
  const from = fill.at;
  if (edge.kind === 'hemstitch') {
    fill.at += edge.fringe;
    fill.bands.push({ kind: 'fringe', piece, end, twisted: edge.twisted, from, to: fill.at });
  } else if (edge.kind === 'hem' && edge.washedAllowance > 0) {
    const depth = edge.washedAllowance / HEM_TURNS;
    fill.bands.push({ kind: 'fold', piece, end, depth, from, to: from });
  }
}

function addBare(fill: Filling, length: Mm): void {
  if (length <= 0) return;
  fill.rows.colours[fill.count] = 0;
  fill.rows.sheds[fill.count] = BARE;
  fill.rows.at[fill.count++] = fill.at;
  fill.at += length;
  fill.rows.at[fill.count] = fill.at;
}

/** The picks of a piece; a hem that is turned under is left out, sheds run on over it. */
function addBlocks(fill: Filling, piece: CoursePiece, withHems: boolean): void {
  const first = piece.firstBlock;
  const blocks = fill.course.blocks.slice(first, first + piece.blocks);
  const shown = blocks.filter(({ laid }) => withHems || laid.role !== 'hem');
  addEdges(fill, piece, shown, 'beginning');
  const [from, firstRow] = [fill.at, fill.count];
  for (const block of shown) if (edgeRole(block) === null) addPicks(fill, piece, block);
  const rows = fill.count - firstRow;
  fill.bands.push({ kind: 'body', piece: piece.index, from, to: fill.at, firstRow, rows });
  addEdges(fill, piece, shown, 'ending');
}

function addEdges(
  fill: Filling,
  piece: CoursePiece,
  blocks: readonly CourseBlock[],
  end: End,
): void {
  for (const block of blocks) {
    const kind = edgeRole(block);
    if (kind === null || (block.ofPiece === 0) !== (end === 'beginning')) continue;
    const from = fill.at;
    addPicks(fill, piece, block);
    fill.bands.push({ kind, piece: piece.index, end, from, to: fill.at });
  }
}

function edgeRole({ laid: { role } }: CourseBlock): 'hem' | 'zigzag' | 'plain' | null {
  return role === 'solid' || role === 'alternation' || role === 'free' ? null : role;
}

function addPicks(fill: Filling, piece: CoursePiece, block: CourseBlock): void {
  const { rows, course, colours, perLoom } = fill;
  const { turns } = course;
  const shedOf = shedsOf(piece, course.adjustments);
  for (let turn = block.firstTurn; turn < block.firstTurn + block.turns; turn++) {
    const colour = colours[turns.yarn[turn] ?? 0] ?? 0;
    const step = (turns.spacing[turn] ?? 0) * perLoom;
    const end = turns.firstPick[turn + 1] ?? 0;
    for (let pick = turns.firstPick[turn] ?? 0; pick < end; pick++) {
      rows.colours[fill.count] = colour;
      rows.sheds[fill.count] = shedOf(pick);
      rows.at[fill.count++] = fill.at;
      fill.at += step;
    }
  }
  rows.at[fill.count] = fill.at;
}
