/** A plan's threads as the cloth picture wants them: pixels of every end and yarn, and the lifts. */
import { pixelOf } from '../../core/plan/clothPicture.ts';
import { endsFromLeft, liftsFromLeft } from '../../core/plan/clothThreads.ts';
import type { Plan } from '../../core/plan/plan.ts';

export interface Threads {
  /** Colour of every end, from the left as the weaver sits in front. */
  readonly ends: Uint32Array;
  /** Colour by yarn index. */
  readonly colours: readonly number[];
  readonly lifts: readonly Uint8Array[];
}

export function threadsOf(plan: Plan): Threads {
  const ends = endsFromLeft(plan);
  const colours = plan.yarns.map((yarn) => pixelOf(yarn.colour));
  return { ends, colours, lifts: liftsFromLeft(plan, ends.length) };
}
