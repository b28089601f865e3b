/** The blocks of one piece as they are woven: its weft between its hems, with what the weaver changed. */
import {
  type LaidBlock,
  layWeft,
  picksOf,
  turnOf,
  withLongerLastTurn,
  withPicks,
} from '../plan/blocks.ts';
import { picksForLength, spacingsIn, yarnIndex } from '../plan/blockTurns.ts';
import { hemOnLoom } from '../plan/geometry.ts';
import type { Edge, Plan } from '../plan/plan.ts';
import type { Adjustments, BlockPicks } from './adjustments.ts';
import { type FreeRecord, laidByEye } from './byEye/record.ts';

/** The blocks of one piece with its hems and seam allowances, before any adjustment. */
export function layPiece(plan: Plan, piece: number): readonly LaidBlock[] {
  const it = plan.pieces[piece];
  if (it === undefined) throw new Error(`layPiece: wanted a piece of the plan, got ${piece}`);
  const weft = layWeft(plan, piece);
  const first = weft[0];
  const last = weft[weft.length - 1];
  if (first === undefined || last === undefined) return [];
  return [
    ...layEdge(plan, it.beginning, `pieces[${piece}].beginning`, turnOf(first, 0).yarn),
    ...weft,
    ...layEdge(plan, it.ending, `pieces[${piece}].ending`, turnOf(last, last.turns - 1).yarn),
  ];
}

/** Picks a hem or seam allowance is laid with beside a neighbour of this yarn index; 0 for hemstitching. */
export function hemPicks(plan: Plan, edge: Edge, neighbour: number): number {
  return layEdge(plan, edge, '', neighbour).reduce((sum, laid) => sum + picksOf(laid), 0);
}

/** A hem is woven in its own yarn if it names one, else in its neighbour's. */
function layEdge(plan: Plan, edge: Edge, source: string, neighbour: number): readonly LaidBlock[] {
  const loomLength = hemOnLoom(plan, edge);
  if (edge.kind === 'hemstitch' || loomLength === 0) return [];
  const yarn = edge.yarn === undefined ? neighbour : yarnIndex(plan, edge.yarn);
  const spacings = spacingsIn(plan, undefined);
  const picks = picksForLength({ kind: 'length', loomLength }, spacings[yarn] ?? 0);
  return [
    {
      role: edge.kind,
      source,
      name: null,
      passes: [],
      mirrored: false,
      period: { yarns: [yarn], picks: [picks] },
      firstTurn: 0,
      turns: 1,
      lastTurnPicks: null,
      plannedLength: loomLength,
      spacings,
      block: null,
    },
  ];
}

/** The blocks of one piece as adjusted; the last word on a block counts. */
export function layAdjusted(
  plan: Plan,
  piece: number,
  adjustments: Adjustments,
): readonly LaidBlock[] {
  const set = adjustments.blocks.filter((it) => it.piece === piece);
  const records = adjustments.free.filter((it) => it.piece === piece);
  let yarn = 0;
  return layPiece(plan, piece).map((block, i) => {
    const laid = block.role === 'free' ? byEye(block, records, i, yarn) : changed(block, set, i);
    if (laid.turns > 0) yarn = turnOf(laid, laid.turns - 1).yarn;
    return laid;
  });
}

function byEye(
  block: LaidBlock,
  records: readonly FreeRecord[],
  i: number,
  yarnBefore: number,
): LaidBlock {
  const record = records.find((it) => it.block === i) ?? { runs: [], isEnded: false };
  return laidByEye(block, record, yarnBefore);
}

function changed(block: LaidBlock, set: readonly BlockPicks[], i: number): LaidBlock {
  const change = set.findLast((it) => it.block === i);
  return change === undefined ? block : adjusted(block, change);
}

function adjusted(block: LaidBlock, { picks, sameYarnFrom }: BlockPicks): LaidBlock {
  if (sameYarnFrom === undefined || picks <= sameYarnFrom) return withPicks(block, picks);
  return withLongerLastTurn(withPicks(block, sameYarnFrom), picks - sameYarnFrom);
}
