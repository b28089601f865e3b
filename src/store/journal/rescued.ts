/** The file of the rescue page, read back with the journal in it, which may have what the database has not. */
import { type Contents, NOTHING } from '../../core/backup/contents.ts';
import type { BackupProblem } from '../../core/backup/file/problems.ts';
import { RESCUE_FORMAT, type Rescued, readRescue } from '../../core/backup/file/readRescue.ts';
import { planImport } from '../../core/backup/merge/planImport.ts';
import type { LogEvent } from '../../core/bench/events.ts';
import { ok, type Result } from '../../core/measure/result.ts';
import type { Plan } from '../../core/plan/plan.ts';
import { createMemoryStore } from '../memory.ts';
import type { Op } from '../op.ts';
import { byWarp } from '../perform.ts';
import { DATABASE_NAME } from '../schema.ts';
import type { Store } from '../store.ts';
import { fileOver } from './fileOver.ts';
import { currentOf } from './journalFile.ts';
import { FOLDER, NAMES } from './names.ts';
import { readPages } from './pages.ts';

/**
 * What database and journal have together; what either could not give is told. Never rejects. Fails
 * as `readRescue` does, but not for want of a database while there is a journal.
 */
export async function readRescueFile(
  text: string,
): Promise<Result<Rescued, readonly BackupProblem[]>> {
  const database = readRescue(text);
  const hasNone = !database.ok && database.problem.some(({ path }) => path === 'databases');
  if (!database.ok && !hasNone) return database;
  const file = JSON.parse(text) as { readonly files?: unknown; readonly madeAt?: unknown };
  const written = await historyIn(file.files)
    .then((it) => (it === null ? null : asRescueText(it, file.madeAt)))
    .catch(() => null);
  // Read as strictly as the database in such a file: whoever wrote it need not have been we.
  const journal = written === null ? null : readRescue(written);
  if (journal === null || !journal.ok) return database;
  return ok(database.ok ? await together(database.value, journal.value) : journal.value);
}

async function together(database: Rescued, journal: Rescued): Promise<Rescued> {
  const store = createMemoryStore();
  await store.addContents(journal.backup);
  await store.addContents(planImport(journal.backup, database.backup).additions);
  return {
    backup: { ...database.backup, ...(await store.contents()) },
    left: [...database.left, ...journal.left],
  };
}

/** What the journal among these files leads to; null without one. */
async function historyIn(files: unknown): Promise<Contents | null> {
  const paths = NAMES.map((name) => `${FOLDER}/${name}`);
  const found = (Array.isArray(files) ? files : []).filter(
    (it): it is { readonly base64: string } =>
      paths.includes(it?.path) && typeof it.base64 === 'string',
  );
  const current = currentOf(found.map(({ base64 }) => fileOver(bytesOf(base64))));
  if (current === null) return null;
  const { entries } = readPages(current.file, current.head);
  if (entries.length === 0) return null;
  const store = createMemoryStore();
  for (const { op } of entries) await performIn(store, op).catch(() => undefined);
  return store.contents();
}

function bytesOf(base64: string): Uint8Array {
  try {
    return Uint8Array.from(atob(base64), (it) => it.charCodeAt(0));
  } catch {
    return new Uint8Array();
  }
}

/** Rejects what makes no sense, having done nothing. */
async function performIn(store: Store, op: Op): Promise<void> {
  switch (op.kind) {
    case 'warp':
      return store.addWarp(op.warp, op.plan as Plan);
    case 'revision':
      return store.addRevision({ ...op.revision, plan: op.revision.plan as Plan });
    case 'events':
      return appendOrphans(store, op.events);
    case 'setting':
      return store.setSetting(op.name, op.value);
    case 'record':
      return store.putRecord(op.record);
    case 'noWarp':
      return store.removeWarp(op.id);
    case 'noRecord':
      return store.removeRecord(op.of, op.id);
    case 'more':
      return store.addContents(op.contents);
    case 'all':
      return store.replaceContents(op.contents);
  }
}

/** A line that is damaged may have been the warp's own: what was woven on it is kept all the same. */
async function appendOrphans(store: Store, events: readonly LogEvent[]): Promise<void> {
  const known = new Set((await store.warps()).map(({ id }) => id));
  for (const [id, [first]] of byWarp(events)) {
    if (known.has(id)) continue;
    const warp = { id, name: 'Recovered', demo: false, madeAt: first.at, wovenAt: null };
    await store.addContents({ ...NOTHING, warps: [{ warp, plans: [], log: [] }] });
  }
  await store.appendAll(events);
}

function asRescueText({ warps, records, settings }: Contents, madeAt: unknown): string {
  const rooms = {
    warps: warps.map(({ warp }) => warp),
    revisions: warps.flatMap(({ warp, plans }) => plans.map((it) => ({ warp: warp.id, ...it }))),
    events: warps.flatMap(({ log }) => log),
    records,
    settings,
  };
  const asRooms = Object.entries(rooms).map(([name, values]) => ({
    name,
    records: values.map((value) => ({ value })),
  }));
  const databases = [{ name: DATABASE_NAME, rooms: asRooms }];
  return JSON.stringify({ format: RESCUE_FORMAT, madeAt, databases });
}
