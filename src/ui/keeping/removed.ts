/** What was taken away last; how it is done and undone is `removing.ts`, fetched at the tap. */
import { signal } from '@preact/signals';
import type { WarpRecord } from '../../store/store.ts';
import type { StoredDraft } from '../drafts.ts';

/** Warps, or a draft. */
export interface Things {
  readonly name: string;
  readonly warps: readonly WarpRecord[];
  readonly drafts: readonly StoredDraft[];
}

/** Things, and the snapshot they lie in. */
export interface Removed extends Things {
  readonly snapshot: string;
}

export const removed = signal<Removed | null>(null);
