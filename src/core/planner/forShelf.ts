/** A plan to begin with, made for what lies on the shelf. */
import type { Grams } from '../measure/mass.ts';
import { endsPerMm, reedWidth } from '../plan/geometry.ts';
import type { Plan, Yarn } from '../plan/plan.ts';
import { asPlanYarn, dentPitch, type ShelfHeddle, type ShelfYarn } from '../plan/shelf.ts';

/** A yarn of the shelf and how many grams are left of it; null: not weighed. */
export interface OnShelf {
  readonly yarn: ShelfYarn;
  readonly left: Grams | null;
}

/** Of more yarns than there are letters here the weaver chooses for herself; ours. */
const LETTERS = ['A', 'B', 'C', 'D'] as const;

/**
 * The plan `newPlan` makes, in the heddle of the shelf and in its yarns: the only heddle there is,
 * and the yarns where they are few, the one with the most left first, for that one becomes the cloth.
 * Ends are as many as the width wished for asks, and no more than the heddle takes; picks lie as
 * far apart beside the ends as before.
 */
export function planForShelf(
  plan: Plan,
  heddles: readonly ShelfHeddle[],
  yarns: readonly OnShelf[],
): Plan {
  const [heddle, ...others] = heddles;
  const placed = heddle === undefined || others.length > 0 ? plan : inHeddle(plan, heddle);
  return yarns.length === 0 || yarns.length > LETTERS.length
    ? placed
    : { ...placed, yarns: lettered(yarns) };
}

/** The plan with what is on hand now of the yarns it has from the shelf; what is not weighed stays as it was. */
export function withOnHand(plan: Plan, shelf: readonly OnShelf[]): Plan {
  const left = new Map(shelf.map((it) => [it.yarn.id, it.left]));
  const yarns = plan.yarns.map((yarn) => {
    const onHand = left.get(yarn.shelf ?? '') ?? null;
    return onHand === null ? yarn : { ...yarn, onHand };
  });
  return { ...plan, yarns };
}

function inHeddle(plan: Plan, { dents, width }: ShelfHeddle): Plan {
  const loom = { ...plan.loom, dents, weavingWidth: width };
  const ends = Math.min(reedWidth(plan), width) * endsPerMm(loom);
  // Rounded down to whole loops of two: half a loop more may not find a slot. A hair is no end.
  const even = Math.max(2, 2 * Math.floor(ends / 2 + 1e-6));
  const order = [{ kind: 'solid', yarn: 'A', ends: even }] as const;
  const pickSpacing = (plan.weaving.pickSpacing * dentPitch(dents)) / dentPitch(plan.loom.dents);
  return {
    ...plan,
    loom,
    warp: { ...plan.warp, order },
    weaving: { ...plan.weaving, pickSpacing },
  };
}

function lettered(yarns: readonly OnShelf[]): readonly Yarn[] {
  const most = [...yarns].sort((a, b) => (b.left ?? -1) - (a.left ?? -1));
  return most.map(({ yarn, left }, n) => asPlanYarn(yarn, LETTERS[n] ?? 'A', left));
}
