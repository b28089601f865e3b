/** Widths, hems, fringes and gaps of a plan: how wishes about the finished cloth become loom lengths. */
import { loomLengthFor, type Allowances as Shares } from '../measure/clothState.ts';
import type { Mm } from '../measure/length.ts';
import { MM_PER_INCH } from '../measure/length.ts';
import { mirrorRuns, type Run, repeatRuns, totalOf } from '../measure/runs.ts';
import type { Edge, Letter, Loom, Plan, Stripe } from './plan.ts';
import { remembering } from './remembering.ts';

/** Ends per millimetre in the reed. In a rigid heddle slots and holes both count as dents. */
export function endsPerMm(loom: Loom): number {
  const dents = loom.dents.made ?? loom.dents.count;
  return (dents * loom.endsPerDent) / (loom.dents.per === 'inch' ? MM_PER_INCH : 100);
}

/** The warp order as runs of ends, neighbours of one yarn not yet merged. */
export function warpRuns(order: readonly Stripe[]): readonly Run<Letter>[] {
  return order.flatMap(stripeRuns);
}

function stripeRuns(stripe: Stripe): readonly Run<Letter>[] {
  switch (stripe.kind) {
    case 'solid':
      return [{ of: stripe.yarn, count: stripe.ends }];
    case 'alternation': {
      const cycle = stripe.cycle.map((turn) => ({ of: turn.yarn, count: turn.ends }));
      return Array.from({ length: stripe.turns }, (_, k) => cycle[k % cycle.length]).filter(
        (run) => run !== undefined,
      );
    }
    case 'repeat':
      return repeatRuns(warpRuns(stripe.of), stripe.times);
    case 'mirror':
      return mirrorRuns(warpRuns(stripe.of), stripe.centre);
  }
}

/** Ends between the selvedges, floating selvedges counted apart. */
export function warpEnds({ warp }: Pick<Plan, 'warp'>): number {
  return endsOf(warp.order);
}

const endsOf = remembering((order: readonly Stripe[]) => totalOf(warpRuns(order)));

/** Width of the warp in the reed, floating selvedges not counted. */
export function reedWidth(plan: Plan): Mm {
  return warpEnds(plan) / endsPerMm(plan.loom);
}

/** The shares of a plan as plain numbers. */
export function sharesOf(plan: Pick<Plan, 'allowances'>): Shares {
  const a = plan.allowances;
  return {
    drawIn: a.drawIn.share,
    relax: a.relax.share,
    shrinkWidth: a.shrinkWidth.share,
    shrinkLength: a.shrinkLength.share,
    warpTaken: a.warpTaken.share,
    weftExtra: a.weftExtra.share,
  };
}

/** Warp to leave unwoven for a finished fringe: what washing and twisting will take is added back. */
export function fringeOnLoom(plan: Plan, edge: Edge): Mm {
  if (edge.kind !== 'hemstitch') return 0;
  const twist = edge.twisted ? plan.allowances.twist.share : 0;
  return loomLengthFor(edge.fringe / (1 - twist), sharesOf(plan));
}

/** Loom length woven for a hem or seam allowance beside the finished size. */
export function hemOnLoom(plan: Plan, edge: Edge): Mm {
  return edge.kind === 'hemstitch' ? 0 : loomLengthFor(edge.washedAllowance, sharesOf(plan));
}

/** Washed cloth at an edge that the finished size does not count. */
export function turnedUnder(edge: Edge): Mm {
  return edge.kind === 'hemstitch' ? 0 : edge.washedAllowance;
}

/** Warp left unwoven after piece `piece`: both fringes and what the scissors need; 0 after the last. */
export function gapAfter(plan: Plan, piece: number): Mm {
  const here = plan.pieces[piece];
  const next = plan.pieces[piece + 1];
  if (here === undefined || next === undefined) return 0;
  return gapBetween(plan, here.ending, next.beginning);
}

/** Warp left unwoven between a piece that ends and one that begins so. */
export function gapBetween(plan: Plan, ending: Edge, beginning: Edge): Mm {
  const fringes = fringeOnLoom(plan, ending) + fringeOnLoom(plan, beginning);
  return fringes + plan.weaving.cuttingAllowance;
}

/** Tail left for hemstitching: a multiple of the reed width. */
export function stitchTail(plan: Plan): Mm {
  return plan.weaving.tailWidths * reedWidth(plan);
}
