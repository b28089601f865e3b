/** A backup on its way in: looked at first, then brought in at one go or not at all. */

import { batch, signal } from '@preact/signals';
import { inPlaceOf } from '../../core/backup/contents.ts';
import { BACKUP_LIMITS, type Backup } from '../../core/backup/file/backupFile.ts';
import { formatOf } from '../../core/backup/file/formatOf.ts';
import type { BackupProblem } from '../../core/backup/file/problems.ts';
import { type BackupResult, readBackup } from '../../core/backup/file/readBackup.ts';
import { RESCUE_FORMAT, type Rescued } from '../../core/backup/file/readRescue.ts';
import { unreadIn } from '../../core/backup/file/unread.ts';
import { picksOf } from '../../core/backup/merge/picksOf.ts';
import {
  planImport,
  type RecordOutcome,
  type WarpOutcome,
} from '../../core/backup/merge/planImport.ts';
import type { SnapshotNote } from '../../core/backup/snapshots.ts';
import { fail, ok, type Result } from '../../core/measure/result.ts';
import type { Problem } from '../../core/plan/problems.ts';
import { readRescueFile } from '../../store/journal/rescued.ts';
import { guarded, loadSettings, theStore } from '../actions.ts';
import { readExported, refreshCards } from '../cards.ts';
import { startAnew } from '../device/windows.ts';
import { draft } from '../draft.ts';
import { t } from '../language/t.ts';
import { screen } from '../state.ts';
import { everything } from './everything.ts';
import { makeReady } from './goingOut.ts';
import { type Kept, keepFirst, loadSnapshots, textOf } from './snapshots.ts';

export type Source =
  | { readonly kind: 'file'; readonly name: string }
  | { readonly kind: 'snapshot'; readonly note: SnapshotNote };

export interface Incoming {
  readonly source: Source;
  readonly backup: Backup;
  readonly rows: readonly IncomingRow[];
  readonly records: readonly RecordOutcome[];
  /** What this version cannot read of it; it is carried along. */
  readonly unread: readonly Problem[];
  /** What of a rescue file could not be read and is left out. */
  readonly left: readonly BackupProblem[];
}

export interface IncomingRow {
  readonly kind: WarpOutcome['kind'];
  readonly id: string;
  readonly name: string;
  readonly demo: boolean;
  /** Picks in the cloth; null where there is no such warp, or its plan cannot be read. */
  readonly here: number | null;
  readonly there: number | null;
}

export interface RefusedFile {
  readonly name: string;
  readonly problems: readonly BackupProblem[];
}

/** What was done last, and the snapshot that undoes it. */
export interface Done {
  readonly kind: 'brought-in' | 'replaced' | 'undone';
  readonly source: Source;
  readonly undo: string | null;
}

/** What is looked at now. */
export const incoming = signal<Incoming | null>(null);
export const refusedFile = signal<RefusedFile | null>(null);
export const done = signal<Done | null>(null);
/** The state before could not be kept, so nothing was done. */
export const notKept = signal(false);
export const working = signal(false);

export async function lookAtFile(file: File): Promise<void> {
  const tooLarge = file.size > 4 * BACKUP_LIMITS.text;
  const read: Result<Rescued, readonly BackupProblem[]> = tooLarge
    ? fail([{ path: '', code: 'too-large', right: '200 MB' }])
    : await readEither(await file.text());
  await show(read, { kind: 'file', name: file.name });
}

/** A backup, or what the rescue page saved. */
async function readEither(text: string): Promise<Result<Rescued, readonly BackupProblem[]>> {
  return formatOf(text) === RESCUE_FORMAT ? readRescueFile(text) : whole(readBackup(text));
}

function whole(read: BackupResult): Result<Rescued, readonly BackupProblem[]> {
  return read.ok ? ok({ backup: read.value, left: [] }) : read;
}

export async function lookAtSnapshot(note: SnapshotNote): Promise<void> {
  const text = await textOf(note.id);
  const read = text === null ? fail([{ path: '', code: 'changed' }]) : whole(readBackup(text));
  await show(read, { kind: 'snapshot', note });
}

