/**
 * Fits: the ways from a plan to a wished width or length, ranked by how little they change
 * (design §4). Each is a whole plan that can be taken as it stands.
 */
import { layPiece } from '../bench/layPiece.ts';
import { reedWidthFor, washedWidth } from '../measure/clothState.ts';
import type { Mm } from '../measure/length.ts';
import type { Runs } from '../measure/runs.ts';
import { totalOf } from '../measure/runs.ts';
import { layWeft, turnOf } from '../plan/blocks.ts';
import { checkPlan } from '../plan/checkPlan.ts';
import { endsPerMm, sharesOf, warpRuns } from '../plan/geometry.ts';
import { pieceLengths } from '../plan/pieceLengths.ts';
import type { Block, Plan, Stripe, Wish } from '../plan/plan.ts';
import type { LeverKind, Node } from './fit/levers.ts';
import { laidLength, valueAt, warpLevers, weftLevers } from './fit/levers.ts';
import type { Aim, Trial, Way } from './fit/search.ts';
import { trialsOf } from './fit/search.ts';

export interface Fit {
  readonly way: Way;
  /** What changes, field by field; in a pair and in proportion several. */
  readonly changes: readonly FitChange[];
  /** The plan with these changes; it passes `checkPlan`. */
  readonly plan: Plan;
  /** The size it comes to, in the state of cloth that was wished for. */
  readonly reached: Mm;
  /** `reached` − wished; at most half a `step` either way. */
  readonly miss: Mm;
  /** The distance between the two sizes next to the wish that this way can reach. */
  readonly step: Mm;
  /** Sum of the relative changes: a mirrored pair counts once. */
  readonly cost: number;
  /** Whether the stripes then read the same from both ends. */
  readonly mirrored: boolean;
}

export interface FitChange {
  /** Ends, turns, picks, times, or a loom length in mm. */
  readonly kind: LeverKind;
  /** Path of the stripe or block in the plan, such as `warp.order[2].of[0]`. */
  readonly path: string;
  readonly from: number;
  readonly to: number;
}

/**
 * Ways to a washed width: repeats more or fewer, one stripe or a mirrored pair wider or narrower, all
 * in proportion. Mirrored ones first, then the least change. Empty when the plan is as near as it
 * can be, or nothing gets there (also where the loom is too narrow).
 */
export function fitWidth(plan: Plan, wished: Mm): readonly Fit[] {
  const shares = sharesOf(plan);
  const perMm = endsPerMm(plan.loom);
  const aim: Aim<Stripe> = {
    order: plan.warp.order,
    levers: warpLevers(plan.warp.order),
    sizeOf: (order) => totalOf(warpRuns(order)),
    runsOf: warpRuns,
    target: reedWidthFor(wished, shares) * perMm,
  };
  return ranked(aim, {
    wished,
    planOf: (order) => ({ ...plan, warp: { ...plan.warp, order } }),
    reachedAt: (ends) => washedWidth(ends / perMm, shares),
  });
}

/**
 * Ways to a wished length of one piece, in the wish's own state of cloth; hems stay as they are.
 * Solids keep the parity of their picks, alternations grow by whole periods and so close as before.
 * In proportion the blocks planned by length are stretched, or all blocks where none is.
 */
export function fitLength(plan: Plan, piece: number, wish: Wish): readonly Fit[] {
  const it = plan.pieces[piece];
  if (it === undefined) throw new Error(`fitLength: wanted a piece of the plan, got ${piece}`);
  const planOf = (weft: readonly Block[]): Plan => ({
    ...plan,
    pieces: plan.pieces.map((other, i) => (i === piece ? { ...it, weft } : other)),
  });
  const reachedAt = (loom: Mm) => pieceLengths(plan, it, loom)[wish.state];
  // Every state is a straight line over the loom length, so two points give the way back.
  const nought = reachedAt(0);
  const aim: Aim<Block> = {
    order: it.weft,
    levers: weftLevers(plan, piece),
    sizeOf: (weft) => loomLengthOf(planOf(weft), piece),
    runsOf: (weft) => weftRuns(planOf(weft), piece),
    target: (wish.length - nought) / (reachedAt(1) - nought),
  };
  return ranked(aim, { wished: wish.length, planOf, reachedAt });
}

function loomLengthOf(plan: Plan, piece: number): Mm {
  return layPiece(plan, piece).reduce((sum, laid) => sum + laidLength(laid), 0);
}

/** Turns of the weft without hems, equal neighbours not yet merged. */
function weftRuns(plan: Plan, piece: number): Runs<number> {
  return layWeft(plan, piece).flatMap((laid) =>
    Array.from({ length: laid.turns }, (_, k) => {
      const { yarn, picks } = turnOf(laid, k);
      return { of: yarn, count: picks };
    }),
  );
}

/** More would be a list to read, not a choice. */
const MOST_FITS = 8;

interface Outcome<N extends Node> {
  readonly wished: Mm;
  readonly planOf: (order: readonly N[]) => Plan;
  /** The size wished about, from a size as the aim measures it; a straight line. */
  readonly reachedAt: (size: number) => Mm;
}

function ranked<N extends Node>(aim: Aim<N>, outcome: Outcome<N>): readonly Fit[] {
  const trials = [...trialsOf(aim)].sort(byRank);
  const fits: Fit[] = [];
  const seen = new Set<string>();
  for (const trial of trials) {
    if (fits.length === MOST_FITS) break;
    if (seen.has(trial.seen)) continue;
    seen.add(trial.seen);
    const fit = fitOf(trial, outcome);
    if (checkPlan(fit.plan).ok) fits.push(fit);
  }
  return fits;
}

/** Costs are sums of fractions and stray by less than this. */
const COST_TOLERANCE = 1e-9;

/** Mirrored ones first, then what changes least; of two that cost the same the one with less to do. */
function byRank<N extends Node>(one: Trial<N>, other: Trial<N>): number {
  if (one.mirrored !== other.mirrored) return one.mirrored ? -1 : 1;
  const dearer = one.cost - other.cost;
  return Math.abs(dearer) > COST_TOLERANCE ? dearer : one.shifts.length - other.shifts.length;
}

function fitOf<N extends Node>(trial: Trial<N>, { wished, planOf, reachedAt }: Outcome<N>): Fit {
  const reached = reachedAt(trial.size);
  return {
    way: trial.way,
    changes: trial.shifts.map(({ lever, steps }) => ({
      kind: lever.kind,
      path: lever.path,
      from: lever.from,
      to: valueAt(lever, steps),
    })),
    plan: planOf(trial.order),
    reached,
    miss: reached - wished,
    step: reachedAt(trial.size + trial.step) - reached,
    cost: trial.cost,
    mirrored: trial.mirrored,
  };
}
