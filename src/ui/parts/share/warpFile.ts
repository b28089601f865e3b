/**
 * A warp with its plans, its whole log and the photos in it: a backup file that holds this warp
 * alone, so that another device can take it in and weave on.
 */

import { writeBackup } from '../../../core/backup/file/backupFile.ts';
import type { LogEvent } from '../../../core/bench/events.ts';
import type { StoredRecord, WarpRecord } from '../../../store/store.ts';
import { now, theStore } from '../../actions.ts';
import { session } from '../../state.ts';
import { fileName } from '../fileOffer.tsx';

/** Everything logged up to now, on the disk already or not. */
export async function warpFile(warp: WarpRecord): Promise<File> {
  const store = theStore();
  const log = logOf(warp.id) ?? (await store.eventsOf(warp.id));
  const revisions = await store.revisionsOf(warp.id);
  const text = writeBackup({
    madeAt: now(),
    // In the file, not for a reader.
    app: String(import.meta.env.APP_VERSION ?? 'Fellmark'),
    warps: [{ warp, plans: revisions.map(({ warp: _, ...plan }) => plan), log }],
    records: await photosIn(log),
    settings: [],
  });
  return new File([text], `${fileName(warp.name, 'warp')}-as-woven.json`, {
    type: 'application/json',
  });
}

/** Of the warp at the loom: the disk may be a tap behind. */
function logOf(id: string): readonly LogEvent[] | null {
  const at = session.peek();
  return at?.warp.id === id ? [...at.log] : null;
}

async function photosIn(log: readonly LogEvent[]): Promise<readonly StoredRecord[]> {
  const ids = log.flatMap((event) => (event.kind === 'photographed' ? [event.photo] : []));
  const found = await Promise.all(ids.map((id) => theStore().record('photo', id)));
  return found.filter((it) => it !== undefined);
}
