/** A backup out of this device: shared where the system can, saved as a file everywhere. */

import { now } from '../../actions.ts';
import { canShare } from '../../device/files.ts';
import {
  downloadBackup,
  handedOver,
  type ReadyBackup,
  ready,
  remember,
  shareBackup,
} from '../../keeping/goingOut.ts';
import { t, tParts } from '../../language/t.ts';
import { sizeWords } from '../../parts/sizeWords.ts';
import { whenWords } from '../../parts/when.ts';
import { exportedAt, trouble } from '../../state.ts';
import { holdsWords } from './words.ts';

export function GoingOut() {
  // What is open then is an empty store, and no backup of anything.
  if (trouble.value === 'newer-data') return null;
  return <Backup />;
}

function Backup() {
  const backup = ready.value;
  const at = exportedAt.value;
  return (
    <section class="keep-part">
      <h2>{t('A backup outside this device')}</h2>
      <p class="lead">
        {t(
          'Everything in one file: warps with their plans and logs, drafts, the shelf, motifs, what was learnt, and photos. Put it where the loss of this device does not take it along.',
        )}
      </p>
      <p class="keep-state">
        {at === null
          ? t('No backup has left this device yet.')
          : t('The last backup left this device {when}.', { when: whenWords(at, new Date(now())) })}
      </p>
      <p role="status">
        {backup === null
          ? t('Making the file …')
          : t('{holds}: {size}.', {
              holds: holdsWords(backup.holds),
              size: sizeWords(backup.file.size),
            })}
      </p>
      <OutButtons backup={backup} />
      <Seen />
    </section>
  );
}

function OutButtons({ backup }: { readonly backup: ReadyBackup | null }) {
  const shares = backup !== null && canShare(backup.file);
  return (
    <div class="row">
      {shares ? (
        <button type="button" class="button strong" onClick={() => void shareBackup(backup)}>
          {t('Share the backup')}
        </button>
      ) : null}
      <button
        type="button"
        class={shares ? 'button' : 'button strong'}
        disabled={backup === null}
        onClick={() => backup !== null && downloadBackup(backup)}
      >
        {t('Save the backup')}
      </button>
    </div>
  );
}

/** No browser tells whether a file it was handed came to lie anywhere: the weaver looks. */
function Seen() {
  const backup = handedOver.value;
  return (
    <div role="status">
      {backup === null ? null : (
        <div class="offer">
          <p>
            {tParts('Is {name} among your downloads? Then it counts as a backup.', {
              name: <strong>{backup.file.name}</strong>,
            })}
          </p>
          <div class="row">
            <button type="button" class="button strong" onClick={() => void remember(backup)}>
              {t('It is there')}
            </button>
            <button
              type="button"
              class="button"
              onClick={() => {
                handedOver.value = null;
              }}
            >
              {t('It is not')}
            </button>
          </div>
        </div>
      )}
    </div>
  );
}
