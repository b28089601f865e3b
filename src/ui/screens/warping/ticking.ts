/** Ticking steps off, and changing how the warp is put on. Every tick says which list it is of. */
import type { WarpingList, WarpingWay } from '../../../core/plan/warping/list.ts';
import { happen, undo } from '../../actions.ts';
import { session, settings } from '../../state.ts';

let lastTick = Number.NEGATIVE_INFINITY;

/** One step, unless it is the bounce of the tap before or there is none left. */
export function tick(timeStamp: number, list: WarpingList, way: WarpingWay): void {
  const done = session.peek()?.progress.warped ?? 0;
  if (done >= list.steps.length) return;
  if (timeStamp - lastTick < settings.peek().bounceMs) return;
  lastTick = timeStamp;
  happen({ kind: 'warped', steps: 1, way });
}

export function takeBack(): void {
  lastTick = Number.NEGATIVE_INFINITY;
  undo();
}

/** Another list: it begins at its first step. Undo gives the old one back with its place. */
export function startList(way: WarpingWay): void {
  const done = session.peek()?.progress.warped ?? 0;
  happen({ kind: 'warped', steps: done === 0 ? 0 : -done, way });
}
