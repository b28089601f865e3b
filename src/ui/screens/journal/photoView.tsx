/** A kept photo, fetched when it is first shown. */

import { useEffect, useState } from 'preact/hooks';
import type { Photo } from '../../../core/journal/photo.ts';
import { t } from '../../language/t.ts';
import { photoOf, sourceOf } from '../../photos.ts';

export interface PhotoViewProps {
  readonly id: string;
  readonly words: string;
}

export function PhotoView({ id, words }: PhotoViewProps) {
  const [photo, setPhoto] = useState<Photo | 'missing' | null>(null);
  useEffect(() => {
    let wanted = true;
    void photoOf(id).then((it) => {
      if (wanted) setPhoto(it ?? 'missing');
    });
    return () => {
      wanted = false;
    };
  }, [id]);
  if (photo === null) return <p class="hint">…</p>;
  if (photo === 'missing') return <p class="hint">{t('This photo is not on this device.')}</p>;
  return (
    <img
      class="photo-kept"
      src={sourceOf(photo)}
      width={photo.width}
      height={photo.height}
      alt={words}
    />
  );
}
