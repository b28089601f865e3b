/** Hems and seam allowances as they were really woven, said as edges of a plan. */
import { washedLength } from '../../../measure/clothState.ts';
import { type LaidBlock, picksOf } from '../../../plan/blocks.ts';
import { picksForLength } from '../../../plan/blockTurns.ts';
import { hemOnLoom, sharesOf } from '../../../plan/geometry.ts';
import type { Block, Edge, Plan } from '../../../plan/plan.ts';
import { letterOf } from './asBlocks.ts';

export interface EdgeAsWoven {
  readonly edge: Edge;
  /** What an allowance cannot say, for it is always an even number of picks: one pick of weft. */
  readonly spare: readonly Block[];
}

/** The edge that is laid as this hem is, beside a neighbour of this yarn index. */
export function edgeAsWoven(
  plan: Plan,
  edge: Edge,
  hem: LaidBlock | null,
  neighbour: number,
): EdgeAsWoven {
  if (edge.kind === 'hemstitch' || hem === null) return { edge, spare: [] };
  const yarn = hem.period.yarns[0] ?? 0;
  const letter = letterOf(plan, yarn);
  const named = edge.yarn !== undefined || yarn === neighbour ? edge : { ...edge, yarn: letter };
  const picks = picksOf(hem);
  const spacing = hem.spacings[yarn] ?? 0;
  if (picks === laidPicks(plan, edge, spacing)) return { edge: named, spare: [] };
  const even = picks - (picks % 2);
  const washedAllowance = washedLength(even * spacing, sharesOf(plan));
  return { edge: { ...named, washedAllowance }, spare: spareOf(letter, picks - even) };
}

function laidPicks(plan: Plan, edge: Edge, spacing: number): number {
  const loomLength = hemOnLoom(plan, edge);
  return loomLength === 0 ? 0 : picksForLength({ kind: 'length', loomLength }, spacing);
}

function spareOf(yarn: string, picks: number): readonly Block[] {
  return picks === 0 ? [] : [{ kind: 'solid', yarn, extent: { kind: 'picks', picks } }];
}
