/** Motifs as the screens see them: read from the store when a screen first wants them. */
import { batch, signal } from '@preact/signals';
import { NO_ADJUSTMENTS } from '../core/bench/adjustments.ts';
import { type Course, layCourse } from '../core/bench/course.ts';
import { decodeMotif, type Motif, planOfMotif } from '../core/plan/motif.ts';
import { guarded, newId, now, theStore } from './actions.ts';

const KIND = 'motif' as const;

/** The one kept last first. */
export const motifShelf = signal<readonly Motif[]>([]);
/** What was done to the shelf last, and the motif as it was before. */
export const lastChange = signal<MotifChange | null>(null);

export interface MotifChange {
  readonly kind: 'removed' | 'changed';
  readonly before: Motif;
}

let saving: Promise<unknown> = Promise.resolve();

/** What cannot be read is left where it is, unshown. */
export async function loadMotifs(): Promise<void> {
  await saving;
  await guarded(readMotifs());
}

async function readMotifs(): Promise<void> {
  const records = await theStore().records(KIND);
  const motifs = records.flatMap(({ body }) => {
    const read = decodeMotif(body);
    return read.ok ? [read.value] : [];
  });
  batch(() => {
    lastChange.value = null;
    motifShelf.value = latestFirst(motifs);
  });
}

function latestFirst(motifs: readonly Motif[]): readonly Motif[] {
  return [...motifs].sort((a, b) => b.madeAt.localeCompare(a.madeAt) || (a.id < b.id ? -1 : 1));
}

/** The id and the time a new motif gets. */
export const newHead = () => ({ id: newId(), madeAt: now() });

/** Puts a motif on the shelf, or says that it is none that could be read back: too fine a beat, say. */
export function keepMotif(motif: Motif): boolean {
  if (!decodeMotif(motif).ok) return false;
  lastChange.value = null;
  put(motif);
  return true;
}

/** The same motif changed; `putBack` undoes it. */
export function changeMotif(motif: Motif): boolean {
  const before = motifShelf.peek().find((it) => it.id === motif.id);
  if (before === undefined || !decodeMotif(motif).ok) return false;
  lastChange.value = { kind: 'changed', before };
  put(motif);
  return true;
}

/** Takes it off the shelf; `putBack` undoes it. What was woven or planned with it stays. */
export function removeMotif(motif: Motif): void {
  batch(() => {
    motifShelf.value = motifShelf.peek().filter((it) => it.id !== motif.id);
    lastChange.value = { kind: 'removed', before: motif };
  });
  saving = guarded(theStore().removeRecord(KIND, motif.id));
}

/** The motif changed or removed last as it was before. */
export function putBack(): void {
  const change = lastChange.peek();
  if (change === null) return;
  lastChange.value = null;
  put(change.before);
}

function put(motif: Motif): void {
  const others = motifShelf.peek().filter((it) => it.id !== motif.id);
  motifShelf.value = latestFirst([...others, motif]);
  const record = { kind: KIND, id: motif.id, changedAt: now(), body: motif };
  saving = guarded(theStore().putRecord(record));
}

/** A motif laid out, to be painted: woven once on its own warp. */
export function courseOfMotif(motif: Motif): Course {
  return layCourse(planOfMotif(motif), NO_ADJUSTMENTS);
}
