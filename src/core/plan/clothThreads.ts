/** The ends of a plan as the picture has them: from the left, as the weaver sits in front. */
import { expandRuns } from '../measure/runs.ts';
import { liftsOf, pixelOf } from './clothPicture.ts';
import { warpRuns } from './geometry.ts';
import type { Plan } from './plan.ts';

/** Colour of every end. */
export function endsFromLeft({ yarns, warp }: Plan): Uint32Array {
  const pixels = new Map(yarns.map(({ letter, colour }) => [letter, pixelOf(colour)]));
  const written = expandRuns(warpRuns(warp.order));
  const ends = Uint32Array.from(written, (letter) => pixels.get(letter) ?? 0);
  return warp.viewpoint === 'front' ? ends : ends.reverse();
}

/** For every shed one byte an end: 1 where the end is up. */
export function liftsFromLeft({ loom, warp }: Plan, ends: number): readonly Uint8Array[] {
  const lifts = liftsOf(loom, warp.firstEnd, ends);
  return warp.viewpoint === 'front' ? lifts : lifts.map((lift) => lift.toReversed());
}
