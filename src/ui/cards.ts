/** What the Warps screen shows. Fetched with it: the bench starts without. */
import { NO_WORK, workSince } from '../core/backup/reminder.ts';
import { load, theStore } from './actions.ts';
import { exportedAt, type WarpCard, warpCards } from './state.ts';

export async function refreshCards(): Promise<void> {
  warpCards.value = await loadCards();
}

export async function loadCards(): Promise<readonly WarpCard[]> {
  await readExported();
  const warps = await theStore().warps();
  return Promise.all(
    warps.map(async (warp) => {
      const loaded = await load(warp, 'cards');
      if (loaded === null) return { warp, progress: null, work: NO_WORK };
      const work = warp.demo ? NO_WORK : workSince(loaded.log, exportedAt.peek());
      return { warp, progress: loaded.progress, work };
    }),
  );
}

/** When a backup last left this device. */
export async function readExported(): Promise<void> {
  const at = await theStore().setting('exported');
  exportedAt.value = typeof at === 'string' ? at : null;
}
