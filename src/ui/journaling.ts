/** What the Journal does: notes and photos are events like every other; photos lie beside the log. */
import { computed } from '@preact/signals';
import { journalOf } from '../core/journal/journal.ts';
import { PHOTO_VERSION } from '../core/journal/photo.ts';
import { happen, newId, now } from './actions.ts';
import type { ScaledPhoto } from './device/scalePhoto.ts';
import { keepPhoto } from './photos.ts';
import { session } from './state.ts';

export const journal = computed(() => {
  const at = session.value;
  return at === null ? null : journalOf(at.base, at.log);
});

/** The piece a note is about; null is the whole warp. */
export type About = number | null;

const pieceOf = (about: About) => (about === null ? {} : { piece: about });

export function note(text: string, about: About): void {
  happen({ kind: 'noted', text, ...pieceOf(about) });
}

/** The photo first, then the word of it: a journal never names a photo that was not kept. */
export async function keepPicture(
  scaled: ScaledPhoto,
  text: string,
  about: About,
): Promise<boolean> {
  const photo = {
    version: PHOTO_VERSION,
    id: newId(),
    at: now(),
    type: 'image/jpeg',
    ...scaled,
  } as const;
  if (!(await keepPhoto(photo))) return false;
  happen({
    kind: 'photographed',
    photo: photo.id,
    ...(text === '' ? {} : { text }),
    ...pieceOf(about),
  });
  return true;
}

/** A note or photo taken out of the journal; undo is one more event, and can be undone itself. */
export function takeOut(event: string): void {
  happen({ kind: 'undone', event });
}

export function putBackIn(event: string): void {
  happen({ kind: 'redone', event });
}
