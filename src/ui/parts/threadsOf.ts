/** A plan's threads as the cloth picture wants them: pixels of every end and yarn, and the lifts. */
import { expandRuns } from '../../core/measure/runs.ts';
import { pixelOf, plainLifts, shedLiftingFirstEnd } from '../../core/plan/clothPicture.ts';
import { warpRuns } from '../../core/plan/geometry.ts';
import type { Plan } from '../../core/plan/plan.ts';

export interface Threads {
  /** Colour of every end, from the left as the weaver sits in front. */
  readonly ends: Uint32Array;
  /** Colour by yarn index. */
  readonly colours: readonly number[];
  readonly lifts: readonly Uint8Array[];
}

export function threadsOf(plan: Plan): Threads {
  const colours = plan.yarns.map((yarn) => pixelOf(yarn.colour));
  const byLetter = new Map(plan.yarns.map((yarn, i) => [yarn.letter, colours[i] ?? 0]));
  const asWritten = Uint32Array.from(
    expandRuns(warpRuns(plan.warp.order)),
    (letter) => byLetter.get(letter) ?? 0,
  );
  const lifts = plainLifts(
    asWritten.length,
    shedLiftingFirstEnd(plan.loom.kind, plan.warp.firstEnd),
  );
  if (plan.warp.viewpoint === 'front') return { ends: asWritten, colours, lifts };
  return { ends: asWritten.toReversed(), colours, lifts: lifts.map((lift) => lift.toReversed()) };
}
