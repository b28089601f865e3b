/**
 * The fewest blocks between two cuts, for all pairs a group needs: from each cut backwards, a row of
 * costs over the cuts after it. Rows are only as long as some group reaches.
 */
import { type Edge, edgesOf, type Ground, innerOf } from './edges.ts';

export interface Search {
  readonly edges: readonly (readonly Edge[])[];
  /** Cost from each cut to the cuts after it, itself first. */
  readonly rows: readonly Float64Array[];
  /** Cost from each cut to the end. */
  readonly toEnd: Float64Array;
}

/** The least costs between cuts of a ground, from which `wayBetween` reads the blocks. */
export function searchOver(ground: Ground): Search {
  const count = ground.cuts.length;
  const edges = edgesOf(ground);
  const needs = needsOf(edges);
  const rows: Float64Array[] = [];
  const toEnd = new Float64Array(count).fill(Number.POSITIVE_INFINITY);
  toEnd[count - 1] = 0;
  for (let index = count - 1; index >= 0; index--) {
    const row = new Float64Array((needs[index] ?? index) - index + 1).fill(
      Number.POSITIVE_INFINITY,
    );
    row[0] = 0;
    rows[index] = row;
    for (const edge of edges[index] ?? []) {
      const cost = edge.cost + innerCost(row, index, edge);
      lower(row, rows[edge.to], edge.to - index, cost);
      toEnd[index] = Math.min(toEnd[index] ?? 0, cost + (toEnd[edge.to] ?? 0));
    }
  }
  return { edges, rows, toEnd };
}

/** The last cut whose cost from here some group asks for. */
function needsOf(edges: readonly (readonly Edge[])[]): Int32Array {
  const needs = new Int32Array(edges.length);
  let need = 0;
  for (const [index, from] of edges.entries()) {
    for (const edge of from) need = Math.max(need, innerOf(edge));
    needs[index] = Math.max(need, index);
  }
  return needs;
}

/**
 * Cost of what a group holds, by the row of the cut at `index` where it begins; 0 for a block that holds no
 * others.
 */
export function innerCost(row: Float64Array, index: number, edge: Edge): number {
  const inner = innerOf(edge);
  // Groups come in the order of what they hold, so this entry is settled.
  return inner < 0 ? 0 : (row[inner - index] ?? 0);
}

function lower(row: Float64Array, after: Float64Array | undefined, by: number, cost: number): void {
  if (after === undefined) return;
  const most = Math.min(row.length - by, after.length);
  for (let i = 0; i < most; i++) {
    const through = cost + (after[i] ?? 0);
    if (through < (row[i + by] ?? 0)) row[i + by] = through;
  }
}

/** The edges of a cheapest way from one cut to another, or to the end where that is farther than rows reach. */
export function wayBetween(search: Search, from: number, to: number | null): readonly Edge[] {
  const way: Edge[] = [];
  const end = to ?? search.toEnd.length - 1;
  for (let at = from; at < end; ) {
    const edge = (search.edges[at] ?? []).find((it) => isOnWay(search, at, it, to));
    if (edge === undefined) throw new Error(`wayBetween: no way from cut ${at} to cut ${end}`);
    way.push(edge);
    at = edge.to;
  }
  return way;
}

function isOnWay({ rows, toEnd }: Search, at: number, edge: Edge, to: number | null): boolean {
  const row = rows[at] ?? new Float64Array();
  const cost = edge.cost + innerCost(row, at, edge);
  if (to === null) return cost + (toEnd[edge.to] ?? 0) === toEnd[at];
  return edge.to <= to && cost + (rows[edge.to]?.[to - edge.to] ?? 0) === row[to - at];
}
