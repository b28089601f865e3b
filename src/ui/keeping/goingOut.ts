/**
 * A backup on its way out. The file is made before the button is shown: a share sheet opens only at
 * the very tap that asks for it. It counts as a backup when its bytes have left this device.
 */
import { batch, signal } from '@preact/signals';
import { type Holds, holdsOf, writeBackup } from '../../core/backup/file/backupFile.ts';
import { guarded, now, theStore } from '../actions.ts';
import { downloadFile, shareFile } from '../device/files.ts';
import { exportedAt } from '../state.ts';
import { APP_VERSION, everything } from './everything.ts';

export interface ReadyBackup {
  readonly file: File;
  readonly madeAt: string;
  readonly holds: Holds;
}

/** Null while it is being made. */
export const ready = signal<ReadyBackup | null>(null);
/** What was handed to the browser to save: whether it came to lie anywhere only the weaver can see. */
export const handedOver = signal<ReadyBackup | null>(null);

export async function makeReady(): Promise<void> {
  ready.value = null;
  const madeAt = now();
  const contents = await everything();
  const text = writeBackup({ madeAt, app: APP_VERSION, ...contents });
  const file = new File([text], datedName('backup', madeAt, 'json'), { type: 'application/json' });
  ready.value = { file, madeAt, holds: holdsOf(contents) };
}

/** `fellmark-backup-2026-11-27.json`, by this device's own calendar. */
export function datedName(what: string, at: string, ending: string): string {
  const day = new Date(at);
  const two = (n: number) => String(n).padStart(2, '0');
  const date = `${day.getFullYear()}-${two(day.getMonth() + 1)}-${two(day.getDate())}`;
  return `fellmark-${what}-${date}.${ending}`;
}

/** Called at the tap itself. */
export async function shareBackup(backup: ReadyBackup): Promise<void> {
  if ((await shareFile(backup.file)) === 'shared') await remember(backup);
}

export function downloadBackup(backup: ReadyBackup): void {
  downloadFile(backup.file);
  handedOver.value = backup;
}

/** The weaver has seen the file, or knows where it went. */
export async function remember({ madeAt }: ReadyBackup): Promise<void> {
  if (!(await guarded(theStore().setSetting('exported', madeAt)))) return;
  batch(() => {
    exportedAt.value = madeAt;
    handedOver.value = null;
  });
}