async function show(
  read: Result<Rescued, readonly BackupProblem[]>,
  source: Source,
): Promise<void> {
  const name = source.kind === 'file' ? source.name : t('This snapshot');
  const shown = read.ok ? await previewOf(read.value, source) : null;
  batch(() => {
    done.value = null;
    notKept.value = false;
    incoming.value = shown;
    refusedFile.value = read.ok ? null : { name, problems: read.problem };
  });
}

async function previewOf({ backup, left }: Rescued, source: Source): Promise<Incoming> {
  const { warps, records } = planImport(await everything(), backup);
  return { source, backup, rows: warps.map(rowOf), records, unread: unreadIn(backup), left };
}

function rowOf(outcome: WarpOutcome): IncomingRow {
  const { there, kind } = outcome;
  const { id, name, demo } = there.warp;
  const here = 'here' in outcome ? picksOf(outcome.here) : null;
  return { kind, id, name, demo, here, there: picksOf(there) };
}

export function leaveIt(): void {
  batch(() => {
    incoming.value = null;
    refusedFile.value = null;
    notKept.value = false;
  });
}

/** Adds what is new. The state before is kept first, unless the weaver does without. */
export async function bringIn({ backup, source }: Incoming, without?: 'snapshot'): Promise<void> {
  await change({
    kind: 'brought-in',
    source,
    keep: async () =>
      without === 'snapshot' ? { kind: 'nothing' } : keepFirst('import', nameOf(source)),
    // Planned again from what is here now: another window may have woven on meanwhile.
    write: async () => {
      const { additions } = planImport(await theStore().contents(), backup);
      await theStore().addContents(additions);
    },
  });
}

/** Puts a backup, or a snapshot, in the place of everything. Never without keeping that first. */
export async function replaceAll({ backup, source }: Incoming): Promise<void> {
  const reason = source.kind === 'file' ? 'replace' : 'restore';
  await change({
    kind: 'replaced',
    source,
    keep: () => keepFirst(reason, nameOf(source)),
    write: async () => {
      const here = await theStore().contents();
      await theStore().replaceContents(inPlaceOf(here, backup));
    },
  });
}

/** Everything as it was before the last change here; that is a change too, and can be undone. */
export async function undoLast(): Promise<void> {
  const last = done.peek();
  const text = last?.undo == null ? null : await textOf(last.undo);
  const read = text === null ? null : readBackup(text);
  if (last === null || read === null || !read.ok) return;
  const { value } = read;
  await change({
    kind: 'undone',
    source: last.source,
    keep: () => keepFirst('restore', nameOf(last.source)),
    write: async () => {
      const here = await theStore().contents();
      await theStore().replaceContents(inPlaceOf(here, value));
    },
  });
}

interface Change {
  readonly kind: Done['kind'];
  readonly source: Source;
  readonly keep: () => Promise<Kept>;
  readonly write: () => Promise<void>;
}

async function change({ kind, source, keep, write }: Change): Promise<void> {
  if (working.peek()) return;
  working.value = true;
  try {
    const kept = await keep();
    notKept.value = kept.kind === 'failed';
    if (kept.kind === 'failed' || !(await guarded(write()))) return;
    // Whoever brings a backup in after a loss has taken note of it.
    startAnew();
    await guarded(Promise.all([loadSettings(), readExported()]));
    batch(() => {
      // A plan that was being edited may be another one now.
      draft.value = null;
      incoming.value = null;
      done.value = { kind, source, undo: kept.kind === 'kept' ? kept.id : null };
    });
    // Whoever went back to Warps meanwhile finds there what came in.
    if (screen.peek().kind === 'warps') await refreshCards();
    await Promise.all([loadSnapshots(), makeReady()]);
  } finally {
    working.value = false;
  }
}

function nameOf(source: Source): string | undefined {
  return source.kind === 'file' ? source.name : source.note.about;
}
