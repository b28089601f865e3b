/**
 * A file that is ready, to save or to share. It is made first and offered then: a share sheet opens
 * only at the very tap that asks for it, and would not wait for the file to be made.
 */

import { canShare, downloadFile, shareFile } from '../device/files.ts';
import { t } from '../language/t.ts';
import '../style/offer.css';
import { sizeWords } from './sizeWords.ts';

export interface FileOfferProps {
  readonly what: string;
  /** What its buttons are for, where several offers stand on one screen. */
  readonly name: string;
  /** Null while it is being made; words instead of a file say why there is none. */
  readonly file: File | string | null;
}

export function FileOffer({ what, name, file }: FileOfferProps) {
  const words =
    file === null ? t('making it …') : typeof file === 'string' ? file : sizeWords(file.size);
  const ready = file instanceof File ? file : null;
  return (
    <section class="offer-file">
      <div>
        <h3>{what}</h3>
        <p role="status">{words}</p>
      </div>
      {typeof file === 'string' ? null : (
        <button
          type="button"
          class="button"
          disabled={ready === null}
          aria-label={t('Save {name}', { name })}
          onClick={() => ready !== null && downloadFile(ready)}
        >
          {t('Save')}
        </button>
      )}
      {ready !== null && canShare(ready) ? (
        <button
          type="button"
          class="button"
          aria-label={t('Share {name}', { name })}
          onClick={() => void shareFile(ready)}
        >
          {t('Share')}
        </button>
      ) : null}
    </section>
  );
}

/** A file name that every system takes, of words of any language. */
export function fileName(words: string, without: string): string {
  return words.replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-|-$/g, '') || without;
}
