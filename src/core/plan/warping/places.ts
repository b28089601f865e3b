/** Where the warp lies in the heddle or reed. */
import { endsPerMm, warpEnds } from '../geometry.ts';
import type { Plan } from '../plan.ts';
import type { Viewpoint, WarpingMethod, WarpStart } from './list.ts';

/** Sums of exact dents stray by less than this; it must not cost the weaver a dent. */
const DENT_TOLERANCE = 1e-6;

/** Dents per millimetre, in a rigid heddle slots and holes both. */
export const dentsPerMm = ({ loom }: Plan) => endsPerMm(loom) / loom.endsPerDent;

/**
 * The dent of end 1 so that the warp is centred, counted from 0 at the left as the plan's viewpoint
 * has it; below 0 where the warp is wider than the loom. In a rigid heddle slots and holes both are dents
 * and dent 0 is taken to be a slot; the nearest dent that is what end 1 wants is taken, ties to the left,
 * but not beyond the heddle's own edge, nor where a floating selvedge still needs a dent.
 */
export function firstDent(plan: Plan): number {
  const centred = (dentsOnLoom(plan) - dentsUsed(plan)) / 2;
  if (plan.loom.kind === 'shaft') return Math.floor(centred);
  const offset = plan.warp.firstEnd === 'hole' ? 1 : 0;
  const nearest = 2 * Math.ceil((centred - offset) / 2 - 0.5) + offset;
  const leftmost = plan.warp.floatingSelvedges !== undefined && centred >= 1 ? 1 : 0;
  return nearest < leftmost && centred >= 0 ? nearest + 2 : nearest;
}

/** Whole dents in the weaving width. */
export function dentsOnLoom(plan: Plan): number {
  return Math.floor(plan.loom.weavingWidth * dentsPerMm(plan) + DENT_TOLERANCE);
}

/** Dents the warp takes, the last one full or not; floating selvedges are not counted. */
export function dentsUsed(plan: Plan): number {
  return Math.ceil(warpEnds(plan) / plan.loom.endsPerDent);
}

/** How the list begins from its viewpoint: the first slot that takes a loop, or the first dent. */
export function startOf(
  plan: Plan,
  { method, viewpoint }: { readonly method: WarpingMethod; readonly viewpoint: Viewpoint },
  singleFirst: boolean,
): WarpStart {
  const of = dentsOnLoom(plan);
  const first = firstDent(plan);
  const last = first + dentsUsed(plan) - 1;
  const asPlanned = viewpoint === plan.warp.viewpoint;
  const free = (asPlanned ? first : of - 1 - last) / dentsPerMm(plan);
  if (plan.loom.kind === 'shaft') {
    return { kind: 'dent', index: asPlanned ? first : of - 1 - last, of, free };
  }
  const slots = Math.ceil(of / 2);
  const [from, to] = slotsTaken(plan, method, singleFirst, first, last);
  return { kind: 'slot', index: asPlanned ? from : slots - 1 - to, of: slots, free };
}

/**
 * Slots of the heddle that the warp takes, first and last. A hole's slot is the one its loop went
 * through: after a hole that comes first, unless a single end takes that hole.
 */
function slotsTaken(
  plan: Plan,
  method: WarpingMethod,
  singleFirst: boolean,
  first: number,
  last: number,
): readonly [number, number] {
  if (method === 'ends') return [Math.ceil(first / 2), Math.floor(last / 2)];
  const holeFirst = plan.warp.firstEnd === 'hole';
  const holesBefore = holeFirst !== singleFirst;
  const slotOf = (dent: number) =>
    dent % 2 === 0 ? dent / 2 : holesBefore ? (dent + 1) / 2 : (dent - 1) / 2;
  return [slotOf(first), slotOf(last)];
}
