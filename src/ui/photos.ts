/** Photos of the journal: kept beside the log, each under its id, loaded one at a time. */
import type { LogEvent } from '../core/bench/events.ts';
import { decodePhoto, type Photo } from '../core/journal/photo.ts';
import { guarded, theStore } from './actions.ts';

const KIND = 'photo' as const;

/** Of this visit: a page is scrolled up and down, and a photo is half a megabyte. */
const seen = new Map<string, Photo>();
const MOST_SEEN = 24;

/** Answers whether it was kept. */
export async function keepPhoto(photo: Photo): Promise<boolean> {
  const record = { kind: KIND, id: photo.id, changedAt: photo.at, body: photo };
  const kept = await guarded(theStore().putRecord(record));
  if (kept) remember(photo);
  return kept;
}

/** Null where it is not there or cannot be read. */
export async function photoOf(id: string): Promise<Photo | null> {
  const known = seen.get(id);
  if (known !== undefined) return known;
  const read = decodePhoto((await theStore().record(KIND, id))?.body);
  if (!read.ok) return null;
  remember(read.value);
  return read.value;
}

function remember(photo: Photo): void {
  seen.set(photo.id, photo);
  const [oldest] = seen.keys();
  if (seen.size > MOST_SEEN && oldest !== undefined) seen.delete(oldest);
}

export const sourceOf = ({ type, data }: Photo) => `data:${type};base64,${data}`;

/** Takes the photos of a warp away that no other warp's journal shows: a copy of one shares them. */
export async function forgetPhotosOf(warp: string): Promise<void> {
  const store = theStore();
  const own = photosIn(await store.eventsOf(warp));
  if (own.size === 0) return;
  for (const other of await store.warps()) {
    if (other.id === warp) continue;
    for (const id of photosIn(await store.eventsOf(other.id))) own.delete(id);
  }
  for (const id of own) await store.removeRecord(KIND, id);
}

function photosIn(log: readonly LogEvent[]): Set<string> {
  return new Set(log.flatMap((it) => (it.kind === 'photographed' ? [it.photo] : [])));
}
