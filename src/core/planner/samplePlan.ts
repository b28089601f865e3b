/** A sample first: the same yarns, sett and loom, small, to be washed and measured before the plan is woven. */
import { lettersOf } from '../learn/clothKind.ts';
import { MM_PER_INCH, type Mm, type Units } from '../measure/length.ts';
import { endsPerMm, warpEnds, warpRuns } from '../plan/geometry.ts';
import { LIMITS } from '../plan/limits.ts';
import type { Block, Piece, Plan, Stripe } from '../plan/plan.ts';

/** Wide and long enough to be measured to a part in a hundred (common practice, no source). */
const SAMPLE: Record<Units, { readonly width: Mm; readonly length: Mm }> = {
  inch: { width: 6 * MM_PER_INCH, length: 8 * MM_PER_INCH },
  metric: { width: 150, length: 200 },
};

/**
 * The plan cut down to one small piece of the same cloth: every yarn of its warp in its share of the
 * width, every yarn of its weft for a stretch. What it teaches holds for the plan (`likenessOf`).
 */
export function samplePlan(plan: Plan): Plan {
  const { warp, weft } = lettersOf(plan);
  const order = sampleOrder(plan, warp);
  const { length } = SAMPLE[plan.units];
  const blocks = weft.map(
    (yarn): Block => ({
      kind: 'solid',
      yarn,
      extent: { kind: 'length', loomLength: length / weft.length },
    }),
  );
  const edge = { kind: 'plain', washedAllowance: 0 } as const;
  const piece: Piece = {
    name: 'Sample',
    startShed: plan.pieces[0]?.startShed ?? 'up',
    beginning: edge,
    ending: edge,
    weft: blocks,
  };
  const name = `${plan.name.slice(0, LIMITS.name - 10)}, sample`;
  return { ...plan, name, warp: { ...plan.warp, order }, pieces: [piece] };
}

/** Even numbers of ends, because direct warping lays them by loops of two; never more than the plan's. */
function sampleOrder(plan: Plan, letters: readonly string[]): readonly Stripe[] {
  const all = warpEnds(plan);
  const wanted = Math.min(all, SAMPLE[plan.units].width * endsPerMm(plan.loom));
  const runs = warpRuns(plan.warp.order);
  return letters.map((yarn) => {
    const own = runs.reduce((sum, run) => sum + (run.of === yarn ? run.count : 0), 0);
    const share = Math.max(2, 2 * Math.round((own * wanted) / all / 2));
    return { kind: 'solid', yarn, ends: Math.min(own, share) };
  });
}
