/** Taking something away, so that it can be put back; and choosing between branches. */
import { type Contents, NOTHING } from '../../core/backup/contents.ts';
import { readBackup } from '../../core/backup/file/readBackup.ts';
import type { WarpRecord } from '../../store/store.ts';
import { guarded, removeWarp, showWarps, theStore } from '../actions.ts';
import { removeDraft } from '../planning.ts';
import { type Removed, removed, type Things } from './removed.ts';
import { keepFirst, textOf } from './snapshots.ts';

/** Answers false, and takes nothing away, when it could not be kept first and is wanted so. */
export async function removeSafely(things: Things, without?: 'snapshot'): Promise<boolean> {
  const kept = without === 'snapshot' ? null : await keepFirst('removal', things.name);
  if (kept?.kind === 'failed') return false;
  for (const { id } of things.warps) await removeWarp(id);
  for (const { id } of things.drafts) await removeDraft(id);
  removed.value = kept?.kind === 'kept' ? { ...things, snapshot: kept.id } : null;
  return true;
}

/** Only what was taken away comes back, as it was; all that was done since stays. */
export async function putBack({ warps, drafts, snapshot }: Removed): Promise<void> {
  const text = await textOf(snapshot);
  const read = text === null ? null : readBackup(text);
  if (read === null || !read.ok) return;
  const here = await theStore().contents();
  const warpIds = missingIds(warps, new Set(here.warps.map(({ warp }) => warp.id)));
  const draftIds = missingIds(drafts, new Set());
  const back: Contents = {
    ...NOTHING,
    warps: read.value.warps.filter(({ warp }) => warpIds.has(warp.id)),
    records: read.value.records.filter(({ kind, id }) => kind === 'draft' && draftIds.has(id)),
  };
  if (await guarded(theStore().addContents(back))) removed.value = null;
  await showWarps();
}

function missingIds(
  things: readonly { readonly id: string }[],
  here: ReadonlySet<string>,
): ReadonlySet<string> {
  return new Set(things.map(({ id }) => id).filter((id) => !here.has(id)));
}

/** Branches stay as warps of their own, and nobody asks again. */
export async function keepBranches(branches: readonly WarpRecord[]): Promise<void> {
  const warps = branches.flatMap(({ branchOf, ...warp }) => {
    if (branchOf === undefined) return [];
    const settled = { ...warp, branchOf: { ...branchOf, settled: true as const } };
    return [{ warp: settled, plans: [], log: [] }];
  });
  await guarded(theStore().addContents({ ...NOTHING, warps }));
  await showWarps();
}
