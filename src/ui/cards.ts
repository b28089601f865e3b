/** What the Warps screen shows. Fetched with it: the bench starts without. */
import { NO_WORK, workSince } from '../core/backup/reminder.ts';
import type { Progress } from '../core/bench/progress.ts';
import { theStore } from './actions.ts';
import { lookAtShelf } from './drafts.ts';
import { load } from './loading.ts';
import { exportedAt, type WarpCard, warpCards } from './state.ts';

export async function refreshCards(): Promise<void> {
  warpCards.value = await loadCards();
}

export async function loadCards(): Promise<readonly WarpCard[]> {
  await Promise.all([readExported(), lookAtShelf()]);
  const warps = await theStore().warps();
  return Promise.all(
    warps.map(async (warp) => {
      const loaded = await load(theStore(), warp);
      if (loaded === null) return { warp, progress: null, work: NO_WORK, warpingSteps: 0 };
      const work = warp.demo ? NO_WORK : workSince(loaded.log, exportedAt.peek());
      const warpingSteps = await stepsOf(loaded.progress);
      return { warp, progress: loaded.progress, work, warpingSteps };
    }),
  );
}

/** However long the warp will be. */
async function stepsOf({ course: { plan }, warped, warpingWay }: Progress): Promise<number> {
  if (warped === 0) return 0;
  const { usualWay, warpingList } = await import('../core/plan/warping.ts');
  return warpingList(plan, { ...(warpingWay ?? usualWay(plan)), warpLength: 0 }).steps.length;
}

/** When a backup last left this device. */
export async function readExported(): Promise<void> {
  const at = await theStore().setting('exported');
  exportedAt.value = typeof at === 'string' ? at : null;
}
