/** Every half hour of weaving a snapshot: looked at with each tap, taken beside the bench. */
import { effect } from '@preact/signals';
import { isSnapshotDue } from '../../core/backup/snapshots.ts';
import { listSnapshots } from '../../store/snapshots/ask.ts';
import { session } from '../state.ts';
import { keepFirst } from './snapshots.ts';

/** Called once, some time after the start. */
export async function watchWeaving(): Promise<void> {
  let last = (await listSnapshots())[0]?.madeAt ?? null;
  effect(() => {
    const log = session.value?.log ?? [];
    const newest = log[log.length - 1];
    if (newest === undefined || !isSnapshotDue(log, last)) return;
    // Also when it fails: the next try is half an hour later, not at the next tap.
    last = newest.at;
    void keepFirst('weaving');
  });
}
